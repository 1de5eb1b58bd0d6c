"""The findings as a workbook of their own: each row leads to the cell in the user's file, which is never changed.

The second sheet holds one row for each open finding that can be answered, in the columns of the sheet Answers: fill in
reason, initials and date, and copy the rows over.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Any, BinaryIO

import xlsxwriter

from appraise.findings.answers import Judged, answer_key, can_be_answered, counted
from appraise.findings.entries import action, entry_of, message
from appraise.findings.terminal import count_line
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.tables import ANSWERS
from appraise.workbook.layout import LIBRARY_ROWS, Layout
from appraise.workbook.writing import looks

_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
#: A spreadsheet keeps 65,530 links on one sheet.
_MOST_LINKS = 65_000
_LONGEST_TEXT = 32_000
#: Heading and width of each column of the first sheet.
_COLUMNS = (
    ("Where", 20),
    ("Severity", 16),
    ("Code", 9),
    ("Finding", 60),
    ("What to do", 60),
    ("Why", 42),
    ("Rule", 42),
    ("Stands", 10),
    ("Answer", 42),
)
_ANSWER_KEYS = ("code", "subjects", "column_key", "found_mark", "reason", "initials", "day")
_ANSWER_WIDTHS = (12, 24, 18, 16, 60, 10, 12, 60)


@frozen
class Files:
    """Where the user's files are, as paths relative to the findings workbook with `/` between folders."""

    workbook: str
    library: str = ""


def write_findings_book(stream: BinaryIO, judged: Sequence[Judged], layout: Layout, files: Files) -> None:
    """Write the workbook. The same findings give the same bytes.

    Only the first 65,000 rows are links, since a spreadsheet keeps no more; the others name the cell.
    """
    book = xlsxwriter.Workbook(
        stream,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False},
    )
    book.set_properties({"title": "Findings", "created": _FIXED_TIME})
    findings, answers = book.add_worksheet("Findings"), book.add_worksheet("To answer")
    _write_findings(book, findings, judged, layout, files)
    _write_answers(book, answers, judged)
    book.close()


def _write_findings(book: Any, page: Any, judged: Sequence[Judged], layout: Layout, files: Files) -> None:
    heading, cell = book.add_format({**looks.NEEDED, "text_wrap": True}), book.add_format(looks.NOTE)
    link = book.add_format({**looks.LINK, "text_wrap": True})
    page.write_string(0, 0, count_line(counted(judged)), book.add_format(looks.TITLE))
    for column, (name, width) in enumerate(_COLUMNS):
        page.set_column(column, column, width)
        page.write_string(1, column, name, heading)
    for row, one in enumerate(judged, start=2):
        where = layout.cell(one.finding.place)
        target = _target(one.finding.place, layout, files) if row < _MOST_LINKS else ""
        if not target or page.write_url(row, 0, target, link, string=where) != 0:
            page.write_string(row, 0, where, cell)
        for column, text in enumerate(_texts(one), start=1):
            page.write_string(row, column, text[:_LONGEST_TEXT], cell)
    page.freeze_panes(2, 0)
    page.autofilter(1, 0, max(len(judged) + 1, 1), len(_COLUMNS) - 1)
    page.set_landscape()
    page.repeat_rows(1)
    page.fit_to_pages(1, 0)


def _texts(one: Judged) -> tuple[str, ...]:
    entry = entry_of(one.finding)
    answer = one.answer or one.lapsed
    signed = ""
    if answer is not None:
        day = f", {answer.day}" if given(answer.day) else ""
        signed = f"{answer.initials}{day}: {answer.reason}"
    return (
        str(entry.severity),
        entry.code,
        message(one.finding),
        action(one.finding),
        entry.why,
        entry.rule,
        str(one.status),
        signed,
    )


def _target(place: Place, layout: Layout, files: Files) -> str:
    """Return the link to a cell of the user's file, relative to this one; "" where there is no file to lead to."""
    in_library = place.row >= LIBRARY_ROWS and layout.library is not None
    file, inside = files.workbook, layout
    if in_library and layout.library is not None:
        file, inside = files.library, layout.library
        place = Place(place.sheet, place.row - LIBRARY_ROWS, place.column)
    if not file or not place.sheet:
        return ""
    tab, cell = inside.address(place)
    quoted = tab.replace("'", "''")
    # A `#` would end the file's name; XlsxWriter escapes nothing once it sees an escape, so the others come along.
    escaped = file.replace("%", "%25").replace("#", "%23").replace(" ", "%20")
    return f"external:{escaped}#'{quoted}'!{cell}"


def _write_answers(book: Any, page: Any, judged: Sequence[Judged]) -> None:
    heading, cell = book.add_format({**looks.NEEDED, "text_wrap": True}), book.add_format(looks.NOTE)
    fill = book.add_format({**looks.TO_FILL, "text_wrap": True, "valign": "top"})
    names = [*(ANSWERS.column(key).heading for key in _ANSWER_KEYS), "Finding"]
    for column, (name, width) in enumerate(zip(names, _ANSWER_WIDTHS, strict=True)):
        page.set_column(column, column, width)
        page.write_string(0, column, name, heading)
    row = 0
    for one in judged:
        if not one.open or not can_be_answered(one.finding):
            continue
        row += 1
        key = answer_key(one.finding)
        for column, text in enumerate((key.code, key.about, key.column, key.mark)):
            page.write_string(row, column, text[:_LONGEST_TEXT], cell)
        for column in (4, 5, 6):
            page.write_blank(row, column, None, fill)
        page.write_string(row, 7, message(one.finding)[:_LONGEST_TEXT], cell)
    page.freeze_panes(1, 0)
    page.repeat_rows(0)
