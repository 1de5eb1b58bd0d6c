"""The estate at both dates."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "alternate", {(3, 2): [56, 36, 22], (1, 1): [120]})
    return sheet.finished()
