"""The schedule as a workbook that an underwriter can load: one flat row for each item, and a sheet of totals.

The first sheet is a heading row and rows of typed cells, nothing else: no title, no merged cells, no formulas.
"""

from collections.abc import Sequence
from dataclasses import fields
from datetime import date, datetime
from decimal import Decimal
from typing import Any, BinaryIO

import xlsxwriter

from appraise.model.frozen import frozen
from appraise.workbook.writing import looks

Cell = str | Decimal | date | None

_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
_LONGEST_TEXT = 32_000
#: Widths of the columns of the first sheet, in the order of `ScheduleRow`.
_WIDTHS = (8, 20, 22, 22, 14, 24, 44, 24, 14, 9, 26, 13, 13, 14, 28)
_TOTAL_WIDTHS = (28, 40, 34, 10, 16, 10)


@frozen
class ScheduleRow:
    """One item of the schedule; every field is a column, in this order. None leaves the cell blank.

    value   as concluded, in `currency`
    change  from last year's value, in `currency`
    """

    number: str
    family: str | None
    maker: str | None
    model: str | None
    serial: str | None
    made: str
    description: str | None
    location: str | None
    value: Decimal | None
    currency: str
    value_type: str
    value_date: date | None
    inspected: date | None
    change: Decimal | None
    photo: str | None


@frozen
class TotalRow:
    """One line of the totals: of which type of value, what is summed, where or which, number of items, amount."""

    value_type: str
    what: str
    which: str
    items: int | None
    amount: Decimal | None
    currency: str


@frozen
class ScheduleWords:
    """The names of the two sheets and the headings of their columns."""

    items: str
    totals: str
    item_heads: tuple[str, ...]
    total_heads: tuple[str, ...]


def write_schedule(
    stream: BinaryIO, rows: Sequence[ScheduleRow], sums: Sequence[TotalRow], words: ScheduleWords
) -> None:
    """Write the workbook. The same rows give the same bytes; no rows leave the headings."""
    book = xlsxwriter.Workbook(
        stream,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False},
    )
    book.set_properties({"title": words.items, "created": _FIXED_TIME})
    looks_of = _looks(book)
    _fill(book.add_worksheet(words.items), words.item_heads, _WIDTHS, [_cells(row) for row in rows], looks_of)
    totals = [
        (
            one.value_type,
            one.what,
            one.which,
            None if one.items is None else Decimal(one.items),
            one.amount,
            one.currency,
        )
        for one in sums
    ]
    _fill(book.add_worksheet(words.totals), words.total_heads, _TOTAL_WIDTHS, totals, looks_of, counts=(3,))
    book.close()


def _cells(row: ScheduleRow) -> tuple[Cell, ...]:
    return tuple(getattr(row, one.name) for one in fields(row))


def _looks(book: Any) -> dict[str, Any]:
    text = {"valign": "top", "text_wrap": True, "num_format": "@"}
    return {
        "head": book.add_format({**looks.NEEDED, "text_wrap": True, "valign": "vcenter"}),
        "text": book.add_format(text),
        "amount": book.add_format({"valign": "top", "num_format": "#,##0.00"}),
        "count": book.add_format({"valign": "top", "num_format": "0"}),
        "day": book.add_format({"valign": "top", "num_format": "yyyy-mm-dd"}),
    }


def _fill(
    page: Any,
    heads: Sequence[str],
    widths: Sequence[int],
    rows: Sequence[Sequence[Cell]],
    look: dict[str, Any],
    *,
    counts: Sequence[int] = (),
) -> None:
    for column, (head, width) in enumerate(zip(heads, widths, strict=True)):
        page.set_column(column, column, width)
        page.write_string(0, column, head, look["head"])
    for number, row in enumerate(rows, start=1):
        for column, value in enumerate(row):
            if isinstance(value, Decimal):
                page.write_number(number, column, float(value), look["count" if column in counts else "amount"])
            elif isinstance(value, date):
                page.write_datetime(number, column, datetime(value.year, value.month, value.day), look["day"])  # noqa: DTZ001
            elif value:
                page.write_string(number, column, value[:_LONGEST_TEXT], look["text"])
    page.freeze_panes(1, 0)
    page.set_landscape()
    page.repeat_rows(0)
    page.fit_to_pages(1, 0)
