"""Workbooks we write: blank and filled ones from the declarations, findings, schedules, pages for the appraiser."""
