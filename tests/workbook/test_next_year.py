"""What of a workbook does not reach the reader, or not as typed, is listed when next year's is made."""

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from support.workbooks import changed, raw_job, workbook

from appraise.records.job import SHEETS
from appraise.workbook.layout import CARRIED_OVER
from appraise.workbook.reading.read import read_job
from appraise.workbook.renewing.carried_over import carried_over_sheet
from appraise.workbook.renewing.next_year import Left, NextYear, Renewed, next_year
from appraise.workbook.renewing.renewal import (
    ANSWERED_CELLS,
    DROPPED_CELLS,
    DROPPED_SHEETS,
    MOVED_CELLS,
    shown_headings,
)
from appraise.workbook.writing.write import write_library

LAST, NEXT = date(2025, 6, 30), date(2026, 6, 30)


def made_of(path: Path) -> NextYear:
    return next_year(read_job(path), Renewed(NEXT, LAST, "disclosed", ()))


def listed(made: NextYear, sheet: str) -> list[tuple[int, str, str]]:
    return [(one.row, one.heading, one.value) for one in made.left if one.sheet == sheet]


def test_the_lists_name_columns_that_exist() -> None:
    named = [*DROPPED_CELLS, *MOVED_CELLS, *(("answers", key) for key in ANSWERED_CELLS)]
    assert all(SHEETS[name].column(key) for name, key in named)
    assert set(DROPPED_SHEETS) <= set(SHEETS)
    assert not set(DROPPED_CELLS) & set(MOVED_CELLS)
    assert shown_headings("Answers") == {"Reason last year", "Initials last year", "Date last year"}
    assert shown_headings("Items") == frozenset()


def test_rows_left_out_and_cells_without_a_heading_are_listed(tmp_path: Path) -> None:
    def fill(_book: Any, page: Any, columns: dict[str, int]) -> None:
        page.write(0, len(columns), "Mark")
        page.write_row(1, 0, ["S1"])
        page.write_row(2, 0, ["S2"])
        page.write(2, len(columns), "leave out")
        page.write(1, len(columns) + 3, "a stray note")

    made = made_of(raw_job(tmp_path, "sales", fill))
    assert [row["id"] for row in made.rows["sales"]] == ["S1"]
    assert (0, "", "1 rows") in listed(made, "Sales")
    assert any(one.reason.startswith("cells in a column without a heading") for one in made.left)


def test_what_could_not_be_read_is_listed_with_what_stood_there(tmp_path: Path) -> None:
    path = workbook(tmp_path, sales=changed("sales", 0, price="12o0"))
    made = made_of(path)
    (one,) = [one for one in made.left if one.reason == "it could not be read"]
    assert (one.sheet, one.heading, one.value) == ("Sales", "Price", "12o0")
    assert "price" not in made.rows["sales"][0]


def test_rows_of_the_library_stay_in_the_library(tmp_path: Path) -> None:
    write_library(tmp_path / "library.xlsx")
    plain = made_of(workbook(tmp_path))
    made = made_of(workbook(tmp_path, "with.xlsx", assignment={"library": "library.xlsx"}))
    assert {name: len(rows) for name, rows in made.rows.items() if isinstance(rows, list)} == {
        name: len(rows) for name, rows in plain.rows.items() if isinstance(rows, list)
    }
    assert made.rows["assignment"]["library"] == "library.xlsx"


def test_what_was_removed_is_no_longer_named_in_assumptions(tmp_path: Path) -> None:
    items = changed("items", 0)
    first = items[0]["id"]
    treatments = [
        {
            "item": first,
            "value_type": "fair market value",
            "treatment": "removed",
            "reason": "sold",
            "removed_on": date(2025, 1, 2),
            "prior_rounded": Decimal(10),
        }
    ]
    assumptions = [
        {"id": "A1", "kind": "extraordinary assumption", "items": f"{first}; ZZ", "text": "Sound.", "effect": "Less."}
    ]
    made = made_of(workbook(tmp_path, treatments=treatments, assumptions=assumptions))
    assert made.rows["assumptions"][0]["items"] == "ZZ"
    assert first not in {row["id"] for row in made.rows.get("items", ())}
    assert all(row.get("item") != first for name in ("parts", "opinions") for row in made.rows.get(name, ()))


def test_the_sheet_carried_over_says_where_each_cell_stood() -> None:
    name, cells = carried_over_sheet([Left("Sales", 7, "Price", "12o0", "it could not be read")], LAST)
    assert name == CARRIED_OVER
    assert [value for row, _, value in cells if row == 5] == ["Sales", "7", "Price", "12o0", "it could not be read"]
    assert "2025-06-30" in str(cells[0][2])
