"""The workbook: read cell by cell into records, written from the declarations, annotated as a copy, carried into next year's."""
