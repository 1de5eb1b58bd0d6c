"""Particulars of an expert's report."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    chapter(sheet, "expert", {(3, 0): [26, 36, 98]})
    return sheet.finished()
