"""What the law calls a misstatement of value."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "penalties", {(3, 0): [84, 46, 30], (1, 3): [70]})
    return sheet.finished()
