"""Track record and own indexes: pages for the appraiser, from sheets and CSV files."""

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from python_calamine import CalamineWorkbook
from support.workbooks import workbook

from appraise.cli import appraise
from appraise.files.unusable import UnusableFile
from appraise.jobs.own_index import write_own_indexes
from appraise.jobs.track_record import write_track_record
from appraise.model.missing import BLANK
from appraise.records.learning import LATER_SALES
from appraise.workbook.reading.csv_sheet import read_csv
from appraise.workbook.reading.read import read_job

#: IAAO Standard on Ratio Studies (2013), table 1-1: appraised value / sale price.
TABLE_1_1 = """48000/138000 28800/59250 78400/157500 39840/74400 68160/114900 94400/159000 67200/111900 56960/93000
87200/138720 38240/59700 96320/146400 67680/99000 32960/47400 50560/70500 61360/78000 47360/60000 58080/69000
47040/55500 136000/154500 103200/109500 59040/60000 168000/168000 128000/124500 132000/127500 160000/150000
160000/141000 200000/171900 184000/157500 160000/129600 157200/126000 99200/77700 200000/153000 64000/48750
192000/144000 190400/141000 65440/48000"""
HEADS = "Item,Family,Value type,Value reported,Value of,Price brought,Kind of price,Market,Sold on,Source"


def csv_text(pairs: str = TABLE_1_1, separator: str = ",", value_type: str = "fair market value") -> str:
    lines = [HEADS.replace(",", separator)]
    for number, pair in enumerate(pairs.split(), 1):
        value, price = pair.split("/")
        cells = (f"L{number}", "silver", value_type, value, "2024-01-01", price, "all-in", "auction", "2024-06-01", "x")
        lines.append(separator.join(cells))
    return "\n".join(lines) + "\n"


def cells(path: Path) -> list[list[Any]]:
    return CalamineWorkbook.from_path(path).get_sheet_by_index(0).to_python()


def row_of(path: Path, *begins: str) -> list[Any]:
    return next(row for row in cells(path) if [str(one) for one in row[: len(begins)]] == list(begins))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_page_prints_the_figures_of_the_iaao_table(tmp_path: Path, separator: str) -> None:
    """IAAO Standard on Ratio Studies (2013), table 1-1: median 0.864, mean 0.900, COD 29.8, PRD 0.98, PRB 0.232."""
    later = tmp_path / "later.csv"
    later.write_text(csv_text(separator=separator), "utf-8-sig")
    made = write_track_record(workbook(tmp_path), tmp_path / "page.xlsx", later, overwrite=False)
    assert (made.sales, made.open_stops) == (36, 0)
    row = row_of(made.written, "fair market value", "all-in", "all families")
    assert row[3:] == [36, 0.864, 0.684, 1.067, 0.9, 0.915, 29.8, 0.983, 0.232]
    assert row_of(made.written, "fair market value", "all-in", "silver")[3] == 36


def test_cautions_for_small_samples_and_retail_against_auction(tmp_path: Path) -> None:
    later = tmp_path / "later.csv"
    later.write_text(csv_text("120/100 130/100", value_type="retail replacement value"), "utf-8")
    made = write_track_record(workbook(tmp_path), tmp_path / "page.xlsx", later, overwrite=False)
    words = " ".join(str(row[0]) for row in cells(made.written))
    assert "fewer than 10 sales" in words
    assert "by the nature of the two markets" in words
    assert row_of(made.written, "retail replacement value", "all-in", "silver")[5] == "", "no interval of two sales"
    assert [made.where(one.finding.place) for one in made.judged] == ["later.csv, row 2", "later.csv, row 3"]


def test_sheet_and_file_are_taken_together_and_nothing_is_overwritten(tmp_path: Path) -> None:
    rows = [
        {
            "item": "G01",
            "family": "silver",
            "value_type": "fair market value",
            "value": Decimal(100),
            "value_day": date(2024, 1, 1),
            "price": Decimal(80),
            "price_kind": "hammer",
            "market": "auction",
            "day": date(2024, 2, 1),
            "source": "result",
        }
    ]
    later = tmp_path / "later.csv"
    later.write_text(csv_text("120/100"), "utf-8")
    job = workbook(tmp_path, later_sales=rows)
    made = write_track_record(job, tmp_path / "page.xlsx", later, overwrite=False)
    assert [str(one.price_kind) for one in made.groups if one.family is None] == ["all-in", "hammer"]
    with pytest.raises(UnusableFile, match="already there"):
        write_track_record(job, tmp_path / "page.xlsx", None, overwrite=False)


def test_faults_in_a_csv_file_are_findings_with_their_row(tmp_path: Path) -> None:
    later = tmp_path / "later.csv"
    later.write_text(csv_text("120/1oo 120/0 50/40"), "utf-8")
    made = write_track_record(workbook(tmp_path), tmp_path / "page.xlsx", later, overwrite=False)
    assert made.sales == 1
    assert {made.where(one.finding.place) for one in made.judged if one.stops} == {
        "later.csv, row 2",
        "later.csv, row 3",
    }


@pytest.mark.parametrize("content", [b"\xff\xfe\x00bad", None])
def test_a_csv_file_that_is_none_is_refused(tmp_path: Path, content: bytes | None) -> None:
    file = tmp_path / "later.csv"
    if content is not None:
        file.write_bytes(content)
    with pytest.raises(UnusableFile):
        read_csv(file, LATER_SALES)


def pair(name: str, first: str, price: str, second: str, later: str, index: str = "OWN") -> dict[str, Any]:
    return {
        "id": name,
        "index": index,
        "object": name,
        "first_month": first,
        "first_price": Decimal(price),
        "second_month": second,
        "second_price": Decimal(later),
        "changed": False,
        "source": "results",
    }


def test_the_rows_of_an_own_index_can_be_kept_in_a_library(tmp_path: Path) -> None:
    """Two objects sold in 2019 and 2022 doubled: 100 and 200; nothing between, before or after."""
    pairs = [pair("R1", "2019-03", "100", "2022-05", "200"), pair("R2", "2019-08", "50", "2022-11", "100")]
    job = workbook(tmp_path, repeat_sales=pairs)
    made = write_own_indexes(job, tmp_path / "own.xlsx", months=12, overwrite=False)
    assert made.open_stops == 0
    assert [(one.period, one.figure, one.pairs) for one in made.indexes["OWN"].periods] == [
        (2019, Decimal("100.0000"), 2),
        (2022, Decimal("200.0000"), 2),
    ]
    assert made.indexes["OWN"].gaps == (2020, 2021)
    shown = {str(row[0]): row[1:] for row in cells(made.page)}
    assert shown["2020"][3] == "no sale: no figure"
    assert shown["2022"][1] != ""
    assert set(shown) & {"2018", "2023"} == set(), "never drawn on"
    joined = workbook(tmp_path, "joined.xlsx", assignment={"library": "own.xlsx"})
    points = [one for one in read_job(joined).job.indexes if one.index == "OWN"]
    assert [(one.month, one.figure, one.carry_last, one.market) for one in points] == [
        ("2019-07", Decimal(100), False, BLANK),
        ("2022-07", Decimal(200), False, BLANK),
    ]
    assert all("2 pairs" in str(one.source) for one in points)


def test_periods_that_do_not_hang_together_make_no_index(tmp_path: Path) -> None:
    pairs = [pair("R1", "2015-03", "100", "2016-05", "200"), pair("R2", "2019-08", "50", "2022-11", "100")]
    made = write_own_indexes(workbook(tmp_path, repeat_sales=pairs), tmp_path / "own.xlsx", months=12, overwrite=False)
    assert made.indexes == {}
    assert [one.finding.code for one in made.judged] == ["YRL-21"]


def test_the_command(tmp_path: Path) -> None:
    later = tmp_path / "later.csv"
    later.write_text(csv_text("120/100"), "utf-8")
    job = str(workbook(tmp_path, repeat_sales=[pair("R1", "2019-03", "100", "2022-05", "200")]))
    page, own = str(tmp_path / "page.xlsx"), str(tmp_path / "own.xlsx")
    arguments = ["revalue", job, "--track-record", page, "--later-sales", str(later), "--own-indexes", own]
    ran = CliRunner().invoke(appraise, arguments, standalone_mode=False)
    assert ran.return_value == 0, ran.output
    assert "no report contains it" in ran.output
    assert "OWN: 1 pairs, 2 periods" in ran.output
    without = CliRunner().invoke(appraise, ["revalue", job])
    assert without.exit_code == 2
    assert "--effective" in without.output
