"""The sale of the whole, in good order or at once."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    chapter(sheet, "liquidation", {(3, 6): [14, 70, 14], (3, 1): [20, 30, 160], (1, 1): [190]})
    return sheet.finished()
