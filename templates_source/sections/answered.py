"""Findings answered in writing."""

from templates_source.kit import Sheet
from templates_source.pieces import view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.answered.heading }}")
    with sheet.each("words", "r.answered.paragraphs"):
        sheet.para("{{ words }}")
    view_table(sheet, "r.answered.table", [16, 26, 58, 60], maybe=True, description="Findings and their answers")
    return sheet.finished()
