"""The bibliography."""

from templates_source.kit import Sheet


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.sources.heading }}")
    sheet.para("{{ r.sources.intro }}")
    with sheet.each("entry", "r.sources.entries"):
        sheet.para("{{ loop.index }}.\t{{ entry }}", "ListItem")
    return sheet.finished()
