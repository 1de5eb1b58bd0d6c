"""A sheet whose rows are written as finished XML, one by one.

The library that writes the workbook spends most of its time on a row in asking what each cell is. We know; so that a
proof of millions of figures takes a few times what putting its text together takes.
"""

import re
from collections.abc import Iterable
from typing import Any
from xml.sax.saxutils import escape

from xlsxwriter.worksheet import Worksheet

#: Signs that XML cannot hold, and text that a spreadsheet would read as one of them (ECMA-376 part 1, 22.9.2.19).
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]")
_LOOKS_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
#: A cell keeps 32,767 signs.
_LONGEST_TEXT = 32_000


class RowSheet(Worksheet):  # type: ignore[misc]
    """A worksheet of a workbook with constant memory that also takes finished rows, from top to bottom.

    At least one cell has to be written in the ordinary way before them.
    """

    def put_row(self, row: int, cells: Iterable[str], height: float | None = None) -> None:
        """Write a row (counted from 1), below all that was written before; `height` in points."""
        # What was written cell by cell comes first.
        self._write_single_row(row)
        self.dim_rowmax = row - 1
        tall = "" if height is None else f' ht="{height:g}" customHeight="1"'
        self.row_data_fh.write(f'<row r="{row}"{tall}>{"".join(cells)}</row>')


def style_of(look: Any) -> int:
    """Return the number of a format in the workbook."""
    return int(look._get_xf_index())


def text_cell(place: str, text: str, style: int) -> str:
    """Return a cell with a text; it is never read as a formula."""
    shown = escape(_CONTROL.sub(" ", text[:_LONGEST_TEXT]))
    if "_x" in shown:
        shown = _LOOKS_ESCAPED.sub("_x005F_", shown)
    kept = ' xml:space="preserve"' if shown != shown.strip() else ""
    return f'<c r="{place}" s="{style}" t="inlineStr"><is><t{kept}>{shown}</t></is></c>'


def number_cell(place: str, value: float, style: int) -> str:
    """Return a cell with a number, in the fewest digits that mean it."""
    return f'<c r="{place}" s="{style}"><v>{value!r}</v></c>'


def formula_cell(place: str, formula: str, value: float | str, style: int) -> str:
    """Return a cell with a formula (without "=") and the value kept beside it."""
    if isinstance(value, str):
        return f'<c r="{place}" s="{style}" t="str"><f>{escape(formula)}</f><v>{escape(value)}</v></c>'
    return f'<c r="{place}" s="{style}"><f>{escape(formula)}</f><v>{value!r}</v></c>'


def blank_cell(place: str, style: int) -> str:
    """Return an empty cell with a ground."""
    return f'<c r="{place}" s="{style}"/>'
