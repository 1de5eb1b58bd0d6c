"""Writing workbooks from the declarations: blank ones, filled ones, the appraiser's library.

The same content gives the same bytes. What a person typed is always written as text, number or day, never as a
formula or a link.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, BinaryIO

from appraise.files.atomic import write_whole
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Family, Use
from appraise.workbook.cells import Value
from appraise.workbook.writing.book_writer import BookWriter, Content, Rows, form_row
from appraise.workbook.writing.examples import example_rows
from appraise.workbook.writing.prefill import family_items, with_family_rows


def write_blank(
    path: Path, use: Use, *, families: Sequence[Family] = (), language: str = "en", library: str = ""
) -> Path:
    """Write a blank workbook for `use` with examples marked as such; return the path written.

    For each of `families` one item is begun, with the parts, inspection lines and photographs of its family.
    """
    begun: dict[str, Any] = {"assignment": {"use": use, "report_language": language}}
    if library:
        begun["assignment"]["library"] = library
    if families:
        begun["items"] = family_items(families)
        begun = with_family_rows(begun)
    sheets = sheets_of(use, begun)
    return _write(path, Content(use, begun, example_rows(sheets), sheets, paper=bool(families)))


def write_job(
    path: Path,
    rows: Rows,
    use: str = "",
    *,
    extra: Iterable[tuple[str, tuple[tuple[int, int, Value], ...]]] = (),
) -> Path:
    """Write a filled workbook and return the path written.

    Values are those of the records: Decimal, text, date, bool, words of a closed list, `Missing` (None and BLANK
    leave the cell empty). `use` is taken from the assignment if it is not given.
    """
    found = use or str(form_row(rows.get("assignment", {})).get("use", ""))
    return _write(path, Content(found, rows, {}, sheets_of(found, rows), tuple(extra)))


def write_library(path: Path) -> Path:
    """Write a blank library workbook: the tables that are kept across jobs."""
    sheets = tuple(name for name, sheet in SHEETS.items() if sheet.library)
    return _write(path, Content("", {}, example_rows(sheets), sheets, library=True))


def write_tables(path: Path, rows: Rows) -> Path:
    """Write a workbook laid out as a library that holds only these tables; return the path written."""
    return _write(path, Content("", rows, {}, tuple(name for name in SHEETS if name in rows), library=True))


def sheets_of(use: str, rows: Rows) -> tuple[str, ...]:
    """Return the fields of the job whose sheets a use shows, or that hold something, in order."""
    return tuple(name for name, sheet in SHEETS.items() if not sheet.uses or use in sheet.uses or rows.get(name))


def _write(path: Path, content: Content) -> Path:
    def write(stream: BinaryIO) -> None:
        BookWriter(stream, content).write()

    return write_whole(path, write)
