"""What stands in a workbook, for the gates: every cell with its value and its formula."""

from collections.abc import Iterator
from pathlib import Path

from appraise.workbook.cells import Book

#: Sheet, row, column, value as text, formula.
Cell = tuple[str, int, int, str, str]


def written(file: Path) -> Iterator[Cell]:
    """Yield every cell that holds something."""
    with Book(file) as book:
        for part in book.sheets:
            for row in book.rows(part):
                for cell in row.cells:
                    yield part.name, row.number, cell.column, f"{type(cell.value).__name__} {cell.value}", cell.formula
