"""Workbooks we write: complete, the same every time, and never more than text where a person typed."""

from pathlib import Path
from typing import Any

import openpyxl
import pytest
from support.proofs import recalculated
from support.workbooks import codes, sound_rows, workbook

from appraise.records.declare import ColumnKind
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Family, Use
from appraise.rules.families import families, family_lists
from appraise.workbook.layout import EXAMPLE
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.aside import set_aside
from appraise.workbook.writing.looks import heading_text, long_width, width
from appraise.workbook.writing.prefill import with_family_rows
from appraise.workbook.writing.write import write_blank, write_job, write_library


@pytest.fixture(scope="module")
def blanks(tmp_path_factory: pytest.TempPathFactory) -> dict[Use, Path]:
    folder = tmp_path_factory.mktemp("blank")
    return {use: write_blank(folder / f"{use}.xlsx", use) for use in Use}


def opened(path: Path) -> openpyxl.Workbook:
    return openpyxl.load_workbook(path)


def test_a_blank_workbook_shows_the_sheets_of_its_use(blanks: dict[Use, Path]) -> None:
    for use, path in blanks.items():
        aside = set_aside(use)
        of_use = {name: sheet.name for name, sheet in SHEETS.items() if not sheet.uses or use in sheet.uses}
        wanted = [title for name, title in of_use.items() if name not in aside]
        book = opened(path)
        assert [page.title for page in book if page.sheet_state == "visible"] == [
            "Start",
            *wanted,
            "Family lists",
            "Published facts",
        ]
        assert {page.title for page in book if page.sheet_state == "hidden"} == {
            "Lists",
            *(title for name, title in of_use.items() if name in aside),
        }
        assert book.active.title == "Start"


def test_a_blank_workbook_has_no_fault_but_what_is_not_filled_in(blanks: dict[Use, Path]) -> None:
    for use, path in blanks.items():
        result = read_job(path)
        assert set(codes(result)) <= {"CEL-21", "CEL-22", "CEL-29"}
        assert result.job.assignment.use is use
        assert result.job.items == () and result.job.scales == ()


def test_every_example_row_says_so_and_is_not_read(blanks: dict[Use, Path]) -> None:
    book = opened(blanks[Use.ESTATE])
    result = read_job(blanks[Use.ESTATE])
    for sheet in SHEETS.values():
        if sheet.name in book.sheetnames and not sheet.form:
            assert book[sheet.name]["A3"].value == EXAMPLE
            assert result.counts[sheet.name].example >= 1


def test_the_same_call_writes_the_same_bytes(tmp_path: Path) -> None:
    one = write_blank(tmp_path / "one.xlsx", Use.ESTATE, families=[Family.BOW])
    two = write_blank(tmp_path / "two.xlsx", Use.ESTATE, families=[Family.BOW])
    assert one.read_bytes() == two.read_bytes()
    assert workbook(tmp_path, "a.xlsx").read_bytes() == workbook(tmp_path, "b.xlsx").read_bytes()


def test_columns_have_hints_lists_and_formats(blanks: dict[Use, Path]) -> None:
    page = opened(blanks[Use.ESTATE])["Items"]
    headings = {cell.value: cell.column_letter for cell in page[2]}
    rules = {}
    for rule in page.data_validations.dataValidation:
        for area in rule.sqref.ranges:
            if area.min_row == 3:
                rules[openpyxl.utils.get_column_letter(area.min_col)] = rule
    for column in SHEETS["items"].columns:
        heading = heading_text(column)
        if heading not in headings:
            assert column.uses and Use.ESTATE not in column.uses
            continue
        rule = rules[headings[heading]]
        assert rule.showInputMessage and rule.prompt
        assert (rule.type == "list") == (column.kind in (ColumnKind.CHOICE, ColumnKind.YES_NO, ColumnKind.REFERENCE))
    serial = headings["Serial no."]
    assert page.column_dimensions[serial].width >= 12
    assert page[f"{serial}3"].number_format == "@"
    assert page.freeze_panes == "C3"
    assert page.print_title_rows == "$1:$2" and page.page_setup.orientation == "landscape"
    assert page.tables["items"].ref.startswith("A2:")


def test_lists_of_ids_point_to_the_sheet_that_gives_them(blanks: dict[Use, Path]) -> None:
    page = opened(blanks[Use.ESTATE])["Comparisons"]
    sources = {rule.formula1 for rule in page.data_validations.dataValidation if rule.type == "list"}
    assert any(source.startswith("'Sales'!$B$3:") for source in sources)


def test_what_a_person_typed_is_never_a_formula_or_a_link(tmp_path: Path) -> None:
    texts = ["=1+1", "+49 30", "@home", "http://example.invalid", "{=A1}", "'quoted", "007", "_x000D_", "-5"]
    rows = sound_rows()
    rows["market_notes"][0] |= dict(zip(("market", "supply", "demand", "trend"), texts, strict=False))
    rows["items"][0] |= {"description": texts[4], "markings": texts[5], "serial": texts[6], "provenance": texts[7]}
    rows["items"][0]["permits"] = texts[8]
    path = workbook(tmp_path, rows=rows)
    # Only our own hidden lists hold formulas.
    assert [page.title for page in opened(path) for row in page for cell in row if cell.data_type == "f"] == (
        ["Lists"] * 300
    )
    item = read_job(path).job.items[0]
    assert (item.serial, item.description, item.permits) == ("007", "{=A1}", "-5")
    assert read_job(path).job.market_notes[0].market == "=1+1"


def test_an_unknown_key_is_our_own_mistake(tmp_path: Path) -> None:
    with pytest.raises(TypeError):
        workbook(tmp_path, items=[{"colour": "red"}])
    with pytest.raises(TypeError):
        workbook(tmp_path, assignment={"colour": "red"})


def test_columns_and_sheets_of_the_user_are_written_again(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["items"][0]["own"] = {"My mark": 7}
    path = write_job(tmp_path / "next.xlsx", rows, extra=[("Notebook", ((2, 2, "remember"),))])
    result = read_job(path)
    assert [(one.heading, one.values) for one in result.extra_columns] == [("My mark", {3: 7})]
    assert result.extra_sheets[0].cells == ((2, 2, "remember"),)


@pytest.mark.parametrize("family", Family)
def test_a_family_brings_its_parts_lines_and_photographs(family: Family, tmp_path: Path) -> None:
    job = read_job(write_blank(tmp_path / "a.xlsx", Use.INSURANCE, families=[family])).job
    lists = family_lists(family)
    assert [part.part for part in job.parts] == list(lists.parts)
    assert [line.line for line in job.inspection] == list(lists.inspection)
    assert [(photo.kind, photo.caption) for photo in job.photos] == [(one.kind, one.of) for one in lists.photos]
    assert {part.item for part in job.parts} == {job.items[0].id}


def test_what_an_item_has_already_is_not_added_again() -> None:
    rows: dict[str, Any] = {
        "items": [{"id": "G1", "family": Family.BOW}, {"id": "G2"}],
        "parts": [{"item": "G1", "part": "Stick", "state": "original"}],
    }
    whole = with_family_rows(rows)
    assert [row["part"].casefold() for row in whole["parts"]].count("stick") == 1
    assert len(whole["parts"]) == len(family_lists(Family.BOW).parts)
    assert with_family_rows(whole) == whole


def test_every_family_has_lists_without_repeats() -> None:
    assert set(families()) == set(Family)
    for lists in families().values():
        for lines in (lists.parts, lists.inspection, lists.photos):
            assert len(lines) >= 6 and len(set(lines)) == len(lines)


def test_the_library_holds_the_tables_kept_across_jobs(tmp_path: Path) -> None:
    book = opened(write_library(tmp_path / "library.xlsx"))
    wanted = [sheet.name for sheet in SHEETS.values() if sheet.library]
    assert [page.title for page in book if page.sheet_state == "visible"] == ["Start", *wanted]


def test_sheets_set_aside_exist_and_are_read_though_nobody_sees_them(tmp_path: Path) -> None:
    for use in Use:
        assert set_aside(use) <= set(SHEETS)
    path = write_blank(tmp_path / "job.xlsx", Use.ESTATE)
    book = opened(path)
    assert book["Rates"].sheet_state == "hidden"
    for letter, value in zip(
        "BCDEF", ("GBP", "2024-03-01", 1.25, "report currency per foreign unit", "x"), strict=True
    ):
        book["Rates"][f"{letter}4"] = value
    book.save(path)
    assert [str(rate.rate) for rate in read_job(path).job.rates] == ["1.25"]


def test_a_sheet_that_holds_something_is_never_hidden(tmp_path: Path) -> None:
    rows = {**sound_rows(), "sources": [{"id": "B1", "text": "own notes"}]}
    assert opened(workbook(tmp_path, rows=rows))["Sources"].sheet_state == "visible"


@pytest.mark.parametrize("name", [name for name, sheet in SHEETS.items() if not sheet.form])
def test_what_always_has_to_be_filled_fits_a_common_screen(name: str) -> None:
    """1,920 pixels at full size show about 265 signs of the default type beside the row numbers."""
    columns = SHEETS[name].columns
    reach = max((number for number, one in enumerate(columns, 1) if one.required == "always"), default=0)
    long = long_width(columns)
    assert 15 + sum(width(one, 0, long) for one in columns[:reach]) <= 265


def test_ids_for_dating_are_offered_with_the_appraisers_own(blanks: dict[Use, Path]) -> None:
    book = opened(blanks[Use.ESTATE])
    letter = next(cell.column_letter for cell in book["Evidence"][2] if cell.value == "By id")
    (rule,) = (one for one in book["Evidence"].data_validations.dataValidation if f"{letter}3" in one.sqref)
    assert rule.type == "list" and not rule.showErrorMessage, "a code or a number may be typed as well"
    column = rule.formula1.partition("$")[2].partition("$")[0]
    page = book["Lists"]
    words = [page[f"{column}{row}"].value for row in range(2, page.max_row + 1)]
    assert "C02" in words and any("'Serial ranges'!$B$3" in str(word) for word in words)


@pytest.mark.office
def test_own_ids_stand_in_the_list_one_after_another(tmp_path: Path) -> None:
    path = write_blank(tmp_path / "job.xlsx", Use.ESTATE)
    book = opened(path)
    book["Feature periods"]["B4"], book["Serial ranges"]["B4"] = "own-period", "own-serial"
    book.save(path)
    (calculated,) = recalculated([path], tmp_path / "out")
    page = openpyxl.load_workbook(calculated, data_only=True)["Lists"]
    letter = next(cell.column_letter for cell in page[1] if cell.value == "Ids for dating")
    words = [cell.value for cell in page[letter] if cell.value]
    assert words[-4:] == ["SKV-bound-holes", "own-period", "SKV-2150", "own-serial"]


def test_the_form_on_paper_has_every_line_of_the_family(tmp_path: Path) -> None:
    path = write_blank(tmp_path / "job.xlsx", Use.ESTATE, families=[Family.TUBE_AMPLIFIER, Family.BOW])
    page = opened(path)["On paper"]
    texts = [str(cell.value) for row in page for cell in row if cell.value]
    for family in (Family.TUBE_AMPLIFIER, Family.BOW):
        lists = family_lists(family)
        assert {*lists.inspection, *lists.parts} <= set(texts)
        assert all(any(photo.of in text for text in texts) for photo in lists.photos)
    assert sum("qualified person" in text for text in texts) == 1 + sum(
        "qualified person" in line for line in family_lists(Family.TUBE_AMPLIFIER).inspection
    ) + sum("qualified person" in photo.of for photo in family_lists(Family.TUBE_AMPLIFIER).photos)
    begins = [str(page.cell(one.id + 1, 1).value) for one in page.row_breaks.brk]
    assert begins == ["Part", "Inspection of N02: bow", "Part"]
    assert set(codes(read_job(path))) <= {"CEL-21", "CEL-22", "CEL-29"}
