"""One frozen class for each sheet of the workbook; its fields are the column declarations.

A column is declared once, on the field that holds its value: heading, kind, allowed words, when it is required,
hint and example. Blank workbook, drop-downs, hints, reader, findings and documentation are derived from here.
"""
