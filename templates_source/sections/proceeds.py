"""What a sale would leave, item by item."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    chapter(sheet, "proceeds", {(2, 8): [62, 25]})
    return sheet.finished()
