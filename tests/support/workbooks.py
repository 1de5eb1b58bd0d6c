"""Small workbooks for tests: a sound job written to a real file, with one thing in it changed.

    path = workbook(tmp_path, assignment={"effective_date": "2024-31-12"})
    path = workbook(tmp_path, sales=changed("sales", 0, price="1.234"))
    result = read_job(path)
    assert places(result, "CEL-09") == ["Assignment!B19"]

Text is written as text, so that anything a person might type can be tried; `None` leaves a cell blank. For what the
writer would never write (formulas, error cells, merged cells) see `raw_workbook`.
"""

from collections.abc import Callable, Mapping
from copy import deepcopy
from pathlib import Path
from typing import Any

import xlsxwriter
from support.checks import sound_job

from appraise.records.job import SHEETS
from appraise.workbook.layout import FORMAT_LABEL
from appraise.workbook.reading.read import ReadResult
from appraise.workbook.rows import rows_of
from appraise.workbook.writing.looks import heading_text
from appraise.workbook.writing.write import write_job


def sound_rows() -> dict[str, Any]:
    """Return the rows of the sound estate job of the checks, by field of the job, free to be changed."""
    return deepcopy(rows_of(sound_job()))


def changed(name: str, position: int, **values: Any) -> list[dict[str, Any]]:
    """Return the rows of one sheet of the sound job with values of one row changed."""
    rows: list[dict[str, Any]] = sound_rows()[name]
    rows[position] |= values
    return rows


def workbook(folder: Path, name: str = "job.xlsx", *, rows: Mapping[str, Any] | None = None, **changes: Any) -> Path:
    """Write the sound job (or `rows`) to a workbook and return its path.

    `changes` are fields of the job: a mapping is merged into the form of that name, a list takes the place of the
    table's rows.
    """
    whole = sound_rows() if rows is None else deepcopy(dict(rows))
    for field, value in changes.items():
        whole[field] = {**whole.get(field, {}), **value} if isinstance(value, Mapping) else value
    return write_job(folder / name, whole)


def raw_workbook(folder: Path, fill: Callable[[xlsxwriter.Workbook], None], name: str = "raw.xlsx") -> Path:
    """Write a workbook cell by cell with XlsxWriter: `fill` gets the open workbook."""
    path = folder / name
    book = xlsxwriter.Workbook(str(path))
    fill(book)
    book.close()
    return path


def raw_job(
    folder: Path, sheet: str, fill: Callable[[xlsxwriter.Workbook, Any, dict[str, int]], None], name: str = "raw.xlsx"
) -> Path:
    """Write a job whose sheet `sheet` (field of the job) is filled by hand.

    `fill` gets the workbook, the page and the number of each column by key, counted from 0. Headings stand in the
    first row. Assignment says estate, numbers as in en_US; nothing else is written.
    """

    def write(book: xlsxwriter.Workbook) -> None:
        start = book.add_worksheet("Start")
        start.write_row(0, 0, [FORMAT_LABEL, "", 1])
        form = book.add_worksheet("Assignment")
        values = {"use": "estate", "workbook_locale": "en_US"}
        for row, column in enumerate(SHEETS["assignment"].columns):
            form.write(row, 0, heading_text(column))
            form.write(row, 1, values.get(column.key, ""))
        page = book.add_worksheet(SHEETS[sheet].name)
        columns = {column.key: number for number, column in enumerate(SHEETS[sheet].columns)}
        for column in SHEETS[sheet].columns:
            page.write_string(0, columns[column.key], column.heading)
        fill(book, page, columns)

    return raw_workbook(folder, write, name)


def codes(result: ReadResult) -> list[str]:
    """Return the codes found, in order."""
    return [one.code for one in result.findings]


def places(result: ReadResult, code: str) -> list[str]:
    """Return where a code was found, as printed."""
    return [result.layout.cell(one.place) for one in result.findings if one.code == code]
