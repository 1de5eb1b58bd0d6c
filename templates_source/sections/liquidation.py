"""The sale of the whole, in good order or at once."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    # A sheet of letter paper is shorter than one of A4.
    sheet.width = 225
    chapter(sheet, "liquidation", {(3, 6): [12, 64, 12], (3, 1): [18, 28, 150], (1, 1): [190]})
    return sheet.finished()
