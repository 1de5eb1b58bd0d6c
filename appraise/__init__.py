"""Appraisal reports for fine personal property: from a structured workbook to a formal, reproducible report."""

__version__ = "0.1.0"
