"""The summary of values."""

from templates_source.kit import Sheet
from templates_source.pieces import opinions_table, page_heading


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.summary.heading }}", "HeadingFront")
    sheet.para("{{ r.summary.intro }}")
    widths = {1: (10, 72, 38, 12), 2: (10, 54, 32, 12), 3: (9, 40, 26, 11)}
    opinions_table(sheet, "r.summary.table", widths, linked=1, description="Items with date and values")
    with sheet.when("r.summary.note"):
        sheet.para("{{ r.summary.note }}", "Notice")
    return sheet.finished()
