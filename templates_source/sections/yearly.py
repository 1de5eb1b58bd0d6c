"""The revaluation of the schedule: changes, bridge, causes, families, inspections due, limits, history."""

from templates_source.kit import Sheet
from templates_source.pieces import page_heading, view_table

FIGURE = "{{ r.figure_label }}"


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    with sheet.when("r.yearly is not none"):
        page_heading(sheet, "{{ r.yearly.heading }}")
        with sheet.each("words", "r.yearly.intro"):
            sheet.para("{{ words }}")
        with sheet.each("part", "r.yearly.parts"):
            _part(sheet)
        sheet.heading(2, "{{ r.yearly.due_heading }}")
        with sheet.each("words", "r.yearly.due_intro"):
            sheet.para("{{ words }}")
        due = [12, 58, 40, 26, 24]
        view_table(sheet, "r.yearly.due", due, maybe=True, together=True, description="Lines due for inspection")
        with sheet.when("r.yearly.limits is not none"):
            sheet.heading(2, "{{ r.yearly.limits_heading }}")
            with sheet.each("words", "r.yearly.limits_intro"):
                sheet.para("{{ words }}")
            limits = [90, 35, 35]
            view_table(
                sheet, "r.yearly.limits", limits, right=(1, 2), together=True, description="Limits of the policy"
            )
            with sheet.each("words", "r.yearly.limits_notes"):
                sheet.para("{{ words }}", "ListBullet")
    return sheet.finished()


def _part(sheet: Sheet) -> None:
    with sheet.when("part.heading"):
        sheet.heading(2, "{{ part.heading }}")
    with sheet.each("words", "part.intro"):
        sheet.para("{{ words }}")
    changes = [9, 33, 50, 18, 18, 17, 15]
    view_table(sheet, "part.changes", changes, right=(3, 4, 5, 6), description="Old, new and change of each line")
    with sheet.each("words", "part.notes"):
        sheet.para("{{ words }}", "ListBullet")
    two = [110, 50]
    view_table(sheet, "part.bridge", two, right=(1,), together=True, description="From the old total to the new")
    view_table(sheet, "part.printed", two, right=(1,), maybe=True, together=True, description="Totals of last year")
    view_table(sheet, "part.causes", two, right=(1,), together=True, description="Causes of the change")
    families = [34, 22, 24, 18, 20, 22, 20]
    right = (1, 2, 3, 4, 5, 6)
    view_table(sheet, "part.families", families, right=right, maybe=True, description="Change by family")
    history = [60, 60, 40]
    view_table(sheet, "part.history", history, right=(1, 2), maybe=True, together=True, description="Totals by year")
    sheet.chart("part.total_chart", label=FIGURE)
    with sheet.each("drawn", "part.family_charts"):
        sheet.chart("drawn", label=FIGURE, height_mm=62)
