"""A page for the appraiser's own eyes, as a small workbook: headings, sentences, tables."""

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from typing import BinaryIO

import xlsxwriter

from appraise.model.frozen import frozen
from appraise.workbook.writing import looks

_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
_WIDTHS = (30, 24, 20, 14, 14, 14, 14, 14, 14, 14, 14, 14)
_WIDE = 150

PageCell = str | Decimal | int | None


@frozen
class PageTable:
    """A table of a page; a blank cell is None."""

    heads: tuple[str, ...]
    rows: tuple[tuple[PageCell, ...], ...]


@frozen
class PageBlock:
    """A heading, sentences and at most one table."""

    heading: str
    sentences: tuple[str, ...] = ()
    table: PageTable | None = None


def write_page(stream: BinaryIO, title: str, blocks: Sequence[PageBlock]) -> None:
    """Write the page. The same blocks give the same bytes."""
    book = xlsxwriter.Workbook(
        stream,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False},
    )
    book.set_properties({"title": title, "created": _FIXED_TIME})
    page = book.add_worksheet(title[:31])
    look = {
        name: book.add_format(style)
        for name, style in (
            ("title", looks.TITLE),
            ("heading", looks.GROUP),
            ("words", looks.NOTE),
            ("head", {**looks.OPTIONAL, "text_wrap": True, "valign": "vcenter"}),
            ("cell", {**looks.PLAIN, "valign": "top", "text_wrap": True}),
        )
    }
    page.write_string(0, 0, title, look["title"])
    row = 2
    last = len(_WIDTHS) - 1
    for block in blocks:
        page.write_string(row, 0, block.heading, look["heading"])
        row += 1
        for sentence in block.sentences:
            page.merge_range(row, 0, row, last, "", look["words"])
            page.write_string(row, 0, sentence, look["words"])
            page.set_row(row, looks.row_height((sentence, _WIDE)))
            row += 1
        if block.table is not None:
            row = _write_table(page, row, block.table, look)
        row += 1
    for column, width in enumerate(_WIDTHS):
        page.set_column(column, column, width)
    page.hide_gridlines(2)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    book.close()


def _write_table(page: "xlsxwriter.worksheet.Worksheet", row: int, table: PageTable, look: dict[str, object]) -> int:
    for column, head in enumerate(table.heads):
        page.write_string(row, column, head, look["head"])
    for number, cells in enumerate(table.rows, row + 1):
        for column, value in enumerate(cells):
            if isinstance(value, Decimal | int):
                page.write_number(number, column, float(value), look["cell"])
            elif value:
                page.write_string(number, column, value, look["cell"])
    return row + 1 + len(table.rows)
