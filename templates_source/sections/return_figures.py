"""Figures for the return: one wide page for whoever prepares it."""

from templates_source.kit import Sheet
from templates_source.pieces import chapter


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house, landscape=True)
    chapter(sheet, "return_figures", {(6, 1): [10, 72, 62, 38, 24, 20], (3, 1): [115, 60, 30]}, signed=True)
    return sheet.finished()
