"""What a sale would leave, item by item."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    # A sheet of letter paper is shorter than one of A4.
    sheet.width = 225
    chapter(sheet, "proceeds", {(2, 8): [52, 24]})
    return sheet.finished()
