"""Scope of work and method statement."""

from templates_source.kit import Sheet
from templates_source.pieces import view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.scope.heading }}")
    with sheet.each("clause", "r.scope.clauses"):
        sheet.heading(2, "{{ clause.heading }}")
        with sheet.each("words", "clause.paragraphs"):
            sheet.para("{{ words }}")
        with sheet.each("shown", "clause.tables"):
            for columns, widths in ((2, [80, 80]), (3, [46, 62, 52])):
                with sheet.when(f"shown.heads|length == {columns}"):
                    view_table(sheet, "shown", widths, together=True, description="A table of the method statement")
    sheet.heading(2, "{{ r.scope.tables_heading }}")
    sheet.para("{{ r.scope.tables_intro }}")
    with sheet.each("used", "r.scope.tables"):
        for columns, widths in (
            (2, [40, 40]),
            (3, [22, 34, 104]),
            (4, [26, 26, 32, 76]),
            (5, [24, 26, 24, 42, 44]),
            (6, [18, 36, 46, 26, 16, 18]),
        ):
            with sheet.when(f"used.heads|length == {columns}"):
                view_table(sheet, "used", widths, together=columns in (2, 3), description="The appraiser's table")
    return sheet.finished()
