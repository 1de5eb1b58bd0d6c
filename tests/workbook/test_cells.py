"""Our reader against openpyxl, cell for cell, on files of several writers; and what it makes of odd files."""
# ruff: noqa: DTZ001, E501 - cells know no time zones; XML by hand reads best on one line

import datetime as dt
import shutil
import subprocess
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.worksheet.formula import ArrayFormula
from support.raw_xml import package
from support.same_cells import openpyxl_cells, our_cells
from support.workbooks import raw_workbook

from appraise.files.unusable import Trouble, UnusableFile
from appraise.workbook.cells import Book, Kind, column_letters, column_number, to_decimal
from appraise.workbook.number_formats import Shown, shown_as

NUMBERS = (0, 1, -1, 0.1, 0.1 + 0.2, 1 / 3, 1e15, 123456789012345, 1e-7, 1e300, 2.5, 1234567.891)
FORMATS = (
    "0.00", "0%", "0.0 %", "yyyy-mm-dd", "d.m.yyyy", "[$-407]d. mmmm yyyy", "h:mm", "[h]:mm:ss", "mm:ss", "#,##0.00",
    "[$€-407] #,##0.00", '"about" 0', "0.00E+00", "@", "[Red]0.00", "# ?/?", "mmm yy", '0 "days"', "General",
    "yyyy-mm-dd hh:mm", '0;"minus" 0', "0.00\\%",
)  # fmt: skip


def xlsxwriter_file(folder: Path) -> Path:
    def fill(book: Any) -> None:
        page = book.add_worksheet("Numbers & <texts>")
        for row, number in enumerate(NUMBERS):
            page.write_number(row, 0, number)
        for row, code in enumerate(FORMATS):
            page.write_number(
                row, 1, 45123 if "d" in code or "y" in code else 0.25, book.add_format({"num_format": code})
            )
            page.write_string(row, 2, code)
        page.write_formula(0, 4, "=1+1", None, 2)
        page.write_formula(1, 4, '="a"&"b"', None, "ab")
        page.write_formula(2, 4, "=1/0", None, "#DIV/0!")
        page.write_formula(3, 4, "=TRUE()", None, True)
        page.write_array_formula(4, 4, 5, 4, "{=A1:A2*2}", None, 0)
        page.write_formula(6, 4, '=""', None, "")
        page.write_boolean(0, 5, True)
        page.write_boolean(1, 5, False)
        page.write_datetime(2, 5, dt.datetime(1900, 1, 1), book.add_format({"num_format": "yyyy-mm-dd"}))
        page.write_datetime(3, 5, dt.datetime(1900, 2, 28), book.add_format({"num_format": "yyyy-mm-dd"}))
        page.write_datetime(4, 5, dt.datetime(1900, 3, 1), book.add_format({"num_format": "yyyy-mm-dd"}))
        page.write_datetime(5, 5, dt.datetime(2024, 2, 29, 13, 5), book.add_format({"num_format": "yyyy-mm-dd hh:mm"}))
        page.write_rich_string(0, 6, "plain ", book.add_format({"bold": True}), "bold", " & plain")
        page.write_string(1, 6, " spaces kept ")
        page.write_string(2, 6, "two\nlines\tand a tab")
        page.write_string(3, 6, "Ünïcødé 漢字 🎸 <&>\"'")
        page.write_blank(4, 6, None, book.add_format({"bold": True}))
        page.merge_range("H1:I2", "merged")
        page.set_row(1, None, None, {"hidden": True})
        page.write_string(1_048_575, 0, "last row")
        book.add_worksheet("Second").write_string("XFD1", "last column")
        book.add_chartsheet("Chart").set_chart(_chart(book))

    return raw_workbook(folder, fill)


def _chart(book: Any) -> Any:
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "='Second'!$A$1:$A$2"})
    return chart


def openpyxl_file(folder: Path) -> Path:
    book = openpyxl.Workbook()
    page = book.active
    page.title = "Numbers"
    for row, number in enumerate(NUMBERS, 1):
        page.cell(row, 1, number)
    for row, code in enumerate(FORMATS, 1):
        cell = page.cell(row, 2, 45123 if "d" in code or "y" in code else 0.25)
        cell.number_format = code
    page["C1"] = "=A1+1"
    page["C2"] = ArrayFormula("C2:C3", "=A1:A2*2")
    page["D1"] = dt.date(2024, 2, 29)
    page["D2"] = dt.datetime(2024, 2, 29, 23, 59, 59)
    page["D3"] = dt.time(4, 5)
    page["D4"] = True
    page["D5"] = "#N/A"
    page["D6"] = CellRichText("a ", TextBlock(InlineFont(b=True), "b"), " c")
    page["D7"] = "  spaces  "
    page["D8"] = Decimal("12.345678901234567")
    page.merge_cells("F1:G2")
    page["F1"] = "merged"
    page.row_dimensions[3].hidden = True
    book.create_sheet("Empty")
    path = folder / "openpyxl.xlsx"
    book.save(path)
    return path


def openpyxl_1904_file(folder: Path) -> Path:
    book = openpyxl.Workbook()
    book.epoch = dt.datetime(1904, 1, 1)
    page = book.active
    page["A1"] = dt.date(1904, 1, 2)
    page["A2"] = dt.date(2024, 2, 29)
    page["A3"] = dt.datetime(1999, 12, 31, 6)
    path = folder / "from1904.xlsx"
    book.save(path)
    return path


HAND_MADE_STYLES = """<numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts>
<cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="10"/><xf numFmtId="14"/></cellXfs>"""
HAND_MADE_SHEET = """<sheetData>
<row r="1"><c r="A1" t="inlineStr"><is><t>inline</t></is></c>
<c r="B1" t="inlineStr"><is><r><rPr><b/></rPr><t>ri</t></r><r><t xml:space="preserve">ch </t></r></is></c>
<c r="C1" t="str"><f>"x"&amp;"y"</f><v>xy</v></c><c r="D1" t="e"><v>#REF!</v></c><c r="E1" t="b"><v>1</v></c></row>
<row r="2"><c r="A2"><v>1</v></c><c r="B2"><f t="shared" ref="B2:B4" si="0">A2*2+$A$2</f><v>3</v></c></row>
<row r="3"><c r="A3" t="n"><v>2</v></c><c r="B3"><f t="shared" si="0"/><v>5</v></c></row>
<row r="4"><c r="A4"><v>3.0000000000000004</v></c><c r="B4"><f t="shared" si="0"/></c></row>
<row r="7" hidden="1"><c r="B7" s="1"><v>45351</v></c><c r="C7" s="2"><v>0.155</v></c><c r="D7" s="3"><v>60</v></c></row>
<row r="8"><c r="A8" t="s"><v>0</v></c><c r="B8" t="s"><v>1</v></c><c r="C8" s="1"/><c r="D8"><v></v></c></row>
<row r="9"><!-- a note --><c r="A9"><v>1E3</v></c><c r="B9"><v>-1.5e-3</v></c><c r="C9"><v>007</v></c></row>
<row r="10"><c r="A10" t="str"><v>a result without its formula</v></c><c r="B10" t="e"><f>NA()</f><v>#N/A</v></c></row>
</sheetData><mergeCells count="1"><mergeCell ref="A12:B12"/></mergeCells>"""
HAND_MADE_TEXTS = """<si><t>shared &amp; plain</t></si><si><r><t>ri</t></r><r><t>ch</t></r><rPh sb="0" eb="1"><t>guide</t></rPh></si>"""


def hand_made_file(folder: Path, **settings: Any) -> Path:
    return package(folder / "hand.xlsx", HAND_MADE_SHEET, styles=HAND_MADE_STYLES, texts=HAND_MADE_TEXTS, **settings)


def hand_made_1904_file(folder: Path) -> Path:
    return hand_made_file(folder, book='<workbookPr date1904="1"/>')


MAKERS = (xlsxwriter_file, openpyxl_file, openpyxl_1904_file, hand_made_file, hand_made_1904_file)


@pytest.mark.parametrize("make", MAKERS, ids=lambda make: make.__name__)
def test_every_cell_is_as_openpyxl_reads_it(make: Any, tmp_path: Path) -> None:
    path = make(tmp_path)
    ours, theirs = our_cells(path), openpyxl_cells(path)
    assert len(theirs) > 2
    assert ours == theirs


@pytest.mark.office
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is missing")
def test_every_cell_of_a_file_saved_by_libreoffice_is_as_openpyxl_reads_it(tmp_path: Path) -> None:
    sources = [hand_made_file(tmp_path), xlsxwriter_small(tmp_path)]
    profile = f"-env:UserInstallation=file://{tmp_path}/profile"
    convert = ["soffice", profile, "--headless", "--convert-to", "xlsx", "--outdir", tmp_path / "saved", *sources]
    subprocess.run(convert, check=True, capture_output=True, timeout=300)
    for source in sources:
        saved = tmp_path / "saved" / source.name
        ours, theirs = our_cells(saved), openpyxl_cells(saved)
        assert len(theirs) > 10
        assert ours == theirs


def xlsxwriter_small(folder: Path) -> Path:
    def fill(book: Any) -> None:
        page = book.add_worksheet("A")
        for row, code in enumerate(FORMATS):
            page.write_number(
                row, 0, 45123 if "d" in code or "y" in code else 0.25, book.add_format({"num_format": code})
            )
            page.write_formula(row, 1, f"=A{row + 1}*2")
        page.write_formula(0, 2, "=1/0")
        page.write_rich_string(0, 3, "plain ", book.add_format({"bold": True}), "bold")
        page.write_boolean(0, 4, True)

    return raw_workbook(folder, fill, "small.xlsx")


@pytest.mark.parametrize("make", MAKERS, ids=lambda make: make.__name__)
def test_quick_and_careful_reading_agree(make: Any, tmp_path: Path) -> None:
    assert_both_ways_agree(make(tmp_path))


def assert_both_ways_agree(path: Path) -> None:
    with Book(path) as book:
        for sheet in book.sheets:
            quick, careful = book.rows(sheet), book.rows(sheet, careful=True)
            assert outcome(quick) == outcome(careful)
            assert quick.merged == careful.merged


def outcome(rows: Any) -> list[Any]:
    """Return the rows, or the fault that makes the file unusable, however far reading came."""
    try:
        return list(rows)
    except UnusableFile as error:
        return [error.code]


ODD_CELLS = st.sampled_from(
    (
        '<c r="{0}"><v>1</v></c>',
        '<c r="{0}" s="2"><v>0.5</v></c>',
        '<c r="{0}" s="1"><v>45000</v></c>',
        '<c r="{0}" t="s"><v>0</v></c>',
        '<c r="{0}" t="str"><f>A1</f><v></v></c>',
        '<c r="{0}" t="str"><f>A1</f><v>a</v></c>',
        '<c r="{0}" t="str"><v/></c>',
        '<c r="{0}"><f>A1+1</f></c>',
        '<c r="{0}"><f/><v>3</v></c>',
        '<c r="{0}" t="b"><v>1</v></c>',
        '<c r="{0}" t="e"><v>#N/A</v></c>',
        '<c r="{0}" t="d"><v>2024-03-01</v></c>',
        '<c r="{0}" s="1"/>',
        '<c s="2" r="{0}"><v>7</v></c>',
        "<c r='{0}'><v>8</v></c>",
        "<c><v>9</v></c>",
        '<c r="{0}" t="inlineStr"><is><t>in &lt; line</t></is></c>',
        '<c r="{0}" t="str"><v>a &amp; b</v></c>',
        '<c r="{0}" t="str"><v>two\r\nlines</v></c>',
        '<c r="{0}"><v> 5 </v></c>',
        '<c r="{0}"><!-- <c r="Z9"><v>1</v></c> --><v>6</v></c>',
        '<c r="{0}"><v><![CDATA[4]]></v></c>',
        '<c r="{0}" t="s"><v>999</v></c>',
        '<c r="{0}"><v>1</v>',
        '<c r="{0}"><v>x</v></c>',
        "  \n ",
        "stray text",
        "<x:c xmlns:x='urn:x'><v>1</v></x:c>",
    )
)
ODD_ROWS = st.sampled_from(
    (
        '<row r="{0}">{1}</row>',
        '<row r="{0}" spans="1:3" hidden="1" ht="15.5">{1}</row>',
        "<row>{1}</row>",
        '<row r="{0}"/><row r="{0}">{1}</row>',
        '<row r="{0}" s="1" customFormat="1"/>',
        '<row hidden="true" r="{0}">{1}</row>',
        '\n<row r="{0}">{1}</row>\n',
        '<!-- <row r="{0}">{1}</row> -->',
        "<row/>",
    )
)


@settings(deadline=None, max_examples=400, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(ODD_ROWS, st.lists(ODD_CELLS, max_size=3)), max_size=4), st.booleans())
def test_quick_and_careful_reading_agree_on_anything(tmp_path: Path, rows: list[Any], merged: bool) -> None:
    text = ""
    for number, (row, cells) in enumerate(rows, 1):
        inner = "".join(cell.replace("{0}", f"{column_letters(n)}{number}") for n, cell in enumerate(cells, 1))
        text += row.replace("{0}", str(number * 2)).replace("{1}", inner)
    tail = '<mergeCells><mergeCell ref="A1:B2"/></mergeCells>' if merged else ""
    sheet = f"<sheetData>{text}</sheetData>{tail}"
    assert_both_ways_agree(package(tmp_path / "odd.xlsx", sheet, styles=HAND_MADE_STYLES, texts=HAND_MADE_TEXTS))


@pytest.mark.parametrize("before", ["", '<dimension ref="A1"/>', "<!-- <sheetData> -->", "<sheetPr/>\n"])
@pytest.mark.parametrize(
    "data",
    [
        "<sheetData/>",
        "<sheetData></sheetData>",
        "<sheetData> </sheetData>",
        '<sheetData x="1"><row r="1"><c r="A1"><v>1</v></c></row></sheetData>',
    ],
)
def test_quick_and_careful_reading_agree_on_what_stands_around_the_rows(before: str, data: str, tmp_path: Path) -> None:
    assert_both_ways_agree(package(tmp_path / "around.xlsx", before + data + "<pageMargins/>"))


@pytest.mark.parametrize("size", [1, 2, 3, 7, 64])
def test_reading_does_not_depend_on_where_blocks_end(
    size: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("appraise.workbook.sheet_text._BLOCK", size)
    assert_both_ways_agree(hand_made_file(tmp_path))
    assert_both_ways_agree(openpyxl_file(tmp_path))


def test_formula_and_result_come_together(tmp_path: Path) -> None:
    with Book(hand_made_file(tmp_path)) as book:
        rows = {row.number: row for row in book.rows(book.sheets[0])}
    assert [cell.formula for cell in rows[3].cells] == ["", "A3*2+$A$2"]
    assert rows[4].cells[1].kind is Kind.NOTHING
    assert rows[4].cells[1].formula == "A4*2+$A$2"
    assert rows[4].cells[0].value == Decimal(3)
    assert rows[7].hidden and not rows[8].hidden


def test_merged_areas_and_tables_are_reported(tmp_path: Path) -> None:
    def fill(book: Any) -> None:
        page = book.add_worksheet("A")
        page.merge_range("A9:B9", "x")
        page.add_table("D1:E4", {"columns": [{"header": "a"}, {"header": "b"}]})

    with Book(raw_workbook(tmp_path, fill)) as book:
        rows = book.rows(book.sheets[0])
        assert [row.number for row in rows] == [1, 9]
        assert rows.merged == ["A9:B9"]
        assert book.tables(book.sheets[0]) == ("D1:E4",)


def test_a_million_formatted_empty_rows_yield_nothing_but_the_row_below_them(tmp_path: Path) -> None:
    empty = "".join(f'<row r="{number}" s="1" customFormat="1"/>' for number in range(1, 300_000))
    sheet = f'<sheetData>{empty}<row r="300000"><c r="A300000"><v>7</v></c></row></sheetData>'
    with Book(package(tmp_path / "long.xlsx", sheet)) as book:
        assert [(row.number, row.cells[0].value) for row in book.rows(book.sheets[0])] == [(300_000, Decimal(7))]


def test_cells_and_rows_without_references_count_from_the_one_before(tmp_path: Path) -> None:
    sheet = '<sheetData><row><c><v>1</v></c><c><v>2</v></c></row><row r="5"><c r="C5"><v>3</v></c><c><v>4</v></c></row></sheetData>'
    with Book(package(tmp_path / "bare.xlsx", sheet)) as book:
        found = [(row.number, [cell.column for cell in row.cells]) for row in book.rows(book.sheets[0])]
    assert found == [(1, [1, 2]), (5, [3, 4])]


@pytest.mark.parametrize("raw", ["INF", "NaN", "-INF", "1e999", "", "1,5", "0x10", "1_000"])
def test_what_is_no_finite_number_is_none(raw: str) -> None:
    assert to_decimal(raw) is None


@pytest.mark.parametrize(
    ("raw", "number"),
    [("0.30000000000000004", "0.3"), ("1E3", "1000"), ("-0.1", "-0.1"), ("123456789012345678", "123456789012346000")],
)
def test_numbers_have_fifteen_digits(raw: str, number: str) -> None:
    assert to_decimal(raw) == Decimal(number)


@pytest.mark.parametrize(
    ("code", "shown"),
    [
        ("0%", Shown.PERCENT), ('0"%"', Shown.PLAIN), ("0\\%", Shown.PLAIN), ("[$€-407] #,##0", Shown.CURRENCY),
        ('#,##0 "USD"', Shown.CURRENCY), ("$#,##0", Shown.CURRENCY), ("[Red]0", Shown.PLAIN), ("mmm yy", Shown.DAY),
        ("h:mm", Shown.TIME), ("[h]:mm", Shown.TIME), ('0 "days"', Shown.PLAIN), ("General", Shown.PLAIN),
        ("[$-409]d mmm yyyy;@", Shown.DAY), ("0.00E+00", Shown.PLAIN),
    ],
)  # fmt: skip
def test_a_number_format_says_what_the_number_is(code: str, shown: Shown) -> None:
    assert shown_as(164, code) is shown


@pytest.mark.parametrize(
    ("number", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (702, "ZZ"), (703, "AAA"), (16384, "XFD")]
)
def test_columns_have_letters(number: int, letters: str) -> None:
    assert column_letters(number) == letters
    assert column_number(f"{letters}12") == number


@pytest.mark.parametrize(
    ("sheet", "code"),
    [
        ('<sheetData><row r="1"><c r="A1"><v>1</v></row></sheetData>', Trouble.DAMAGED),
        ('<sheetData><row r="1"><c r="1A"><v>1</v></c></row></sheetData>', Trouble.DAMAGED),
        ('<sheetData><row r="1"><c r="A1" t="s"><v>99</v></c></row></sheetData>', Trouble.DAMAGED),
        ('<sheetData><row r="x"><c r="A1"><v>1</v></c></row></sheetData>', Trouble.DAMAGED),
    ],
)
def test_a_damaged_sheet_is_an_unusable_file(sheet: str, code: Trouble, tmp_path: Path) -> None:
    with pytest.raises(UnusableFile) as caught, Book(package(tmp_path / "bad.xlsx", sheet)) as book:
        list(book.rows(book.sheets[0]))
    assert caught.value.code is code


def test_a_document_type_is_refused(tmp_path: Path) -> None:
    doctype = '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'
    path = package(
        tmp_path / "bomb.xlsx", '<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>', before=doctype
    )
    with pytest.raises(UnusableFile) as caught, Book(path) as book:
        list(book.rows(book.sheets[0]))
    assert caught.value.code is Trouble.DAMAGED
