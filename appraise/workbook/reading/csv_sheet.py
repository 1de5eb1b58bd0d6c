"""Reads a sheet of the declarations from a CSV file: headings in the first row, as on the sheet."""

import csv
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import StringIO
from pathlib import Path

from appraise.files.unusable import Trouble, UnusableFile
from appraise.records.declare import Sheet
from appraise.workbook.cell import Cell, Kind, Row
from appraise.workbook.reading.table import SheetRead, Terms, read_table
from appraise.workbook.reading.values import Typing

#: A file of a hundred thousand sales is some ten megabytes.
_LARGEST = 100_000_000
_SEPARATORS = ",;\t|"


@dataclass(slots=True)
class _CsvRows:
    """The rows of a CSV file as a sheet has them; nothing in them is merged."""

    rows: list[list[str]]
    merged: list[str] = field(default_factory=list)

    def __iter__(self) -> Iterator[Row]:
        for number, texts in enumerate(self.rows, 1):
            cells = [Cell(column, Kind.TEXT, text.strip()) for column, text in enumerate(texts, 1) if text.strip()]
            if cells:
                yield Row(number, hidden=False, cells=cells)


def read_csv(path: Path, sheet: Sheet, *, locale: str = "") -> SheetRead:
    """Return the records of a table sheet that stand in the CSV file at `path`, and what is wrong with them.

    locale  how numbers are typed; blank: 1234.56 and 1,234.56 as on a workbook without one
    UTF-8 with or without its mark; what separates the columns (comma, semicolon, tab, bar) shows in the first line.
    Raises UnusableFile for a file that cannot be read or is no text.
    """
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise UnusableFile(Trouble.MISSING, path, f"{path} cannot be read ({error.strerror}).") from error
    if len(raw) > _LARGEST:
        raise UnusableFile(Trouble.TOO_LARGE, path, f"{path.name} is too large for a list of sales.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        sentence = f"{path.name} is no UTF-8 text. Save it from the spreadsheet as 'CSV UTF-8'."
        raise UnusableFile(Trouble.DAMAGED, path, sentence) from error
    first = text.partition("\n")[0]
    separator = max(_SEPARATORS, key=first.count)
    rows = list(csv.reader(StringIO(text, newline=""), delimiter=separator))
    return read_table(sheet, path.name, _CsvRows(rows), Terms(Typing.of(locale), ""))  # type: ignore[arg-type]
