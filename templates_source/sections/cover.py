"""The cover."""

from templates_source.kit import Sheet, paragraph


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.raw(paragraph("{{ r.cover.kicker }}", "CoverLabel", extra='<w:spacing w:before="2000" w:after="80"/>'))
    sheet.para("{{ r.cover.title }}", "Title")
    sheet.para("{{ r.cover.subtitle }}", "Subtitle")
    with sheet.when("r.cover.draft_note"):
        sheet.para([("{{ r.cover.draft_note }}", "Warning")], "Notice")
    with sheet.each("line", "r.cover.lines"):
        sheet.para("{{ line.label }}", "CoverLabel")
        sheet.para("{{ line.text }}", "CoverText")
    sheet.para("", "CoverText")
    sheet.para("{{ r.cover.caution }}", "Notice")
    return sheet.finished()
