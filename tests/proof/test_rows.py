"""Cells written as XML: what a spreadsheet reads from them."""

from io import BytesIO

import openpyxl
import pytest
import xlsxwriter

from appraise.model.operations import OPERATIONS
from appraise.proof.rows import RowSheet, blank_cell, formula_cell, number_cell, style_of, text_cell


def read_back(*cells: str) -> list[object]:
    """Return the cells of the last row of a sheet written with finished rows."""
    stream = BytesIO()
    book = xlsxwriter.Workbook(stream, {"constant_memory": True})
    sheet = book.add_worksheet("Sheet", worksheet_class=RowSheet)
    sheet.write_string(0, 0, "Title")
    sheet.put_row(2, ())
    sheet.put_row(3, cells, 30)
    book.close()
    read = openpyxl.load_workbook(stream).active
    assert read.row_dimensions[3].height == 30
    assert read["A1"].value == "Title"
    return [cell.value for cell in list(read.rows)[-1]]


@pytest.mark.parametrize(
    "text",
    [
        "Skarvholm & Sons <Port Aldous>",
        " outer spaces ",
        "two\nlines",
        "=1+1",
        "ümläut ½ ×",
        "x]]>y",
        "_x",
    ],
)
def test_a_text_is_read_back_as_it_is(text: str) -> None:
    assert read_back(text_cell("A3", text, 0)) == [text]


def test_a_text_that_looks_like_an_escaped_sign_is_escaped_itself() -> None:
    """ECMA-376 part 1, 22.9.2.19: a spreadsheet reads `_x000D_` as a line break, `_x005F_` as the underscore."""
    assert "<t>a_x005F_x000D_b</t>" in text_cell("A3", "a_x000D_b", 0)


def test_signs_that_xml_cannot_hold_become_spaces() -> None:
    assert read_back(text_cell("A3", "a\x00b\x1fc\uffff", 0)) == ["a b c "]


def test_a_text_longer_than_a_cell_may_hold_is_cut() -> None:
    (found,) = read_back(text_cell("A3", "x" * 40_000, 0))
    assert len(str(found)) == 32_000


@pytest.mark.parametrize("value", [0.0, -0.1, 97.6, 1234567890.12, 1e-7, 22968.0])
def test_a_number_is_read_back_exactly(value: float) -> None:
    assert read_back(number_cell("A3", value, 0)) == [value]


def test_a_formula_is_read_back_with_its_signs() -> None:
    assert read_back(formula_cell("A3", 'IF(B3<=2,"a&b",1)', 1.5, 0), blank_cell("B3", 0))[0] == '=IF(B3<=2,"a&b",1)'


def test_a_style_is_a_number_of_the_workbook() -> None:
    book = xlsxwriter.Workbook(BytesIO())
    first = style_of(book.add_format({"bold": True}))
    assert (first, style_of(book.add_format({"italic": True}))) == (1, 2)
    book.add_worksheet()
    book.close()


def test_formulas_name_only_functions_that_every_spreadsheet_knows() -> None:
    """Functions newer than the file format would need a prefix (ECMA-376 knows only the older ones)."""
    import re

    known = {
        *("ABS", "AVERAGE", "CHOOSE", "IF", "INDIRECT", "INT", "MAX", "MIN", "ROUND", "ROW", "SQRT", "STDEV", "SUM"),
        *("SUMPRODUCT", "TINV"),
    }
    used: set[str] = set()
    for operation in OPERATIONS.values():
        for count in range(10):
            references = [f"A{number}" for number in range(1, count + 1)]
            try:
                used |= set(re.findall(r"([A-Z][A-Z.]*)\(", operation.formula(references, 2)))
            except (IndexError, ValueError):
                continue  # so many arguments it does not take
    assert used
    assert used <= known
