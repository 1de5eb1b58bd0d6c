"""The certification, with lines for signing."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, signatures, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.certification.heading }}")
    sheet.para("{{ r.certification.intro }}", keep_next=True)
    with sheet.each("statement", "r.certification.statements"):
        sheet.para("{{ loop.index }}.\t{{ statement }}", "ListItem")
    with sheet.when("r.certification.declaration"):
        sheet.para("{{ r.certification.declaration }}", "Quote")
        sheet.para("{{ r.certification.declaration_source }}", "QuoteSource")
    view_table(sheet, "r.certification.inspection", [12, 58, 60, 30], description="Who inspected what")
    # A line for signing never stands on a page without words above it.
    sheet.para("{{ r.certification.unsigned_note }}", "Notice", keep_next=True)
    signatures(sheet, "r.certification.signatures")
    return sheet.finished()
