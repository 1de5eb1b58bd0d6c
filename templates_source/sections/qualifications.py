"""Qualifications of those who formed the opinions or helped."""

from templates_source.kit import Sheet
from templates_source.pieces import clauses


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.qualifications.heading }}")
    sheet.para("{{ r.qualifications.intro }}", keep_next=True)
    clauses(sheet, "r.qualifications.clauses")
    return sheet.finished()
