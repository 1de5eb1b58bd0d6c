"""Compares our cells with openpyxl's, sheet by sheet, and says how many hold something. Not timed: the gate."""

import sys
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal
from itertools import zip_longest
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from appraise.workbook.cells import Book
from bench.say import say


def main(file: str) -> None:
    """Say the number of cells; the first difference ends it with an exit code of 5."""
    book = load_workbook(file, read_only=True, data_only=True)
    count = 0
    with Book(Path(file)) as ours:
        for part in ours.sheets:
            here = ((row.number, cell.column, cell.value) for row in ours.rows(part) for cell in row.cells)
            for one, other in zip_longest(here, _there(book[part.name])):
                if one != other:
                    print(f"{part.name}: {one} against {other}", file=sys.stderr)
                    raise SystemExit(5)
                count += 1
    say(count)


def _there(sheet: Any) -> Iterator[tuple[int, int, object]]:
    for number, row in enumerate(sheet.iter_rows(values_only=True), 1):
        for column, value in enumerate(row, 1):
            if value is not None:
                yield number, column, _as_ours(value)


def _as_ours(value: object) -> object:
    if isinstance(value, bool | str):
        return value
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, int | float):
        return Decimal(format(value, ".15g"))
    return value if isinstance(value, date) else str(value)


if __name__ == "__main__":
    main(*sys.argv[1:])
