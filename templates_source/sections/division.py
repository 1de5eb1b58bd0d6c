"""Division by party."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "division", {(3, 1): [70, 26, 36], (1, 1): [120]})
    return sheet.finished()
