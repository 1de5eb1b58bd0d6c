"""Particulars of a gift or contribution."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "transfer", {(3, 0): [74, 50, 36], (3, 1): [70, 46, 18]})
    return sheet.finished()
