"""The workbook itself: what stands on its lines, long sums, further sheets, and that nothing is hidden."""

import re
import zipfile
from collections.abc import Sequence
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from support.proofs import lines_of, recalculated, unequal, verdict_of

from appraise.model.kinds import COUNT, WEIGHT, money, typed_money
from appraise.model.ledger import RecordingLedger
from appraise.model.operations import PLUS_PERCENT, SUM, WEIGHTED_MEDIAN
from appraise.model.place import Place
from appraise.proof.book import Block, write_proof
from appraise.proof.line import compared_to, ranges
from appraise.valuing.operations import BY_SCALE

USD = money("USD")


def item(name: str, price: str = "100.10") -> Block:
    ledger = RecordingLedger(name)
    typed = ledger.typed("price", Decimal(price), Place("Sales", 7, "price"), kind=typed_money("USD"))
    percent = ledger.typed("level_percent", Decimal("-2.5"), Place("Comparisons", 3, "level"))
    level = ledger.figure("level", USD, PLUS_PERCENT, typed, percent)
    ledger.figure("value", USD, BY_SCALE, level, level)
    ledger.note("median_kind", "plain")
    return Block(name, "Skarvholm Consul 17", ledger.figures)


def total(items: Sequence[Block]) -> Block:
    ledger = RecordingLedger("schedule")
    ledger.figure("total", USD, SUM, *(block.figures[f"{block.name}.value"] for block in items))
    return Block("schedule", "all", ledger.figures)


def written(path: Path, items: list[Block], whole: list[Block], **options: Any) -> Path:
    with path.open("wb") as stream:
        write_proof(stream, "Proof", items, whole, lambda place: f"{place.sheet}!{place.row}", **options)
    return path


def test_a_line_says_what_a_figure_is_and_where_it_comes_from(tmp_path: Path) -> None:
    path = written(tmp_path / "proof.xlsx", [item("G01")], [])
    book = openpyxl.load_workbook(path)
    typed = [cell.value for cell in book["Inputs"][5]]
    assert typed == ["G01.price", "Price (Sales)", 100.1, None, None, "USD", "Sales!7"]
    level = [cell.value for cell in book["Time"][5]]
    assert level == [
        "G01.level",
        "price × (1 + level_percent %)",
        "=ROUND(ROUND(Inputs!C5*(1+Inputs!C6/100),8),2)",
        97.6,
        "=ROUND(C5-D5,2)",
        "USD",
        None,
    ]
    noted = [cell.value for cell in book["Reconciliation"][5]]
    assert noted[:4] == ["G01.median_kind", "looked up or decided", "plain", None]
    assert [cell.value for cell in book["Time"][4]][:2] == ["G01", "Skarvholm Consul 17"]


def test_our_figure_is_kept_beside_the_formula(tmp_path: Path) -> None:
    path = written(tmp_path / "proof.xlsx", [item("G01")], [])
    assert {line.id: line.live for line in lines_of(path)}["G01.level"] == 97.6


def test_a_total_names_the_figures_of_the_items(tmp_path: Path) -> None:
    items = [item("G01"), item("G02", "250")]
    path = written(tmp_path / "proof.xlsx", items, [total(items)])
    formula = openpyxl.load_workbook(path)["Schedule"]["C5"].value
    assert formula == "=ROUND(ROUND(SUM(Values!C5,Values!C7),8),2)"


def test_the_figures_of_an_earlier_item_are_forgotten_unless_announced(tmp_path: Path) -> None:
    first = item("G01")
    ledger = RecordingLedger("G02")
    ledger.figure("value", USD, SUM, first.figures["G01.level"])
    with pytest.raises(KeyError, match=r"G01\.level"):
        written(tmp_path / "proof.xlsx", [first, Block("G02", "", ledger.figures)], [])


@pytest.mark.office
def test_a_sum_longer_than_a_formula_may_be_is_brought_near(tmp_path: Path) -> None:
    items = [item(f"G{number:04d}", str(number)) for number in range(1, 1501)]
    path = written(tmp_path / "proof.xlsx", items, [total(items)])
    sheet = openpyxl.load_workbook(path)["Schedule"]
    assert sheet["C5"].value == "=Values!C5"
    assert sheet["C1505"].value == "=ROUND(ROUND(SUM(C5:C1504),8),2)"
    (again,) = recalculated([path], tmp_path / "office")
    assert unequal(path, again) == []
    assert verdict_of(again) == "Every figure comes out."


def test_a_formula_that_stays_too_long_is_said_to_be(tmp_path: Path) -> None:
    ledger = RecordingLedger("G01")
    lines = []
    for number in range(1, 253):
        lines.append(ledger.typed(f"running_{number}", Decimal(number), kind=WEIGHT))
        lines.append(ledger.typed(f"price_{number}", Decimal(number), kind=USD))
    ledger.figure("median", USD, WEIGHTED_MEDIAN, lines[-2], *lines)
    path = written(tmp_path / "proof.xlsx", [Block("G01", "", ledger.figures)], [])
    last = [cell.value for cell in list(openpyxl.load_workbook(path)["Reconciliation"].rows)[-1]]
    assert last[1].endswith("(longer than a formula may be)")
    assert last[2:5] == [126.5, None, None]


@pytest.mark.office
def test_a_stage_with_too_many_rows_goes_on_on_a_further_sheet(tmp_path: Path) -> None:
    items = [item(f"G{number}", str(number)) for number in range(10, 20)]
    path = written(tmp_path / "proof.xlsx", items, [total(items)], most_rows=12)
    assert {"Values", "Values_2", "Inputs_3"} <= set(openpyxl.load_workbook(path).sheetnames)
    (again,) = recalculated([path], tmp_path / "office")
    assert unequal(path, again) == []


def test_nothing_is_hidden_and_there_are_no_macros(tmp_path: Path) -> None:
    path = written(tmp_path / "proof.xlsx", [item("G01")], [])
    with zipfile.ZipFile(path) as package:
        names = package.namelist()
        content = b"".join(package.read(name) for name in names)
    assert not [name for name in names if "vba" in name.lower() or "external" in name.lower()]
    assert not re.search(rb'hidden="1"|state="(very)?hidden"|sheetProtection', content, re.IGNORECASE)


def test_text_that_looks_like_a_formula_stays_text(tmp_path: Path) -> None:
    block = item("G01")
    path = written(tmp_path / "proof.xlsx", [Block("G01", "=1+1", block.figures)], [])
    assert openpyxl.load_workbook(path)["Values"]["B4"].data_type == "s"


def test_a_job_without_items_has_a_proof_that_comes_out(tmp_path: Path) -> None:
    path = written(tmp_path / "proof.xlsx", [], [])
    assert list(lines_of(path)) == []
    assert verdict_of(path) == "Every figure comes out."


def test_the_same_blocks_give_the_same_bytes() -> None:
    streams = BytesIO(), BytesIO()
    for stream in streams:
        write_proof(stream, "Proof", iter([item("G01")]), [], str)
    assert streams[0].getvalue() == streams[1].getvalue()


def test_how_far_a_figure_is_compared() -> None:
    assert compared_to(USD) == 2
    assert compared_to(COUNT) == 0
    assert compared_to(typed_money("KWD")) == 5
    assert compared_to(WEIGHT) == 6


def test_neighbouring_cells_make_a_range() -> None:
    assert ranges([("A", 1), ("A", 2), ("B", 3)], "C", "A") == ["C1:C2", "B!C3"]
    assert ranges([], "C", "A") == []
