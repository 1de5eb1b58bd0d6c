"""A copy of somebody else's workbook with marks and comments: single places are changed, every other byte stays."""
