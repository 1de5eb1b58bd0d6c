"""What the workbooks we write look like. Each colour means one thing, and words say the same.

Contrast of text and ground is at least 4.5 to 1 everywhere (WCAG 2.2, 1.4.3).
"""

from collections.abc import Sequence
from typing import Any

from appraise.records.declare import Column, ColumnKind
from appraise.workbook.layout import NEEDED_SIGN

INK = "#1F2933"
NEEDED = {"bg_color": "#1F3A5F", "font_color": "#FFFFFF", "bold": True}
OPTIONAL = {"bg_color": "#DCE3EA", "font_color": INK, "bold": True}
EXAMPLE = {"bg_color": "#FFF4D6", "font_color": "#5C4300", "italic": True}
TO_FILL = {"bg_color": "#EEF5EC", "font_color": INK, "border": 1, "border_color": "#9AA5B1"}
PLAIN = {"font_color": INK}
TITLE = {"font_color": INK, "bold": True, "font_size": 16}
GROUP = {"font_color": "#1F3A5F", "bold": True, "font_size": 12, "bottom": 1, "bottom_color": "#1F3A5F"}
NOTE = {"font_color": "#4A5560", "text_wrap": True, "valign": "top"}
LINK = {"font_color": "#1F3A5F", "underline": 1, "valign": "top"}

_AS_TEXT = frozenset(
    (
        ColumnKind.VERBATIM,
        ColumnKind.FACT,
        ColumnKind.WORDING,
        ColumnKind.MONTH,
        ColumnKind.IDENTITY,
        ColumnKind.REFERENCE,
        ColumnKind.PERCENTS,
        ColumnKind.FILE,
    )
)
_NUMBER_FORMATS = {
    **dict.fromkeys(_AS_TEXT, "@"),
    ColumnKind.DAY: "yyyy-mm-dd",
    ColumnKind.AMOUNT: "#,##0.00",
}
#: Width of a column with long texts: usual, and where many of them always have to be filled.
LONG, LONG_AMONG_MANY = 38, 18
#: Signs that stand side by side on a common screen at full size: what always has to be filled should fit into it.
SCREEN = 235
_WIDTHS = {
    ColumnKind.TEXT: 20,
    ColumnKind.VERBATIM: 14,
    ColumnKind.FACT: 16,
    ColumnKind.WORDING: 16,
    ColumnKind.IDENTITY: 11,
    ColumnKind.REFERENCE: 11,
    ColumnKind.FILE: 24,
    ColumnKind.AMOUNT: 13,
    ColumnKind.DAY: 12,
    ColumnKind.PERCENTS: 14,
}
_LARGEST_WIDTH = 42
#: Height of one line of the default type [points].
LINE_HEIGHT = 15
_MOST_LINES = 12


def cell_format(column: Column) -> dict[str, Any]:
    """Return the format of a column's cells. Columns that keep text as typed are formatted as text."""
    look: dict[str, Any] = {"valign": "top"}
    if column.kind in _NUMBER_FORMATS:
        look["num_format"] = _NUMBER_FORMATS[column.kind]
    if column.kind is ColumnKind.LONG_TEXT:
        look["text_wrap"] = True
    return look


def heading_text(column: Column) -> str:
    """Return the heading as it is written: with the sign where the column always has to be filled."""
    return column.heading + (NEEDED_SIGN if column.required == "always" else "")


def heading_format(column: Column) -> dict[str, Any]:
    """Return the format of a column's heading."""
    look = NEEDED if column.required == "always" else OPTIONAL
    return {**look, "text_wrap": True, "valign": "vcenter", "border": 1, "border_color": "#FFFFFF"}


def long_width(columns: Sequence[Column]) -> int:
    """Return the width of the long texts of a table, such that what always has to be filled fits the screen."""
    reach = max((number for number, column in enumerate(columns, 1) if column.required == "always"), default=0)
    return LONG if sum(width(column, 0) for column in columns[:reach]) <= SCREEN else LONG_AMONG_MANY


def width(column: Column, longest: int, long: int = LONG) -> float:
    """Return a width that fits the heading (on two lines if need be) and the longest value, within reason.

    long  width of a column with long texts, which wrap
    """
    heading = heading_text(column)
    words = max(len(word) for word in heading.split())
    # Headings wrap onto two lines; the arrow of the filter takes about three signs.
    least = max(words, (len(heading) + 1) // 2) + 3.5
    usual = _WIDTHS.get(column.kind, 10)
    if column.kind is ColumnKind.LONG_TEXT:
        return float(max(least, long))
    return min(max(least, usual, longest + 1.5), float(_LARGEST_WIDTH))


def row_height(*texts: tuple[str, float]) -> float:
    """Return the height [points] of a row that holds these (text, width of its column in signs) on wrapped lines.

    Spreadsheet programs do not all fit rows to their text when they open a file. At most about twelve lines show.
    """
    lines = max(
        (sum(1 + int(len(line) / (width * 1.15)) for line in text.split("\n")) for text, width in texts), default=1
    )
    return LINE_HEIGHT * min(max(lines, 1), _MOST_LINES) + (2 if lines > 1 else 0)


def need_in_words(column: Column) -> str:
    """Return when a column has to be filled: "Always needed.", "Needed with a deduction.", or nothing."""
    if column.required == "always":
        return "Always needed."
    return f"Needed: {column.required}." if column.required else ""
