"""The schedule as an underwriter loads it: a heading row and typed cells, nothing else."""

import io
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import openpyxl

from appraise.workbook.writing.schedule_file import ScheduleRow, ScheduleWords, TotalRow, write_schedule

WORDS = ScheduleWords("Schedule", "Totals", tuple("abcdefghijklmno"), tuple("uvwxyz"))
ROW = ScheduleRow(
    number="7",
    family="banjo",
    maker="Ketterhaugh",
    model="=1+1",
    serial="00417",
    made="1926 to 1927",
    description="Five-string banjo",
    location="House",
    value=Decimal("3300.50"),
    currency="USD",
    value_type="retail replacement value",
    value_date=date(2025, 4, 11),
    inspected=None,
    change=Decimal("-50"),
    photo="photos/a.jpg",
)
SUM = TotalRow("Retail replacement value", "Total", "", 1, Decimal("3300.50"), "USD")


def written() -> bytes:
    stream = io.BytesIO()
    write_schedule(stream, [ROW], [SUM], WORDS)
    return stream.getvalue()


def sheet(name: str) -> Any:
    return openpyxl.load_workbook(io.BytesIO(written()))[name]


def test_one_heading_row_then_one_row_an_item() -> None:
    page = sheet("Schedule")
    assert [cell.value for cell in page[1]] == list(WORDS.item_heads)
    assert (page.max_row, page.max_column) == (2, 15)
    assert not page.merged_cells.ranges


def test_cells_have_their_types() -> None:
    cells = dict(zip(WORDS.item_heads, sheet("Schedule")[2], strict=True))
    assert (cells["a"].value, cells["a"].data_type) == ("7", "s")
    assert (cells["e"].value, cells["e"].data_type, cells["e"].number_format) == ("00417", "s", "@")
    assert (cells["i"].value, cells["i"].data_type) == (3300.5, "n")
    assert (cells["l"].value, cells["l"].is_date) == (datetime.fromisoformat("2025-04-11"), True)
    assert cells["m"].value is None
    assert cells["n"].value == -50


def test_text_that_looks_like_a_formula_stays_text() -> None:
    cell = sheet("Schedule")["D2"]
    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_the_second_sheet_holds_the_totals() -> None:
    page = sheet("Totals")
    assert [[cell.value for cell in row] for row in page.iter_rows()] == [
        list(WORDS.total_heads),
        ["Retail replacement value", "Total", None, 1, 3300.5, "USD"],
    ]


def test_the_same_rows_give_the_same_bytes() -> None:
    assert written() == written()


def test_no_items_leave_the_headings() -> None:
    stream = io.BytesIO()
    write_schedule(stream, [], [], WORDS)
    assert openpyxl.load_workbook(stream)["Schedule"].max_row == 1
