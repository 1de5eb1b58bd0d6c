"""A frozen workbook of every format is still read. The files are never written again."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from support.workbooks import codes

from appraise.files.hashes import sha256_of
from appraise.records.job import FORMAT
from appraise.records.vocabulary import Family, FinishClass, PriceKind, Use
from appraise.workbook.reading.read import read_job

HERE = Path(__file__).parent
SEALS = {1: "8f21f2110fe6a6371fefb5887593691b67459fa8c9e707ffc243d33311e995be"}


def test_there_is_a_workbook_of_every_format() -> None:
    assert sorted(SEALS) == list(range(1, FORMAT + 1))
    assert {path.name for path in HERE.glob("*.xlsx")} == {f"format_{number}.xlsx" for number in SEALS}


@pytest.mark.parametrize("number", SEALS)
def test_the_frozen_workbook_is_unchanged(number: int) -> None:
    assert sha256_of(HERE / f"format_{number}.xlsx") == SEALS[number]


def test_format_1_is_read() -> None:
    result = read_job(HERE / "format_1.xlsx")
    # What was added since may be missing (a sheet: FIL-02) or blank (CEL-21, CEL-22); nothing may be misread.
    assert set(codes(result)) <= {"FIL-02", "FIL-07", "CEL-21", "CEL-22"}
    job = result.job
    assert job.assignment.use is Use.ESTATE
    assert job.assignment.effective_date == date(2024, 11, 15)
    item = job.items[0]
    assert (item.id, item.family, item.serial, item.finish_class) == (
        "G01",
        Family.ARCHTOP,
        "2217",
        FinishClass.ORIGINAL,
    )
    sale = job.sales[0]
    assert (sale.id, sale.kind, sale.price) == ("S001", PriceKind.HAMMER, Decimal("21000"))
    assert [one.heading for one in result.extra_columns] == ["Shelf"]
