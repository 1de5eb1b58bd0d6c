"""The open points of a draft."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.open_points.heading }}", "HeadingFront")
    with sheet.each("words", "r.open_points.paragraphs"):
        sheet.para("{{ words }}")
    view_table(
        sheet, "r.open_points.table", [16, 22, 30, 46, 46], maybe=True, description="Open points with their remedy"
    )
    return sheet.finished()
