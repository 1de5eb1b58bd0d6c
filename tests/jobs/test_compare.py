"""Two versions of a job compared: what was typed differently, which figures moved, which input moved them."""

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from support.demo import job_folders, workbook_of
from support.valuing import job_of

from appraise.cli import appraise
from appraise.jobs.compare import Compared, compare_jobs
from appraise.jobs.typed_changes import TypedChange, typed_changes

TODAY = date(2025, 5, 5)
FOLDERS = {folder.name: folder for folder in job_folders()}


def cell_of(book: Any, sheet: str, row_id: str, heading: str) -> Any:
    """Return the cell under a heading in the row that holds an id."""
    page = book[sheet]
    (heads,) = [
        row
        for row in page.iter_rows(max_row=8)
        if heading in {str(cell.value).replace("\xa0*", "") for cell in row if cell.value}
    ]
    column = next(cell.column for cell in heads if str(cell.value).replace("\xa0*", "") == heading)
    row = next(row[0].row for row in page.iter_rows(min_row=heads[0].row + 1) if row_id in {cell.value for cell in row})
    return page.cell(row, column)


def version(name: str, folder: Path, edit: Callable[[Any], None]) -> Path:
    """Return an edited copy of a demonstration job, in a folder with its photographs."""
    target = folder / "edited"
    shutil.copytree(FOLDERS[name], target)
    path = target / f"{name}.xlsx"
    book = openpyxl.load_workbook(path)
    edit(book)
    book.save(path)
    return path


def set_price(book: Any, to: float = 24_800) -> None:
    cell_of(book, "Sales", "S01-2", "Price").value = to


@pytest.fixture(scope="module")
def price_corrected(tmp_path_factory: pytest.TempPathFactory) -> Compared:
    new = version("claim", tmp_path_factory.mktemp("claim"), set_price)
    return compare_jobs(new, workbook_of(FOLDERS["claim"]), today=TODAY)


def test_the_cell_that_was_typed_differently_is_named(price_corrected: Compared) -> None:
    (change,) = price_corrected.typed
    assert (change.sheet, change.row, change.heading) == ("Sales", "S01-2", "Price")
    assert (change.old, change.new) == ("24400", "24800")
    assert price_corrected.new.where(change.place).startswith("Sales!")


def test_the_opinion_moves_because_of_that_cell(price_corrected: Compared) -> None:
    moved = {one.id: one for one in price_corrected.moved}
    opinion = moved["W01.fmv.value_rounded"]
    assert (opinion.old, opinion.new) == ("31500 USD", "31700 USD")
    assert len(opinion.because) == 1
    assert opinion.because[0].startswith("Sales S01-2, Price (Sales!")
    assert opinion.because[0].endswith("was 24400, is 24800")


def test_a_total_moves_because_of_the_opinion(price_corrected: Compared) -> None:
    total = next(one for one in price_corrected.moved if one.id == "schedule.fair_market_value.total")
    assert total.because == ("W01.fmv.value_rounded was 31500 USD, is 31700 USD",)


def test_what_does_not_rest_on_the_cell_does_not_move(price_corrected: Compared) -> None:
    ids = {one.id for one in price_corrected.moved}
    assert not [one for one in ids if one.startswith("W01.fmv.W01-c1.") and "running" not in one]
    assert "W01.window.first" not in ids


def test_a_change_of_order_is_told_by_what_a_figure_is_made_from(price_corrected: Compared) -> None:
    running = next(one for one in price_corrected.moved if one.id == "W01.fmv.W01-c3.running_weight")
    assert running.because[0].startswith("it is made from W01.fmv.W01-c3.weight; before ")


def test_lines_tell_typed_cells_opinions_and_figures_in_this_order(price_corrected: Compared) -> None:
    lines = list(price_corrected.lines())
    heads = [line for line in lines if not line.startswith("  ")]
    assert [head.split()[0] for head in heads] == ["Typed", "Opinions", "Other"]
    first = lines[lines.index("Opinions and totals that moved:") + 1]
    assert first.startswith("  Item W01, fair market value: W01.fmv.value_rounded was 31500 USD, is 31700 USD, because")


def test_the_same_job_has_no_difference() -> None:
    workbook = workbook_of(FOLDERS["claim"])
    compared = compare_jobs(workbook, workbook, today=TODAY)
    assert compared.typed == compared.moved == ()
    assert list(compared.lines()) == ["claim.xlsx and claim.xlsx: nothing was typed differently and no figure moved."]


def test_a_prose_cell_moves_no_figure(tmp_path: Path) -> None:
    def reword(book: Any) -> None:
        cell_of(book, "Items", "W01", "Description").value = "Guitar, worded anew"

    compared = compare_jobs(version("claim", tmp_path, reword), workbook_of(FOLDERS["claim"]), today=TODAY)
    assert [one.heading for one in compared.typed] == ["Description"]
    assert compared.moved == ()
    assert "No opinion and no total moved." in list(compared.lines())


def test_figures_that_are_new_or_gone_are_told_so(tmp_path: Path) -> None:
    def weigh(book: Any) -> None:
        cell_of(book, "Comparisons", "W01-c2", "Weight").value = 0

    compared = compare_jobs(version("claim", tmp_path, weigh), workbook_of(FOLDERS["claim"]), today=TODAY)
    gone = next(one for one in compared.moved if one.id == "W01.fmv.W01-c2.running_weight")
    assert gone.new is None
    assert any("and is gone" in line for line in compared.lines())


def test_json_holds_the_same(price_corrected: Compared) -> None:
    told = json.loads(price_corrected.as_json())
    assert told["typed"][0]["old"] == "24400"
    ids = [one["id"] for one in told["figures"]]
    assert "W01.fmv.value_rounded" in ids
    assert "W01.fmv.W01-c2.price" not in ids


def test_the_command_prints_the_comparison(tmp_path: Path) -> None:
    new, old = version("claim", tmp_path, set_price), workbook_of(FOLDERS["claim"])
    ran = CliRunner().invoke(appraise, ["check", str(new), "--against", str(old)], standalone_mode=False)
    assert ran.output.startswith("Typed differently in claim.xlsx than in claim.xlsx:\n  Sales S01-2, Price:")
    assert ran.return_value in (0, 1)


def changes(old: dict[str, str], new: dict[str, str]) -> list[TypedChange]:
    return list(typed_changes(job_of(old), job_of(new)))


SCALES = """
    scale | grade | percent
    K     | 7     | 72
    K     | 8     | 79
"""


def test_rows_are_matched_by_what_names_them_not_by_where_they_stand() -> None:
    turned = """
        scale | grade | percent
        K     | 8     | 80
        K     | 7     | 72
    """
    (change,) = changes({"scales": SCALES}, {"scales": turned})
    assert (change.row, change.heading, change.old, change.new) == ("K, 8", "Percent of grade 10", "79", "80")


def test_a_new_row_and_one_that_is_gone() -> None:
    other = """
        scale | grade | percent
        K     | 7     | 72
        K     | 9     | 88
    """
    came, gone = changes({"scales": SCALES}, {"scales": other})
    assert (came.row, came.old, came.place.row) == ("K, 9", None, 3)
    assert came.new == "Scale id: K; Grade: 9; Percent of grade 10: 88"
    assert (gone.row, gone.new) == ("K, 8", None)


def test_of_rows_with_one_name_the_equal_ones_are_no_change() -> None:
    old = """
        item | kind     | how
        G01  | acquired | at a fair
        G01  | acquired | in a shop
    """
    new = """
        item | kind     | how
        G01  | acquired | in a shop
        G01  | acquired | by letter
    """
    (change,) = changes({"history": old}, {"history": new})
    assert (change.old, change.new) == ("at a fair", "by letter")


def test_a_cell_left_blank_is_said_to_be() -> None:
    (change,) = changes({"assignment": "currency | USD"}, {"assignment": "title | Estate\ncurrency | USD"})
    assert (change.sheet, change.row, change.old, change.new) == ("Assignment", "", "blank", "Estate")
