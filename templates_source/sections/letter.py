"""The letter of transmittal."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, signatures, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.letter.heading }}", "HeadingFront")
    for lines in ("r.letter.sender", "r.letter.addressee"):
        with sheet.each("line", lines):
            sheet.para("{{ line }}", "Address")
        sheet.para("", "Address")
        if lines.endswith("sender"):
            sheet.para("{{ r.letter.day }}", "Address")
            sheet.para("", "Address")
    sheet.para([("{{ r.letter.subject }}", "Strong")], "Letter")
    sheet.para("{{ r.letter.salutation }}", "Letter")
    with sheet.each("words", "r.letter.opening"):
        sheet.para("{{ words }}", "Letter", keep_next=True)
    view_table(
        sheet,
        "r.letter.totals",
        [110, 50],
        right=(1,),
        numbered=False,
        together=True,
        description="Totals by type of value",
    )
    with sheet.each("words", "r.letter.paragraphs"):
        sheet.para("{{ words }}", "Letter")
    sheet.para("{{ r.letter.closing }}", "Letter", keep_next=True)
    signatures(sheet, "r.letter.signatures", dated=False)
    return sheet.finished()
