"""Workbooks: read cell by cell into records, written from the declarations, annotated, carried into next year's."""
