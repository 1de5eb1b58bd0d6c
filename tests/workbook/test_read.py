"""Reading whole workbooks: headings, sheets, marked rows, ids, formats, what the user added."""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from support.workbooks import changed, codes, places, raw_job, raw_workbook, sound_rows, workbook

from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.entries import action, catalogue, message
from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, UNREADABLE
from appraise.model.place import Place
from appraise.records.declare import ColumnKind
from appraise.records.job import FORMAT, SHEETS
from appraise.records.vocabulary import Use
from appraise.workbook.reading.read import ReadResult, read_job
from appraise.workbook.reading.references import SHARED_IDS
from appraise.workbook.reading.upgrades import Step, upgrade
from appraise.workbook.writing.write import write_blank


def edited(path: Path, edit: Callable[[openpyxl.Workbook], None]) -> Path:
    """Change a workbook as a person would in a spreadsheet program."""
    book = openpyxl.load_workbook(path)
    edit(book)
    book.save(path)
    return path


def heading(page: Any, words: str) -> Any:
    """Return the cell of a heading."""
    return next(cell for row in page.iter_rows(max_row=5) for cell in row if str(cell.value).startswith(words))


def in_words(result: ReadResult, code: str) -> str:
    """Return sentence and advice of the first finding with that code."""
    one = next(finding for finding in result.findings if finding.code == code)
    return f"{message(one)} {action(one)}"


def test_faults_are_found_all_at_once_each_with_its_cell(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["sales"][0] |= {"day": "2026-14-03", "price": "about 900"}
    rows["items"][0] |= {"finish_class": "refinnished"}
    result = read_job(workbook(tmp_path, rows=rows, assignment={"effective_date": "03/04/2024"}))
    found = {code: places(result, code) for code in set(codes(result))}
    assert set(found) == {"CEL-03", "CEL-09", "CEL-10", "CEL-17"}
    assert found["CEL-09"][0].startswith("Sales!") and found["CEL-10"][0].startswith("Assignment!B")
    assert result.job.sales[0].day is UNREADABLE
    assert result.job.sales[1] is not None


def test_blank_and_the_two_words_are_three_things(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["items"][0] |= {"provenance": "unknown", "wear": "not inspected", "description": None, "permits": None}
    result = read_job(workbook(tmp_path, rows=rows))
    item = result.job.items[0]
    assert (item.provenance, item.wear, item.description, item.permits) == (UNKNOWN, NOT_INSPECTED, BLANK, BLANK)
    assert codes(result) == ["CEL-22"]


def test_a_needed_figure_that_is_blank_is_a_graver_finding_than_unsaid_text(tmp_path: Path) -> None:
    result = read_job(workbook(tmp_path, sales=changed("sales", 0, price=None, verified=None)))
    assert codes(result) == ["CEL-21", "CEL-22"]


def test_a_renamed_column_is_asked_about_and_not_read(tmp_path: Path) -> None:
    path = edited(workbook(tmp_path), lambda book: setattr(heading(book["Sales"], "Price"), "value", "Prise"))
    result = read_job(path)
    assert codes(result) == ["FIL-04"]
    assert "'Price'" in in_words(result, "FIL-04") and "'Prise'" in in_words(result, "FIL-04")
    assert all(sale.price is UNREADABLE for sale in result.job.sales)


def test_a_missing_column_is_one_finding_and_not_one_for_each_row(tmp_path: Path) -> None:
    def cut(book: openpyxl.Workbook) -> None:
        page = book["Sales"]
        page.tables.clear()
        page.delete_cols(heading(page, "Verified by").column)

    result = read_job(edited(workbook(tmp_path), cut))
    assert codes(result) == ["FIL-03"]
    assert result.job.sales[0].verified is UNREADABLE


def test_columns_may_stand_in_any_order_case_and_line(tmp_path: Path) -> None:
    def move(book: openpyxl.Workbook) -> None:
        page = book["Rates"] if "Rates" in book.sheetnames else book["Sales"]
        page.tables.clear()
        cell = heading(page, "Currency")
        cell.value = "  currency\n* "
        page.insert_rows(1, 4)

    path = workbook(tmp_path)
    before = read_job(path).job
    after = read_job(edited(path, move))
    assert codes(after) == []
    assert [sale.currency for sale in after.job.sales] == [sale.currency for sale in before.sales]


def test_the_same_heading_twice_is_a_stop(tmp_path: Path) -> None:
    def double(book: openpyxl.Workbook) -> None:
        page = book["Sales"]
        page.tables.clear()
        page.cell(2, page.max_column + 1, "Price")

    result = read_job(edited(workbook(tmp_path), double))
    assert codes(result) == ["FIL-05"]
    assert result.job.sales[0].price == read_job(workbook(tmp_path, "other.xlsx")).job.sales[0].price


def test_columns_and_sheets_of_the_user_are_kept(tmp_path: Path) -> None:
    def add(book: openpyxl.Workbook) -> None:
        page = book["Sales"]
        page.tables.clear()
        column = page.max_column + 1
        page.cell(2, column, "My own mark")
        page.cell(3, column, 7)
        book.create_sheet("Notebook")["B2"] = "remember"

    result = read_job(edited(workbook(tmp_path), add))
    assert codes(result) == ["FIL-08", "FIL-07"]
    assert [(one.sheet, one.heading, one.values) for one in result.extra_columns] == [
        ("Sales", "My own mark", {3: Decimal(7)})
    ]
    assert [(one.name, one.cells) for one in result.extra_sheets] == [("Notebook", ((2, 2, "remember"),))]


def test_values_beside_the_table_without_a_heading_are_reported(tmp_path: Path) -> None:
    def scribble(book: openpyxl.Workbook) -> None:
        page = book["Sales"]
        page.cell(4, page.max_column + 2, "?")

    assert codes(read_job(edited(workbook(tmp_path), scribble))) == ["CEL-38"]


def test_rows_below_a_gap_and_hidden_rows_count(tmp_path: Path) -> None:
    def move(book: openpyxl.Workbook) -> None:
        page = book["Sales"]
        page.move_range(f"A5:{page.cell(5, page.max_column).coordinate}", rows=40)
        page.row_dimensions[4].hidden = True

    path = workbook(tmp_path)
    before = read_job(path).job.sales
    result = read_job(edited(path, move))
    assert [sale.id for sale in result.job.sales] == [sale.id for sale in before]
    assert (result.counts["Sales"].blank, result.counts["Sales"].hidden) == (40, 1)
    assert codes(result) == ["CEL-37"]


def test_example_rows_and_rows_left_out_are_not_read(tmp_path: Path) -> None:
    def mark(book: openpyxl.Workbook) -> None:
        book["Sales"]["A3"] = "example, replace"
        book["Subject history"]["A3"] = "Leave out"

    result = read_job(edited(workbook(tmp_path), mark))
    assert codes(result) == ["CEL-29", "CEL-30", "CEL-36", "CEL-24"]
    assert places(result, "CEL-36") == ["Sales, row 3"]
    assert len(result.job.sales) == len(sound_rows()["sales"]) - 1
    assert "example, replace" in in_words(result, "CEL-24")


def test_an_example_typed_over_is_asked_about_until_its_mark_is_cleared(tmp_path: Path) -> None:
    path = write_blank(tmp_path / "new.xlsx", Use.ESTATE)
    assert "CEL-36" not in codes(read_job(path))
    edited(path, lambda book: setattr(heading(book["Items"], "Serial no.").offset(row=1), "value", "2218"))
    result = read_job(path)
    assert places(result, "CEL-36") == ["Items, row 3"] and result.job.items == ()
    edited(path, lambda book: setattr(book["Items"]["A3"], "value", None))
    result = read_job(path)
    assert "CEL-36" not in codes(result) and result.job.items[0].serial == "2218"


def test_merged_cells_in_the_data_are_refused_and_above_the_headings_not(tmp_path: Path) -> None:
    def merge(book: openpyxl.Workbook) -> None:
        book["Sales"].merge_cells("A1:F1")
        book["Sales"].merge_cells("C3:C4")

    result = read_job(edited(workbook(tmp_path), merge))
    assert places(result, "CEL-28") == ["Sales!C3"]


def test_ids_are_given_once_whatever_their_case(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["sales"].append({**rows["sales"][0], "id": rows["sales"][0]["id"].lower()})
    result = read_job(workbook(tmp_path, rows=rows))
    assert codes(result) == ["CEL-25"]


def test_ids_of_whole_tables_repeat(tmp_path: Path) -> None:
    assert {
        name
        for name, sheet in SHEETS.items()
        for column in sheet.columns
        if column.kind is ColumnKind.IDENTITY and "Same id on every" in column.hint
    } == SHARED_IDS


def test_a_reference_to_nothing_names_the_nearest_id(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["comparisons"][0]["sale"] = "s001"
    result = read_job(workbook(tmp_path, rows=rows))
    assert codes(result) == ["CEL-23"]
    assert "'S001'" in in_words(result, "CEL-23")


def test_a_formula_without_a_result_and_an_error_cell(tmp_path: Path) -> None:
    def fill(book: Any, page: Any, columns: dict[str, int]) -> None:
        page.write_string(1, columns["id"], "S1")
        page.write_formula(1, columns["price"], "=1+1", None, "")
        page.write_formula(1, columns["estimate_low"], "=1/0", None, "#DIV/0!")

    def uncalculated(book: openpyxl.Workbook) -> None:
        book["Sales"].cell(2, list(SHEETS["sales"].columns).index(SHEETS["sales"].column("price")) + 1).value = "=1+1"

    path = raw_job(tmp_path, "sales", fill)
    assert "CEL-02" in codes(read_job(path))
    result = read_job(edited(path, uncalculated))
    assert "CEL-01" in codes(result)
    assert "save it" in in_words(result, "CEL-01")
    assert result.job.sales[0].price is UNREADABLE


def test_a_formula_with_a_result_is_welcome(tmp_path: Path) -> None:
    def fill(book: Any, page: Any, columns: dict[str, int]) -> None:
        page.write_string(1, columns["id"], "S1")
        page.write_formula(1, columns["price"], "=1200*1.5", None, 1800)

    assert read_job(raw_job(tmp_path, "sales", fill)).job.sales[0].price == Decimal(1800)


def test_texts_are_read_by_the_declared_locale(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["sales"][0]["price"] = "1.234,56"
    result = read_job(workbook(tmp_path, rows=rows, assignment={"workbook_locale": "de_DE"}))
    assert result.job.sales[0].price == Decimal("1234.56")
    unknown = read_job(workbook(tmp_path, rows=rows, assignment={"workbook_locale": "Germany"}))
    assert "CEL-35" in codes(unknown)


def test_a_renamed_and_a_missing_sheet(tmp_path: Path) -> None:
    renamed = edited(workbook(tmp_path), lambda book: setattr(book["Sales"], "title", "Sale"))
    assert "FIL-17" in codes(read_job(renamed))
    missing = edited(workbook(tmp_path), lambda book: book.remove(book["Items"]))
    result = read_job(missing)
    assert "FIL-01" in codes(result) and result.job.items == ()
    spare = edited(workbook(tmp_path), lambda book: book.remove(book["Clauses"]))
    assert codes(read_job(spare)) == ["FIL-02"]


def test_headings_that_are_gone_altogether(tmp_path: Path) -> None:
    result = read_job(edited(workbook(tmp_path), lambda book: book["Clauses"].delete_rows(1, 2)))
    assert codes(result) == []
    result = read_job(edited(workbook(tmp_path), lambda book: book["Sales"].delete_rows(1, 2)))
    assert "FIL-06" in codes(result)


def with_format(path: Path, number: object) -> Path:
    return edited(path, lambda book: book["Start"].__setitem__("C2", number))


def test_the_format_of_the_workbook(tmp_path: Path) -> None:
    path = workbook(tmp_path)
    with pytest.raises(UnusableFile) as caught:
        read_job(with_format(path, FORMAT + 1))
    assert caught.value.code is Trouble.NEWER_FORMAT
    assert codes(read_job(with_format(path, "first"))) == ["FIL-10"]
    assert codes(read_job(with_format(path, None))) == ["FIL-09"]
    assert codes(read_job(edited(path, lambda book: book.remove(book["Start"])))) == ["FIL-09"]


def test_steps_from_older_formats_add_up() -> None:
    steps = {
        1: Step(tabs={"Lots": "Items"}, headings={"Items": {"Lot no.": "number"}}),
        2: Step(headings={"Items": {"Ticket": "number"}, "Sales": {"Sum": "price"}}),
    }
    whole = upgrade(1, 3, steps)
    assert whole.tabs == {"Lots": "Items"}
    assert whole.headings == {"Items": {"Lot no.": "number", "Ticket": "number"}, "Sales": {"Sum": "price"}}
    assert upgrade(3, 3, steps) == Step()


def test_places_are_printed_as_cells(tmp_path: Path) -> None:
    layout = read_job(workbook(tmp_path)).layout
    letters = layout.address(Place("Sales", 12, "price"))[1]
    assert layout.cell(Place("Sales", 12, "price")) == f"Sales!{letters}"
    assert layout.cell(Place("Assignment", 0, "use")).startswith("Assignment!B")
    assert layout.cell(Place("Sales", 12)) == "Sales, row 12"
    assert layout.cell(Place("Sales")) == "Sales"
    assert layout.cell(Place("")) == "job.xlsx"


def test_a_workbook_of_something_else_is_refused(tmp_path: Path) -> None:
    path = raw_workbook(tmp_path, lambda book: book.add_worksheet("Shopping"))
    with pytest.raises(UnusableFile) as caught:
        read_job(path)
    assert caught.value.code is Trouble.FOREIGN


def test_the_same_file_gives_the_same_findings_in_the_order_of_the_sheets(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["sales"][0] |= {"day": "never", "price": "much"}
    path = workbook(tmp_path, rows=rows, assignment={"currency": "$", "effective_date": None})
    assert read_job(path).findings == read_job(path).findings
    assert [one.place.sheet for one in read_job(path).findings] == ["Assignment", "Assignment", "Sales", "Sales"]


def test_every_finding_of_the_reader_can_be_put_into_words(tmp_path: Path) -> None:
    rows = sound_rows()
    rows["sales"][0] |= {"day": "never", "price": "15 %", "grade": "much", "serial": "x", "currency": "$"}
    rows["items"][0] |= {"mains_powered": "maybe", "id": "G;1"}
    result = read_job(workbook(tmp_path, rows=rows, assignment={"report_date": "1/2/2024"}))
    assert len(result.findings) > 6
    for one in result.findings:
        assert message(one) and action(one)
        assert one.code in catalogue()
