"""openpyxl, the normal way: loads a workbook and goes over its cells."""

import sys

from openpyxl import load_workbook

from bench.say import say


def main(file: str) -> None:
    """Load, iterate and say how many cells hold something."""
    book = load_workbook(file)
    count = 0
    for sheet in book.worksheets:
        for row in sheet.iter_rows(values_only=True):
            count += len(row) - row.count(None)
    say(count)


if __name__ == "__main__":
    main(*sys.argv[1:])
