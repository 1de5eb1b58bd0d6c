"""The cover."""

from templates_source.kit import Sheet


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.para("{{ r.cover.kicker }}", "CoverLabel")
    sheet.para("{{ r.cover.title }}", "Title")
    sheet.para("{{ r.cover.subtitle }}", "Subtitle")
    with sheet.when("r.cover.draft_note"):
        sheet.para([("{{ r.cover.draft_note }}", "Warning")], "Notice")
    with sheet.each("line", "r.cover.lines"):
        sheet.para("{{ line.label }}", "CoverLabel")
        sheet.para("{{ line.text }}", "CoverText")
    sheet.para("", "CoverText")
    sheet.para("{{ r.cover.caution }}", "Notice")
    sheet.page_break()
    return sheet.finished()
