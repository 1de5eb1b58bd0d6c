"""The policy, sums of the contract, payments."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "policy", {(2, 4): [44, 32], (1, 1): [120]})
    return sheet.finished()
