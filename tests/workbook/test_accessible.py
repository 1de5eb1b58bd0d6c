"""What the workbooks we write do for those who see badly or not at all: `docs/accessibility.md` says what was checked.

Every cell of the finished files is looked at, not the declarations of their looks.
"""

from collections.abc import Iterator
from datetime import date

import openpyxl
import pytest
from openpyxl.cell import Cell
from openpyxl.styles.colors import Color
from openpyxl.worksheet.worksheet import Worksheet
from support.contrast import LEAST, contrast
from support.demo import REPOSITORY

from appraise.jobs.check import check_job
from appraise.jobs.report import write_report
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Use
from appraise.workbook.layout import EXAMPLE, NEEDED_SIGN
from appraise.workbook.writing.write import write_blank, write_library

TODAY = date(2025, 3, 1)
DEMO = REPOSITORY / "workbooks_demo" / "claim" / "claim.xlsx"
#: What may be opened by a person who has to read it; the schedule for loading has one flat table a sheet, no title.
FILES = ("blank", "library", "filled", "proof", "schedule", "findings")
FLAT = ("schedule",)


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, openpyxl.Workbook]:
    folder = tmp_path_factory.mktemp("books")
    done = write_report(DEMO, folder / "out", draft=False, overwrite=False, today=TODAY)
    written = {one.what.lower(): one.path for one in done.written}
    paths = {
        "blank": write_blank(folder / "blank.xlsx", Use.CLAIM),
        "library": write_library(folder / "library.xlsx"),
        "filled": DEMO,
        "proof": written["proof"],
        "schedule": written["schedule"],
        "findings": check_job(DEMO, today=TODAY).write_findings(folder / "findings.xlsx", overwrite=False),
    }
    assert tuple(paths) == FILES
    return {name: openpyxl.load_workbook(path) for name, path in paths.items()}


def seen(book: openpyxl.Workbook) -> Iterator[Worksheet]:
    return (page for page in book if page.sheet_state == "visible")


def colour(found: Color | None, otherwise: str) -> str:
    """Return a colour as RRGGBB; the theme's own text and ground are black and white."""
    if found is None or found.type != "rgb":
        return otherwise
    return str(found.rgb)[-6:]


def pair(cell: Cell) -> tuple[str, str]:
    ground = colour(cell.fill.fgColor, "FFFFFF") if cell.fill.fill_type == "solid" else "FFFFFF"
    return colour(cell.font.color, "000000"), ground


@pytest.mark.parametrize("name", FILES)
def test_every_text_stands_out_from_its_ground(books: dict[str, openpyxl.Workbook], name: str) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text, over every cell that holds something."""
    pairs = {pair(cell) for page in seen(books[name]) for row in page.iter_rows() for cell in row if cell.value}
    assert len(pairs) > 1
    assert [one for one in sorted(pairs) if contrast(*one) < LEAST] == []


@pytest.mark.parametrize("name", FILES)
def test_what_is_marked_by_a_rule_stands_out_too(books: dict[str, openpyxl.Workbook], name: str) -> None:
    for page in seen(books[name]):
        for area in page.conditional_formatting:
            for rule in area.rules:
                text = colour(rule.dxf.font.color if rule.dxf.font else None, "000000")
                ground = colour(rule.dxf.fill.bgColor if rule.dxf.fill else None, "FFFFFF")
                assert contrast(text, ground) >= LEAST, (page.title, text, ground)


@pytest.mark.parametrize("name", [one for one in FILES if one not in FLAT])
def test_every_sheet_says_in_its_first_cell_what_it_is(books: dict[str, openpyxl.Workbook], name: str) -> None:
    for page in seen(books[name]):
        assert len(str(page["A1"].value or "").split()) >= 2, page.title


@pytest.mark.parametrize("name", FILES)
def test_tables_keep_their_heading_row_in_view_and_on_every_printed_page(
    books: dict[str, openpyxl.Workbook], name: str
) -> None:
    """The first sheet of a book is read from top to bottom; all others are tables or forms."""
    pages = list(seen(books[name]))
    for page in pages if name in FLAT else pages[1:]:
        assert page.freeze_panes, page.title
        assert page.print_title_rows, page.title


@pytest.mark.parametrize("name", FILES)
def test_no_picture_stands_in_a_workbook_without_words(books: dict[str, openpyxl.Workbook], name: str) -> None:
    assert [page.title for page in books[name] if page._images or page._charts] == []


def test_what_has_to_be_filled_and_what_is_an_example_is_said_in_signs_and_words(
    books: dict[str, openpyxl.Workbook],
) -> None:
    """WCAG 2.2, success criterion 1.4.1: colour is never the only sign."""
    by_title = {sheet.name: sheet for sheet in SHEETS.values()}
    grounds: dict[str, set[bool]] = {}
    for page in seen(books["blank"]):
        sheet = by_title.get(page.title)
        if sheet is None or sheet.form:
            continue
        for cell in page[2]:
            if cell.value:
                grounds.setdefault(pair(cell)[1], set()).add(str(cell.value).endswith(NEEDED_SIGN))
        for row in page.iter_rows(min_row=3):
            coloured = [cell for cell in row if cell.value and pair(cell)[1] != "FFFFFF"]
            if coloured:
                assert any(EXAMPLE in str(cell.value) for cell in row), (page.title, row[0].row)
    assert sorted(map(len, grounds.values())) == [1, 1], "one ground where it must be filled, another where it may"
