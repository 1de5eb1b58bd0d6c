"""Compares our cells with openpyxl's, sheet by sheet, and says how many hold something. Not timed: the gate.

Readers count differently, so there are three counts: of values; of values and of formulas without a kept result
(openpyxl's normal way counts those too); of values that are no empty text (calamine counts only those).
"""

import sys
from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal
from itertools import zip_longest
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from appraise.workbook.cells import Book, SheetPart
from bench.say import say


def main(file: str) -> None:
    """Say the numbers of cells; the first difference ends it with an exit code of 5."""
    book = load_workbook(file, read_only=True, data_only=True)
    counts: Counter[str] = Counter()
    with Book(Path(file)) as ours:
        for part in ours.sheets:
            for one, other in zip_longest(_here(ours, part, counts), _there(book[part.name])):
                if one != other:
                    print(f"{part.name}: {one} against {other}", file=sys.stderr)
                    raise SystemExit(5)
    values = counts.total() - counts["formula alone"]
    say({"values": values, "typed": counts.total(), "not empty": values - counts["empty text"]})


def _here(book: Book, part: SheetPart, counts: Counter[str]) -> Iterator[tuple[int, int, object]]:
    for row in book.rows(part):
        for cell in row.cells:
            if cell.value is None:
                counts["formula alone"] += 1
                continue
            counts["empty text" if cell.value == "" else "value"] += 1
            yield row.number, cell.column, cell.value


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
