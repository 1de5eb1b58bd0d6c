"""Terms used."""

from templates_source.kit import Sheet


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.glossary.heading }}")
    sheet.para("{{ r.glossary.intro }}")
    sheet.facts_of("line", "r.glossary.lines", "{{ line.label }}", "{{ line.text }}", description="Terms used")
    return sheet.finished()
