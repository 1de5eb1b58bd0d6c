"""Market notes, family by family."""

from templates_source.kit import Sheet


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    sheet.heading(1, "{{ r.market.heading }}")
    sheet.para("{{ r.market.intro }}")
    with sheet.each("note", "r.market.notes"):
        sheet.heading(2, "{{ note.heading }}")
        sheet.para(
            [
                "{% for line in note.lines %}",
                ("{{ line.label }}. ", "Strong"),
                "{{ line.text }} {% endfor %}",
            ]
        )
    return sheet.finished()
