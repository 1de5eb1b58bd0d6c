"""The first sheet of the proof: how to read it, and whether every figure comes out, as live formulas."""

from collections.abc import Sequence
from typing import Any

from appraise.proof.page import DIFFERENCE, Looks, Page

NAME = "Summary"
_HEADINGS = ("Sheet", "What it holds", "Figures", "Recalculated", "Differences")
_WIDTHS = (16, 76, 12, 14, 14)
_EXPLAINED = (
    "Every figure of the report is worked out again here by a formula on what was typed. Column Live holds it, "
    "Ours the figure of the report, Difference what is left between them; it must be 0 everywhere.",
    "Sheet Inputs names the cell of the workbook each typed figure comes from. Change one there and all that rests on "
    "it moves: column Difference then shows by how much.",
    "Amounts are rounded where the method rounds them, ties away from zero. Spreadsheets count in binary, so each "
    "figure is rounded to 8 decimals first and then as the method says.",
    "If your program shows old figures, let it recalculate everything: Ctrl+Alt+F9, or Ctrl+Shift+F9.",
)


def write_summary(sheet: Any, looks: Looks, title: str, pages: Sequence[Page]) -> None:
    """Write the sheet: a line for each sheet with figures, their sum, and the verdict."""
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    sheet.write_string(0, 0, title, looks.title)
    for column, heading in enumerate(_HEADINGS):
        sheet.write_string(2, column, heading, looks.heading)
    row = 3
    for page in pages:
        sheet.write_url(row, 0, f"internal:'{page.name}'!A1", looks.link, string=page.name)
        sheet.write_string(row, 1, page.title, looks.text)
        area = f"{page.name}!{DIFFERENCE}4:{DIFFERENCE}{max(page.row, 4)}"
        sheet.write_number(row, 2, page.compared, looks.count)
        sheet.write_formula(row, 3, f"=COUNT({area})", looks.count, page.compared)
        sheet.write_formula(row, 4, f'=COUNTIF({area},">0")+COUNTIF({area},"<0")', looks.count, 0)
        row += 1
    _write_sum(sheet, looks, row, sum(page.compared for page in pages))
    row += 2
    sheet.set_column(5, 5, 4)
    for text in _EXPLAINED:
        row += 1
        sheet.merge_range(row, 0, row, 4, text, looks.wrapped)
        sheet.set_row(row, 32)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)


def _write_sum(sheet: Any, looks: Looks, row: int, figures: int) -> None:
    sheet.write_string(row, 0, "All", looks.strong)
    verdict = (
        f'=IF(AND(D{row + 1}=C{row + 1},E{row + 1}=0),"Every figure comes out.","Not every figure comes out: look at '
        'the columns Difference.")'
    )
    sheet.write_formula(row, 1, verdict, looks.strong, "Every figure comes out.")
    for column, value in ((2, figures), (3, figures), (4, 0)):
        letter = "ABCDE"[column]
        sheet.write_formula(row, column, f"=SUM({letter}4:{letter}{row})", looks.strong, value)
