"""The summary of values."""

from templates_source.kit import Sheet
from templates_source.pieces import view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.summary.heading }}", front=True)
    sheet.para("{{ r.summary.intro }}")
    view_table(sheet, "r.summary.table", [10, 54, 32, 12], figures=True, description="Items with date and values")
    with sheet.when("r.summary.note"):
        sheet.para("{{ r.summary.note }}", "Notice")
    sheet.page_break()
    return sheet.finished()
