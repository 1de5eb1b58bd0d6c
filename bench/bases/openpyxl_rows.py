"""openpyxl, read-only, values alone: iterates a workbook, or one sheet of it, and does nothing with what it finds."""

import sys

from openpyxl import load_workbook

from bench.say import say


def main(file: str, sheet: str = "") -> None:
    """Iterate and say how many cells hold something."""
    book = load_workbook(file, read_only=True, data_only=True)
    count = 0
    for one in [book[sheet]] if sheet else book.worksheets:
        for row in one.iter_rows(values_only=True):
            count += len(row) - row.count(None)
    say(count)


if __name__ == "__main__":
    main(*sys.argv[1:])
