"""The open points of a draft."""

from templates_source.kit import Sheet
from templates_source.pieces import view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.open_points.heading }}", front=True)
    with sheet.each("words", "r.open_points.paragraphs"):
        sheet.para("{{ words }}")
    view_table(sheet, "r.open_points.table", [16, 30, 57, 57], maybe=True, description="Open points with their remedy")
    sheet.page_break()
    return sheet.finished()
