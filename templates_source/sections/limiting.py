"""The limiting conditions."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.limiting.heading }}")
    sheet.para("{{ r.limiting.intro }}")
    with sheet.each("clause", "r.limiting.clauses"):
        sheet.para(
            [
                "{{ clause.number }}.\t",
                ("{{ clause.heading }}. ", "Strong"),
                "{% for words in clause.paragraphs %}{{ words }} {% endfor %}",
            ],
            "ListItem",
        )
    return sheet.finished()
