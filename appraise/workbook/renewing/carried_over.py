"""The sheet Carried over of next year's workbook: what became of the cells that are not there as they were."""

from collections.abc import Iterable
from datetime import date

from appraise.workbook.cells import Value
from appraise.workbook.layout import CARRIED_OVER
from appraise.workbook.renewing.next_year import Left

_HEADS = ("Sheet", "Row last year", "Heading", "Said last year", "Why it is not there as before")
_INTRO = (
    "Cells of the workbook of {day} that were not carried as they stood; all others were. This sheet is not read.",
    "Formulas of your own sheets and columns are carried as the values they showed. Colours and comments are not.",
)


def carried_over_sheet(left: Iterable[Left], last: date) -> tuple[str, tuple[tuple[int, int, Value], ...]]:
    """Return the sheet as name and cells (row, column, value).

    last  effective date of the workbook that was renewed
    """
    cells: list[tuple[int, int, Value]] = []
    for number, sentence in enumerate(_INTRO, 1):
        cells.append((number, 1, sentence.format(day=last.isoformat())))
    top = len(_INTRO) + 2
    cells += [(top, column, head) for column, head in enumerate(_HEADS, 1)]
    for row, one in enumerate(left, top + 1):
        for column, text in enumerate((one.sheet, str(one.row or ""), one.heading, one.value, one.reason), 1):
            if text:
                cells.append((row, column, text))
    return CARRIED_OVER, tuple(cells)
