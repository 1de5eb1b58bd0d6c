"""The list of contents."""

from templates_source.kit import Sheet


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.para("{{ r.contents_heading }}", "ContentsTitle")
    sheet.contents(levels=2)
    sheet.page_break()
    return sheet.finished()
