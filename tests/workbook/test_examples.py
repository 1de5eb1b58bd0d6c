"""Example rows: what a person may copy, so each must be possible by itself."""

from pathlib import Path

import openpyxl
import pytest

from appraise.records.job import SHEETS
from appraise.records.vocabulary import Family, PriceKind, Use
from appraise.rules.uses import use_rules
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.examples import examples_of
from appraise.workbook.writing.write import write_blank

TABLES = [sheet for sheet in SHEETS.values() if not sheet.form]


@pytest.mark.parametrize("sheet", TABLES, ids=lambda sheet: sheet.name)
def test_each_example_row_gives_all_that_is_always_needed(sheet) -> None:  # type: ignore[no-untyped-def]
    needed = {column.key for column in sheet.columns if column.required == "always"}
    rows = examples_of(sheet)
    assert rows
    assert [needed - set(row) for row in rows if not needed <= set(row)] == []


def test_no_example_gives_what_excludes_one_another() -> None:
    for row in examples_of(SHEETS["evidence"]):
        assert ("date" in row) + ("from_" in row or "to" in row) + ("reference" in row) == 1
    for row in examples_of(SHEETS["costs"]):
        assert ("percent" in row) + ("amount" in row) == 1
    kinds = {row["id"]: row["kind"] for row in examples_of(SHEETS["sales"])}
    assert {row["sale"] for row in examples_of(SHEETS["comparisons"])} <= set(kinds)
    for row in examples_of(SHEETS["comparisons"]):
        assert ("discount" in row) is (kinds[row["sale"]] is PriceKind.ASKING)
        assert not {"overall", "by_condition"} & set(row)


@pytest.mark.parametrize("use", list(Use))
def test_start_names_the_types_of_value_that_fit(tmp_path: Path, use: Use) -> None:
    start = openpyxl.load_workbook(write_blank(tmp_path / "a.xlsx", use))["Start"]
    step = str(start["C6"].value)
    assert [str(one) for one in use_rules(use).fits if str(one) not in step] == []
    assert ("takes two" in step) is (use is Use.CLAIM)


def test_the_form_on_paper_asks_what_items_always_needs(tmp_path: Path) -> None:
    paper = openpyxl.load_workbook(write_blank(tmp_path / "a.xlsx", Use.ESTATE, families=[Family.BOW]))["On paper"]
    asked = [str(cell.value) for cell in paper["A"] if cell.value]
    for wanted in ("Dimensions", "Markings", "Grade", "Listed woods", "Permits", "Acquired"):
        assert [line for line in asked if line.startswith(wanted)], wanted


@pytest.mark.parametrize(
    ("use", "label"),
    [
        (Use.ESTATE, "Date of death"),
        (Use.CLAIM, "Date of loss"),
        (Use.GIFT, "Date of gift or contribution"),
        (Use.DONATION, "Date of gift or contribution"),
    ],
)
def test_what_the_use_needs_is_shown_as_needed(tmp_path: Path, use: Use, label: str) -> None:
    path = write_blank(tmp_path / "a.xlsx", use)
    form = openpyxl.load_workbook(path)["Assignment"]
    lines = {str(cell.value).removesuffix("\N{NO-BREAK SPACE}*"): cell for cell in form["A"] if cell.value}
    shown, other = lines[label], lines["Client"]
    assert shown.value == f"{label}\N{NO-BREAK SPACE}*"
    assert shown.fill.fgColor.rgb == other.fill.fgColor.rgb != lines["Engaged on"].fill.fgColor.rgb
    assert str(form.cell(shown.row, 3).value).startswith("Always needed.")
    assert not [one for one in read_job(path).findings if one.code.startswith("FIL")]


@pytest.mark.parametrize("use", list(Use))
def test_start_names_the_sheets_only_this_use_has(tmp_path: Path, use: Use) -> None:
    book = openpyxl.load_workbook(write_blank(tmp_path / "a.xlsx", use))
    steps = " ".join(str(cell.value) for cell in book["Start"]["C"][:16])
    own = [one.name for one in SHEETS.values() if one.uses and use in one.uses]
    assert [name for name in own if book[name].sheet_state == "visible" and name not in steps] == []
