"""Scope of work and method statement."""

from templates_source.kit import Sheet
from templates_source.pieces import clauses, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.scope.heading }}")
    clauses(sheet, "r.scope.clauses")
    view_table(sheet, "r.scope.steps", [12, 148], description="Order of the steps")
    view_table(sheet, "r.scope.rounding", [100, 60], description="Rounding of intermediate figures")
    view_table(sheet, "r.scope.final_rounding", [100, 60], right=(1,), description="Final rounding")
    view_table(sheet, "r.scope.conventions", [46, 62, 52], description="How vague words of date are read")
    view_table(sheet, "r.scope.settings", [80, 80], description="Choices of method")
    sheet.heading(2, "{{ r.scope.tables_heading }}")
    sheet.para("{{ r.scope.tables_intro }}")
    with sheet.each("used", "r.scope.tables"):
        for columns, widths in (
            (3, [22, 34, 104]),
            (4, [26, 26, 32, 76]),
            (5, [34, 28, 28, 24, 46]),
            (6, [18, 36, 46, 26, 16, 18]),
        ):
            with sheet.when(f"used.heads|length == {columns}"):
                view_table(sheet, "used", widths, description="A table of the appraiser's")
    return sheet.finished()
