"""The list of contents."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.contents_heading }}", "ContentsTitle")
    sheet.contents(levels=2)
    return sheet.finished()
