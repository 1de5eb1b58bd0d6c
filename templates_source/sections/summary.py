"""The summary of values."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.summary.heading }}", "HeadingFront")
    sheet.para("{{ r.summary.intro }}")
    view_table(
        sheet, "r.summary.table", [10, 54, 32, 12], figures=True, linked=1, description="Items with date and values"
    )
    with sheet.when("r.summary.note"):
        sheet.para("{{ r.summary.note }}", "Notice")
    return sheet.finished()
