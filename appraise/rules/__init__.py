"""Rules of law and standards as data: each value with the days it holds, its citation and where it was read.

Percentages of judgement are not rules; they come from the appraiser's workbook.
"""
