"""Worked out from named sales: landed costs, effects of single features."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "derived", {(2, 5): [40, 32], (1, 1): [120]})
    return sheet.finished()
