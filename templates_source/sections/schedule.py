"""The schedule by location, with totals."""

from templates_source.kit import Sheet
from templates_source.pieces import opinions_table, page_heading, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    page_heading(sheet, "{{ r.schedule.heading }}")
    sheet.para("{{ r.schedule.intro }}")
    with sheet.each("group", "r.schedule.groups"):
        widths = {1: (9, 82, 26, 20), 2: (9, 55, 22, 20), 3: (8, 44, 20, 18)}
        opinions_table(sheet, "group", widths, description="Items kept at one place")
    view_table(sheet, "r.schedule.totals", [110, 50], right=(1,), together=True, description="Totals by type of value")
    view_table(
        sheet, "r.schedule.locations", [60, 20], right=(1,), figures=True, maybe=True, description="Totals by location"
    )
    sheet.facts_of("line", "r.schedule.facts", "{{ line.label }}", "{{ line.text }}", label_width=70)
    view_table(sheet, "r.schedule.decades", [60, 18, 46, 36], right=(1,), maybe=True, description="Items by decade")
    with sheet.each("words", "r.schedule.notes"):
        sheet.para("{{ words }}", "TableNote")
    return sheet.finished()
