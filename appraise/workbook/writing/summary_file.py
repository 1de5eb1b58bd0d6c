"""The summary of several jobs revalued in one run, as a workbook: one row for each job and type of value."""

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from typing import BinaryIO

import xlsxwriter

from appraise.model.frozen import frozen
from appraise.workbook.writing import looks

_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
_HEADS = (
    ("Workbook", 30),
    ("Outcome", 16),
    ("Next year's workbook", 46),
    ("Values as of", 13),
    ("Type of value", 26),
    ("Currency", 10),
    ("Total carried", 15),
    ("Lines", 8),
    ("Proposed", 48),
    ("Open stops", 11),
    ("Remark", 60),
)


@frozen
class SummaryRow:
    """One job under one type of value; None leaves the cell blank."""

    workbook: str
    outcome: str
    written: str | None = None
    day: str | None = None
    value_type: str | None = None
    currency: str | None = None
    total: Decimal | None = None
    lines: int | None = None
    proposed: str | None = None
    stops: int | None = None
    remark: str | None = None


def write_summary(stream: BinaryIO, rows: Sequence[SummaryRow]) -> None:
    """Write the workbook: headings and one row for each of `rows`. Amounts of different currencies are not added."""
    book = xlsxwriter.Workbook(
        stream,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False},
    )
    book.set_properties({"title": "Jobs revalued", "created": _FIXED_TIME})
    page = book.add_worksheet("Jobs revalued")
    head = book.add_format({**looks.OPTIONAL, "text_wrap": True, "valign": "vcenter"})
    plain = book.add_format({**looks.PLAIN, "valign": "top", "text_wrap": True})
    money = book.add_format({**looks.PLAIN, "valign": "top", "num_format": "#,##0.00"})
    for column, (text, width) in enumerate(_HEADS):
        page.write_string(0, column, text, head)
        page.set_column(column, column, width)
    for number, row in enumerate(rows, 1):
        cells = (
            row.workbook,
            row.outcome,
            row.written,
            row.day,
            row.value_type,
            row.currency,
            row.total,
            row.lines,
            row.proposed,
            row.stops,
            row.remark,
        )
        for column, value in enumerate(cells):
            if isinstance(value, Decimal):
                page.write_number(number, column, float(value), money)
            elif isinstance(value, int):
                page.write_number(number, column, value, plain)
            elif value:
                page.write_string(number, column, value, plain)
    page.freeze_panes(1, 1)
    page.repeat_rows(0)
    page.autofilter(0, 0, max(1, len(rows)), len(_HEADS) - 1)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    book.close()
