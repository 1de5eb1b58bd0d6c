"""The table of required elements."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.elements.heading }}")
    with sheet.each("words", "r.elements.paragraphs"):
        sheet.para("{{ words }}")
    view_table(sheet, "r.elements.table", [62, 50, 18, 30], maybe=True, description="Required elements by citation")
    return sheet.finished()
