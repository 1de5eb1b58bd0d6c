"""The assignment and the definitions of value."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.assignment.heading }}")
    sheet.para("{{ r.assignment.intro }}")
    sheet.facts_of("line", "r.assignment.lines", "{{ line.label }}", "{{ line.text }}", description="Terms")
    with sheet.each("words", "r.assignment.caution"):
        sheet.para("{{ words }}", "Notice")
    sheet.heading(2, "{{ r.assignment.values_heading }}")
    with sheet.each("meaning", "r.assignment.value_meanings"):
        sheet.heading(3, "{{ meaning.heading }}")
        sheet.para("{{ meaning.statement }}{{ footnote(meaning.source) }}")
        with sheet.when("meaning.quotation"):
            sheet.para("{{ meaning.quotation }}", "Quote")
            sheet.para("{{ meaning.quotation_source }}", "QuoteSource")
        sheet.facts_of("line", "meaning.lines", "{{ line.label }}", "{{ line.text }}", description="Terms of the value")
        view_table(sheet, "meaning.approaches", [40, 120], together=True, description="Approaches used and not used")
    return sheet.finished()
