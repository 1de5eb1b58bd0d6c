"""The findings workbook: rows lead to the cells of the user's file; the same findings give the same bytes."""

import io
import zipfile
from datetime import date
from typing import Any

import openpyxl
from support.checks import changed, sound_context, sound_job

from appraise.checks.run import run_checks
from appraise.findings.answers import Judged, answer_key, judge
from appraise.findings.entries import message
from appraise.model.finding import finding
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Answer
from appraise.workbook.layout import LIBRARY_ROWS, Layout, SheetLayout
from appraise.workbook.writing.findings_book import Files, write_findings_book

LAYOUT = Layout(
    file="job.xlsx",
    sheets={
        "Items": SheetLayout("Items", 2, {"serial": 9, "number": 3}),
        "Sales": SheetLayout("It's sold", 2, {"verified": 5}),
        "Assignment": SheetLayout("Assignment", 1, {"fee_basis": 2}, {"fee_basis": 24}),
    },
    library=Layout(file="library.xlsx", sheets={"Sales": SheetLayout("Sales", 2, {"verified": 5})}),
)
FILES = Files("../estate #1/job.xlsx", "../library.xlsx")
STOP = finding("ITM-02", Place("Items", 3, "serial"), "G01", "A01", found="2217")
FEE = finding("ASG-02", Place("Assignment", 0, "fee_basis"), found="outcome")
NONE = finding("ASG-06", Place("Value types"))


def written(judged: list[Judged], files: Files = FILES) -> bytes:
    stream = io.BytesIO()
    write_findings_book(stream, judged, LAYOUT, files)
    return stream.getvalue()


def opened(judged: list[Judged], files: Files = FILES) -> Any:
    return openpyxl.load_workbook(io.BytesIO(written(judged, files)))


def link(cell: Any) -> tuple[str, str]:
    """File and place a cell leads to. XlsxWriter writes relative paths with backslashes, as Excel does."""
    return cell.hyperlink.target.replace("\\", "/"), cell.hyperlink.location


def test_rows_link_to_the_cells_by_a_relative_path() -> None:
    page = opened(judge([STOP, FEE], ()))["Findings"]
    links = {cell.value: link(cell) for cell in page["A"][2:]}
    target = "../estate%20%231/job.xlsx"
    assert links == {"Assignment!B24": (target, "'Assignment'!B24"), "Items!I3": (target, "'Items'!I3")}


def test_a_place_in_the_library_leads_to_the_library() -> None:
    here = finding("SAL-04", Place("Sales", 5, "verified"), "G01", "S001", found="not verified", line="c1")
    there = finding(
        "SAL-04", Place("Sales", LIBRARY_ROWS + 7, "verified"), "G01", "S009", found="not verified", line="c2"
    )
    cells = opened(judge([here, there], ()))["Findings"]["A"][2:]
    assert [(one.value, link(one)) for one in cells] == [
        ("It's sold!E5", ("../estate%20%231/job.xlsx", "'It''s sold'!E5")),
        ("library.xlsx, Sales!E7", ("../library.xlsx", "'Sales'!E7")),
    ]


def test_a_row_tells_the_whole_finding_and_its_answer() -> None:
    key = answer_key(STOP)
    told = {"code": key.code, "subjects": key.about, "column_key": key.column, "found_mark": key.mark}
    answer = filled(Answer, row=2, reason="seen by hand", initials="MT", **told, day=date(2025, 2, 10))
    page = opened(judge([STOP], [answer]))["Findings"]
    values = [cell.value for cell in page[3]]
    assert values[1:4] == ["stop, contrary to practice", "ITM-02", message(STOP)]
    assert values[7:9] == ["released", "MT, 2025-02-10: seen by hand"]
    assert page["A1"].value == "No open findings. Settled in writing: 1 stop released."


def test_the_second_sheet_is_ready_to_be_copied_to_answers() -> None:
    page = opened(judge([STOP, FEE, NONE], ()))["To answer"]
    rows = [[cell.value for cell in row[:4]] for row in page.iter_rows(min_row=2)]
    keys = [answer_key(FEE), answer_key(STOP)]
    assert rows == [[one.code, one.about, one.column, one.mark] for one in keys]
    assert [cell.value for cell in page[1]][:4] == ["Finding code", "About", "Column key", "Mark of the value"]


def test_what_a_person_typed_stays_text() -> None:
    hostile = finding("ITM-02", Place("Items", 3, "serial"), "=1+1", "http://x", found="=cmd|' /C'!A0")
    page = opened(judge([hostile], ()))["To answer"]
    assert (page["B2"].value, page["B2"].data_type) == ("=1+1; http://x", "s")


def test_without_a_file_to_lead_to_the_cell_is_only_named() -> None:
    page = opened(judge([STOP], ()), Files(""))["Findings"]
    assert (page["A3"].value, page["A3"].hyperlink) == ("Items!I3", None)


def test_the_same_findings_give_the_same_bytes_with_a_fixed_time() -> None:
    judged = judge(run_checks(sound_context(changed(sound_job(), "items", 0, serial="T-0881", maker="Voltigern"))), ())
    assert judged
    first, second = written(judged), written(judged)
    assert first == second
    with zipfile.ZipFile(io.BytesIO(first)) as package:
        assert {info.date_time for info in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_no_findings_is_a_workbook_too() -> None:
    assert opened([])["Findings"]["A1"].value == "No findings."
