"""python-calamine (a reader in Rust): iterates a workbook and does nothing with what it finds."""

import sys

from python_calamine import CalamineWorkbook

from bench.say import say


def main(file: str) -> None:
    """Iterate and say how many cells hold something."""
    book = CalamineWorkbook.from_path(file)
    count = 0
    for name in book.sheet_names:
        for row in book.get_sheet_by_name(name).iter_rows():
            count += len(row) - row.count("")
    say(count)


if __name__ == "__main__":
    main(*sys.argv[1:])
