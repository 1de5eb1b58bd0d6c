"""Figures for the return: one wide page for whoever prepares it."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    # A sheet of letter paper is shorter than one of A4.
    sheet.width = 225
    chapter(sheet, "return_figures", {(6, 1): [9, 62, 52, 36, 24, 20], (3, 1): [105, 60, 30]}, signed=True)
    return sheet.finished()
