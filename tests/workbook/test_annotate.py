"""The annotated copy: marks and comments at the right cells, and everything else as it was, byte by byte."""

import io
import re
import subprocess
import warnings
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import openpyxl
import pytest
from support.office import needs_soffice
from support.raw_xml import package
from support.rich_workbook import LIST_RULE, MACROS, THREADS, parts_of, rich_workbook, write_parts
from support.same_cells import our_cells

from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.answers import Judged, Status
from appraise.model.finding import Finding, finding
from appraise.model.place import Place
from appraise.workbook.layout import LIBRARY_ROWS, Layout, SheetLayout
from appraise.workbook.marking.annotate import Annotated, annotate
from appraise.workbook.marking.cell_comments import AUTHOR
from appraise.workbook.marking.marked_styles import FILLS

LAYOUT = Layout("rich.xlsx", {"Items": SheetLayout("Items", 1, {"id": 1, "maker": 4, "price": 41, "far": 44})})
SHEET = "xl/worksheets/sheet3.xml"
#: What has to change when cells of Items are marked and commented.
TOUCHED = {
    SHEET,
    "[Content_Types].xml",
    "xl/styles.xml",
    "xl/comments1.xml",
    "xl/drawings/vmlDrawing1.vml",
    "xl/threadedComments/threadedComment1.xml",
    "xl/persons/person.xml",
}


def stop(row: int, column: str = "id", found: str = "2217", sheet: str = "Items") -> Finding:
    return finding("ITM-02", Place(sheet, row, column), "G01", "A01", found=found)


def judged(findings: Iterable[Finding], status: Status = Status.OPEN) -> list[Judged]:
    return [Judged(one, status) for one in findings]


def made(path: Path, notes: list[Judged], layout: Layout = LAYOUT) -> tuple[Path, Annotated]:
    copy = path.with_name(f"copy{path.suffix}")
    with copy.open("wb") as stream:
        return copy, annotate(path, stream, notes, layout)


def opened(path: Path) -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl says what it would drop
        return openpyxl.load_workbook(path)


def comments(path: Path) -> dict[tuple[str, str], str]:
    return {
        (page.title, cell.coordinate): cell.comment.text
        for page in opened(path)
        for row in page.iter_rows()
        for cell in row
        if cell.comment
    }


@pytest.mark.parametrize("macros", [False, True])
def test_parts_that_need_no_change_are_the_same_bytes_in_the_same_order(tmp_path: Path, macros: bool) -> None:
    path = rich_workbook(tmp_path, macros=macros)
    copy, _ = made(path, judged([stop(2), stop(3, "maker"), stop(4)]))
    before, after = parts_of(path), parts_of(copy)
    assert list(after)[: len(before)] == list(before)
    assert {name for name in before if before[name] != after[name]} == TOUCHED - {"[Content_Types].xml"}
    assert set(after) == set(before)
    assert (after.get("xl/vbaProject.bin") == MACROS) is macros


def test_in_a_changed_sheet_only_the_marked_cells_differ(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(2, "price"), stop(3, "price")]))
    before, after = parts_of(path)[SHEET].decode(), parts_of(copy)[SHEET].decode()
    style = re.compile(r'(<c r="AO[23]") s="[0-9]+"')
    assert before != after
    assert style.sub(r"\1", before) == style.sub(r"\1", after)
    assert LIST_RULE in after and "sparkline" in after and "<f>AO2*2</f><v>25</v>" in after
    assert our_cells(path) == our_cells(copy)


def test_a_mark_keeps_the_rest_of_the_style(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(2, "price")]))
    cell, neighbour = opened(copy)["Items"]["AO2"], opened(copy)["Items"]["AO3"]
    assert (cell.number_format, cell.font.b, cell.fill.fgColor.rgb) == ("#,##0.00", True, FILLS["stop"])
    assert (neighbour.number_format, neighbour.font.b, neighbour.fill.fill_type) == ("#,##0.00", True, None)


def test_cells_and_rows_that_are_not_there_are_put_in(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(3, "far"), stop(9, "maker"), stop(500, "id"), stop(500, "far")]))
    page = opened(copy)["Items"]
    for cell in ("AR3", "D9", "A500", "AR500"):
        assert page[cell].fill.fgColor.rgb == FILLS["stop"], cell
        assert "ITM-02" in page[cell].comment.text
    assert page["AR3"].number_format == page["AR500"].number_format == "#,##0.00"  # as its column is formatted
    rows = [int(one) for one in re.findall(rb'<row r="([0-9]+)"', parts_of(copy)[SHEET])]
    assert rows == sorted(set(rows)) and {9, 500} <= set(rows)
    third = re.search(rb'<row r="3".*?</row>', parts_of(copy)[SHEET])
    assert third is not None
    assert re.findall(rb'<c r="([A-Z]+)3"', third[0])[-1] == b"AR"


def test_a_row_put_in_stands_before_a_row_that_gets_a_cell(tmp_path: Path) -> None:
    path, layout = hand_made(tmp_path / "gap.xlsx", '<sheetData><row r="2"/><row r="9"><c r="B9"/></row></sheetData>')
    copy, _ = made(path, judged([stop(1), stop(2), stop(8), stop(9)]), layout)
    rows = re.findall(rb'<row r="([0-9]+)"[^>]*>(.*?)</row>', parts_of(copy)["xl/worksheets/sheet1.xml"])
    assert [(int(number), cells.count(b"<c ")) for number, cells in rows] == [(1, 1), (2, 1), (8, 1), (9, 2)]


def test_a_comment_that_is_there_stays_and_ours_stands_below_it(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(2)]))
    text = comments(copy)["Items", "A2"]
    assert text.startswith("Seen by hand.\n\nappraise check:\nstop ITM-02: ")
    assert comments(path)["Items", "A4"] == comments(copy)["Items", "A4"]
    assert opened(copy)["Items"]["A2"].comment.author == "M. T."


def test_a_conversation_gets_an_answer(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(4)]))
    parts = parts_of(copy)
    first, answer = ElementTree.fromstring(parts["xl/threadedComments/threadedComment1.xml"])
    assert answer.get("parentId") == first.get("id") and answer.get("ref") == "A4"
    assert "ITM-02" in str(answer.findtext(f"{{{THREADS}}}text"))
    people = ElementTree.fromstring(parts["xl/persons/person.xml"])
    assert [one.get("displayName") for one in people] == ["M. T.", AUTHOR]
    assert people[1].get("id") == answer.get("personId")
    assert "Which one?" in comments(copy)["Items", "A4"]


def test_a_cell_under_a_merged_one_is_marked_where_it_shows(tmp_path: Path) -> None:
    layout = Layout("rich.xlsx", {"Items": SheetLayout("Items", 1, {"id": 4})})
    copy, _ = made(rich_workbook(tmp_path), judged([stop(13)]), layout)
    assert "ITM-02" in comments(copy)["Items", "C12"]


def test_the_gravest_word_gives_the_colour_and_stands_first(tmp_path: Path) -> None:
    note = finding("FIL-08", Place("Items", 3, "id"), found="Mine")
    copy, done = made(rich_workbook(tmp_path), judged([note, stop(3)]))
    cell = opened(copy)["Items"]["A3"]
    assert cell.fill.fgColor.rgb == FILLS["stop"]
    assert re.findall("^(stop|note) ", cell.comment.text, re.MULTILINE) == ["stop", "note"]
    assert (done.findings, done.cells) == (2, 1)


def test_answered_findings_and_those_about_the_library_are_left_out(tmp_path: Path) -> None:
    layout = Layout("rich.xlsx", LAYOUT.sheets, Layout("library.xlsx", {}))
    notes = [*judged([stop(2)], Status.RELEASED), *judged([stop(LIBRARY_ROWS + 2), stop(3)])]
    copy, done = made(rich_workbook(tmp_path), notes, layout)
    assert done == Annotated(1, 1, 1)
    assert {place for place, text in comments(copy).items() if "ITM-02" in text} == {("Items", "A3")}


def test_findings_about_the_file_or_a_sheet_that_is_not_there_stand_on_the_first_sheet(tmp_path: Path) -> None:
    copy, _ = made(rich_workbook(tmp_path), judged([stop(0, "", sheet=""), stop(7, sheet="Sales")]))
    assert comments(copy)["Start", "A1"].count("ITM-02") == 2


def test_without_open_findings_it_is_the_same_workbook(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, done = made(path, [])
    assert parts_of(copy) == parts_of(path)
    assert done == Annotated(0, 0, 0)


def test_what_was_typed_stays_text(tmp_path: Path) -> None:
    copy, _ = made(rich_workbook(tmp_path), judged([stop(3, found="</t>&{{ 1 }}\x07\ud800 é 🎻\n=cmd")]))
    assert "</t>&{{ 1 }} é 🎻" in comments(copy)["Items", "A3"]


def test_the_same_findings_give_the_same_bytes(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    contents = []
    for _ in range(2):
        stream = io.BytesIO()
        annotate(path, stream, judged([stop(2), stop(4), stop(77, "far")]), LAYOUT)
        contents.append(stream.getvalue())
    assert contents[0] == contents[1]


def test_many_findings_have_boxes_numbered_apart(tmp_path: Path) -> None:
    """A drawing numbers its boxes in blocks of 1,024 and says which are its own."""
    copy, done = made(rich_workbook(tmp_path), judged(stop(row, "maker") for row in range(20, 2520)))
    parts = parts_of(copy)
    assert done.cells == 2500
    drawing = parts["xl/drawings/vmlDrawing1.vml"]
    numbers = [int(one) for one in re.findall(rb'<v:shape [^>]*id="_x0000_s([0-9]+)"', drawing)]
    assert len(numbers) == len(set(numbers)) == 2502
    blocks = re.search(rb'idmap [^>]*data="([0-9,]+)"', drawing)
    assert blocks is not None
    assert {one // 1024 for one in numbers} <= {int(one) for one in blocks[1].split(b",")}
    assert len(comments(copy)) == 2502


def hand_made(path: Path, sheet: str, **others: str) -> tuple[Path, Layout]:
    return package(path, sheet, name="Items", **others), Layout(
        path.name, {"Items": SheetLayout("Items", 1, {"id": 1})}
    )


ROW = '<sheetData><row r="2"><c r="A2" t="inlineStr"><is><t>G01</t></is></c></row></sheetData>'


def test_a_workbook_without_styles_drawing_or_comments(tmp_path: Path) -> None:
    path, layout = hand_made(tmp_path / "bare.xlsx", f"{ROW}<tableParts/>")
    copy, _ = made(path, judged([stop(2)]), layout)
    cell = opened(copy)["Items"]["A2"]
    assert (cell.value, cell.fill.fgColor.rgb) == ("G01", FILLS["stop"])
    assert "ITM-02" in cell.comment.text
    assert re.search(rb"</sheetData><legacyDrawing [^>]*/><tableParts/>", parts_of(copy)["xl/worksheets/sheet1.xml"])


@pytest.mark.parametrize("data", ["<sheetData/>", '<sheetData><row r="2"/></sheetData>', "<sheetData></sheetData>"])
def test_an_empty_sheet(tmp_path: Path, data: str) -> None:
    path, layout = hand_made(tmp_path / "empty.xlsx", data)
    copy, _ = made(path, judged([stop(2)]), layout)
    assert "ITM-02" in comments(copy)["Items", "A2"]


def test_elements_with_a_prefix(tmp_path: Path) -> None:
    path, layout = hand_made(tmp_path / "prefix.xlsx", ROW)
    parts = parts_of(path)
    sheet = "xl/worksheets/sheet1.xml"
    plain = parts[sheet].decode()
    parts[sheet] = re.sub(r"<(/?)(?=[a-z])", r"<\1m:", plain).replace(" xmlns=", " xmlns:m=").encode()
    write_parts(path, parts)
    copy, _ = made(path, judged([stop(2), stop(5)]), layout)
    assert set(comments(copy)) == {("Items", "A2"), ("Items", "A5")}


def test_a_sheet_in_utf_16(tmp_path: Path) -> None:
    path, layout = hand_made(tmp_path / "wide.xlsx", ROW.replace("G01", "Gé1"))
    parts = parts_of(path)
    sheet = "xl/worksheets/sheet1.xml"
    parts[sheet] = parts[sheet].decode().replace('"1.0"', '"1.0" encoding="UTF-16"').encode("utf-16")
    write_parts(path, parts)
    copy, _ = made(path, judged([stop(2)]), layout)
    assert opened(copy)["Items"]["A2"].value == "Gé1"
    assert "ITM-02" in comments(copy)["Items", "A2"]


@pytest.mark.parametrize(
    ("part", "content"),
    [
        ("xl/comments1.xml", b"<comments>"),
        ("xl/comments1.xml", b"<other/>"),
        ("xl/drawings/vmlDrawing1.vml", b"<xml>"),
        ("xl/persons/person.xml", b"<!DOCTYPE x><personList/>"),
        ("xl/styles.xml", b"<styleSheet>"),
        ("[Content_Types].xml", b"<Types>"),
    ],
)
def test_a_part_that_cannot_be_changed_safely_is_refused(tmp_path: Path, part: str, content: bytes) -> None:
    path = rich_workbook(tmp_path)
    parts = parts_of(path)
    notes = judged([stop(3), stop(4)])
    if part == "[Content_Types].xml":
        notes += judged([stop(1, sheet="")])  # a sheet without comments needs new parts
    write_parts(path, {**parts, part: content})
    with pytest.raises(UnusableFile) as caught:
        made(path, notes)
    assert caught.value.code is Trouble.DAMAGED


@pytest.mark.office
def test_an_office_program_opens_the_copy_with_all_comments(tmp_path: Path) -> None:
    path = rich_workbook(tmp_path)
    copy, _ = made(path, judged([stop(2), stop(3, "price"), stop(9, "maker"), stop(1, sheet="")]))
    command = [needs_soffice(), f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}", "--headless"]
    command += ["--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", str(tmp_path / "out"), str(copy)]
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    found = comments(tmp_path / "out" / "copy.xlsx")
    assert {place for place, text in found.items() if "ITM-02" in text} == {
        ("Items", "A2"), ("Items", "AO3"), ("Items", "D9"), ("Start", "A1"),
    }  # fmt: skip
    assert "Seen by hand." in found["Items", "A2"]
