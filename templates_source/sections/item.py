"""The section of one item; repeated for each."""

from templates_source.kit import Sheet
from templates_source.pieces import comparisons_grid, page_heading, photo_rows, view_table


def build(house: bytes) -> bytes:
    """Return the template."""
    sheet = Sheet(house)
    heading = "{{ anchor(item.key) }}{{ item.heading }}"
    with sheet.when("item.group_heading"):
        page_heading(sheet, "{{ item.group_heading }}")
        sheet.heading(2, heading)
        sheet.otherwise()
        page_heading(sheet, heading, "Heading2")
    _body(sheet)
    with sheet.each("opinion", "item.opinions"):
        _opinion(sheet)
    with sheet.when("item.bridge is not none"):
        sheet.heading(3, "{{ item.bridge.heading }}")
        with sheet.each("words", "item.bridge.paragraphs"):
            sheet.para("{{ words }}", keep_next=True)
        view_table(
            sheet,
            "item.bridge.table",
            [120, 40],
            right=(1,),
            maybe=True,
            together=True,
            description="Steps between two values",
        )
    return sheet.finished()


def _body(sheet: Sheet) -> None:
    sheet.heading(3, "{{ item.identification_heading }}")
    sheet.facts_of("line", "item.identification", "{{ line.label }}", "{{ line.text }}", description="Identification")
    _window(sheet)
    sheet.heading(3, "{{ item.originality.heading }}")
    with sheet.each("words", "item.originality.paragraphs"):
        sheet.para("{{ words }}")
    with sheet.when("item.originality.table is not none"):
        # Where nothing was changed there is nothing to tell of changes and deductions.
        for parts, right in (([22, 24, 44, 24, 18, 28], (4,)), ([32, 32, 96], ())):
            with sheet.when(f"item.originality.table.heads|length == {len(parts)}"):
                view_table(sheet, "item.originality.table", parts, right=right, description="Originality, part by part")
    sheet.heading(3, "{{ item.condition_heading }}")
    sheet.facts_of("line", "item.condition", "{{ line.label }}", "{{ line.text }}", description="Condition")
    with sheet.each("words", "item.condition_notes"):
        sheet.para("{{ words }}")
    view_table(sheet, "item.inspection", [60, 100], maybe=True, description="Inspection, line by line")
    sheet.heading(3, "{{ item.provenance_heading }}")
    sheet.facts_of("line", "item.provenance", "{{ line.label }}", "{{ line.text }}", description="Provenance and title")
    view_table(sheet, "item.history", [24, 24, 46, 26, 40], right=(3,), maybe=True, description="Past dealings")
    sheet.heading(3, "{{ item.cautions_heading }}")
    with sheet.each("words", "item.cautions"):
        sheet.para("{{ words }}", "Notice")
    sheet.heading(3, "{{ item.photos_heading }}")
    photo_rows(sheet, "item.photo_rows")
    sheet.para("{{ item.photos_note }}", "TableNote")


def _window(sheet: Sheet) -> None:
    sheet.heading(3, "{{ item.window.heading }}")
    sheet.para([("{{ item.window.sentence }}", "Strong")])
    with sheet.when("item.window.reason"):
        sheet.para("{{ item.window.reason }}")
    with sheet.each("words", "item.window.points"):
        sheet.para("{{ words }}", "ListBullet")
    widths = [52, 24, 34, 22, 28]
    view_table(sheet, "item.window.statements", widths, maybe=True, description="Statements of evidence")
    with sheet.each("words", "item.window.notes"):
        sheet.para("{{ words }}", "ListBullet")
    sheet.chart("item.window.chart", label="{{ r.figure_label }}")


def _opinion(sheet: Sheet) -> None:
    sheet.heading(3, "{{ opinion.heading }}")
    with sheet.each("words", "opinion.intro"):
        sheet.para("{{ words }}")
    view_table(sheet, "opinion.sales", [14, 64, 48, 34], maybe=True, description="The prices compared")
    with sheet.each("grid", "opinion.grids"):
        comparisons_grid(sheet, "grid")
    view_table(sheet, "opinion.reasons", [14, 34, 26, 86], right=(2,), maybe=True, description="Reasons")
    with sheet.each("words", "opinion.notes"):
        sheet.para("{{ words }}", "ListBullet")
    with sheet.when("opinion.reconciliation_heading"):
        sheet.run_in("{{ opinion.reconciliation_heading }}")
        with sheet.each("words", "opinion.reconciliation"):
            sheet.para("{{ words }}")
    view_table(sheet, "opinion.results", [110, 50], right=(1,), maybe=True, together=True, description="Reconciliation")
    sheet.chart("opinion.chart", label="{{ r.figure_label }}")
    sheet.para(
        [
            "{{ opinion.opinion_label }}: ",
            ("{{ opinion.opinion }}", "Strong"),
            "{% if opinion.opinion_note %}, {{ opinion.opinion_note }}{% endif %}",
        ],
        "Opinion",
    )
