"""The library beside the job."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from support.workbooks import codes, places, sound_rows, workbook

from appraise.model.place import Place
from appraise.workbook.layout import LIBRARY_ROWS
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.write import write_job, write_library


def library(folder: Path, **rows: Any) -> Path:
    return write_job(folder / "library.xlsx", rows)


def test_tables_of_the_library_come_in(tmp_path: Path) -> None:
    rows = sound_rows()
    tables = {name: rows.pop(name) for name in ("premiums", "indexes", "scales")}
    library(tmp_path, **tables)
    result = read_job(workbook(tmp_path, rows=rows, assignment={"library": "library.xlsx"}))
    whole = read_job(workbook(tmp_path, "whole.xlsx")).job
    assert codes(result) == []
    assert [replace(one, row=0) for one in result.job.indexes] == [replace(one, row=0) for one in whole.indexes]
    assert result.job.premiums[0].row >= LIBRARY_ROWS
    assert result.library == tmp_path / "library.xlsx"


def test_places_in_the_library_say_so(tmp_path: Path) -> None:
    rows = sound_rows()
    library(tmp_path, premiums=rows.pop("premiums"))
    result = read_job(workbook(tmp_path, rows=rows, assignment={"library": "library.xlsx"}))
    row = result.job.premiums[0].row
    assert result.layout.cell(Place("Premiums", row, "rate")).startswith("library.xlsx, Premiums!")


def test_the_job_wins_and_the_difference_is_a_note(tmp_path: Path) -> None:
    tables = sound_rows()["premiums"]
    tables[0]["rate"] = Decimal(25)
    library(tmp_path, premiums=tables)
    result = read_job(workbook(tmp_path, assignment={"library": "library.xlsx"}))
    assert codes(result) == ["FIL-14"]
    assert places(result, "FIL-14") == ["Premiums, row 3"]
    assert result.job.premiums == read_job(workbook(tmp_path, "whole.xlsx")).job.premiums


def test_equal_tables_are_not_doubled(tmp_path: Path) -> None:
    rows = sound_rows()
    library(tmp_path, premiums=rows["premiums"], indexes=rows["indexes"], scales=rows["scales"], sales=rows["sales"])
    result = read_job(workbook(tmp_path, assignment={"library": "library.xlsx"}))
    assert codes(result) == []
    assert result.job.indexes == read_job(workbook(tmp_path, "whole.xlsx")).job.indexes


def test_of_the_sales_only_those_that_are_used_come_in(tmp_path: Path) -> None:
    rows = sound_rows()
    sales = rows.pop("sales")
    library(tmp_path, sales=[*sales, {**sales[0], "id": "S900"}], premiums=[])
    result = read_job(workbook(tmp_path, rows=rows, assignment={"library": "library.xlsx"}))
    assert [sale.id for sale in result.job.sales] == [sale["id"] for sale in sales]
    assert codes(result) == []


def test_people_of_the_library_complete_those_of_the_job_and_no_more(tmp_path: Path) -> None:
    rows = sound_rows()
    known = dict(rows["people"][0])
    rows["people"][0]["address"] = None
    library(tmp_path, people=[{**known, "address": "1 Library Street"}, {**known, "id": "P9", "name": "Stranger"}])
    result = read_job(workbook(tmp_path, rows=rows, assignment={"library": "library.xlsx"}))
    assert [person.id for person in result.job.people] == [person["id"] for person in rows["people"]]
    assert result.job.people[0].address == "1 Library Street"


def test_a_library_that_is_not_there_is_a_finding_in_the_cell_that_names_it(tmp_path: Path) -> None:
    result = read_job(workbook(tmp_path, assignment={"library": "lost.xlsx"}))
    assert codes(result) == ["FIL-13"]
    assert places(result, "FIL-13")[0].startswith("Assignment!B")


def test_examples_of_a_blank_library_are_no_figures(tmp_path: Path) -> None:
    write_library(tmp_path / "library.xlsx")
    rows = sound_rows()
    rows["items"][0]["scale"] = "K-ARCH"
    rows.pop("scales")
    result = read_job(workbook(tmp_path, rows=rows, assignment={"library": "library.xlsx"}))
    assert "CEL-24" in codes(result)
