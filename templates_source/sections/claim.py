"""The loss: damage, repair, measures, sets."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(
        sheet,
        "claim",
        {
            (4, 0): [20, 24, 62, 54],
            (1, 1): [120],
            (3, 2): [44, 26, 40],
            (2, 4): [40, 40],
            (1, 4): [56],
            (2, 1): [90, 35],
        },
    )
    return sheet.finished()
