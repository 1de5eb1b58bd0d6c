"""Extraordinary assumptions and hypothetical conditions, apart."""

from templates_source.kit import Sheet
from templates_source.pieces import view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.assumptions.heading }}")
    sheet.para("{{ r.assumptions.intro }}", "Notice")
    for kind in ("extraordinary", "hypothetical"):
        sheet.heading(2, f"{{{{ r.assumptions.{kind}.heading }}}}")
        with sheet.each("words", f"r.assumptions.{kind}.paragraphs"):
            sheet.para("{{ words }}")
        description = f"What is assumed ({kind}) and its effect"
        view_table(sheet, f"r.assumptions.{kind}_table", [14, 26, 60, 60], maybe=True, description=description)
    return sheet.finished()
