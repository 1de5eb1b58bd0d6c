"""The rules of cells in a workbook we write: drop-downs, hints shown while one types, guarded headings."""

from collections.abc import Mapping
from typing import Any

from appraise.records.declare import Column, ColumnKind
from appraise.workbook.layout import MARK
from appraise.workbook.writing import looks
from appraise.workbook.writing.lists import offered

#: Signs a spreadsheet takes in the title and in the text of a hint.
_LONGEST_TITLE, _LONGEST_HINT = 32, 255

#: Sheet protection would keep tables from growing; a rule that accepts nothing guards the headings alone.
HEADING_RULE = {
    "validate": "custom",
    "value": "=FALSE",
    "error_title": "A heading",
    "error_message": "Values are found by these headings. Leave this cell as it is; add own columns to the right.",
}


def mark_rule(lists: Mapping[str, str]) -> dict[str, Any]:
    """Return the rule of the first column of every table."""
    return {
        "validate": "list",
        "source": lists[MARK],
        "error_type": "warning",
        "input_title": MARK,
        "input_message": "Blank for a row that counts. 'leave out': the row is not read. 'example, replace': one of "
        "our examples; clear this cell once the row is yours.",
    }


def cell_rule(sheet: str, column: Column, lists: Mapping[str, str], id_ranges: Mapping[str, str]) -> dict[str, Any]:
    """Return the rule of a column's cells: its list, if it has one, and the hint shown while one types.

    lists      reference of each closed list by its name
    id_ranges  where the ids of each written sheet stand, by the sheet's name
    """
    words = [column.hint, looks.need_in_words(column), f"Example: {column.example}" if column.example else ""]
    hint = {
        "input_title": column.heading[:_LONGEST_TITLE],
        "input_message": _shortened(" ".join(word for word in words if word), _LONGEST_HINT),
    }
    source = _closed_list(column, lists, id_ranges)
    if source is not None:
        # A warning only: 'unknown' may be typed, and an id before its row is written.
        return {
            "validate": "list",
            "source": source,
            "error_type": "warning",
            "error_title": column.heading[:_LONGEST_TITLE],
            "error_message": "This is not in the list. Keep it only if you mean it.",
        } | hint
    source = offered(sheet, column.key, lists)
    if source is not None:
        # A help only: anything else may be typed as well.
        return {"validate": "list", "source": source, "show_error": False} | hint
    return {"validate": "any"} | hint


def _closed_list(column: Column, lists: Mapping[str, str], id_ranges: Mapping[str, str]) -> str | list[str] | None:
    if column.choices is not None:
        return lists[column.choices.__name__]
    if column.kind is ColumnKind.YES_NO:
        return ["yes", "no"]
    return id_ranges.get(column.refers_to)


def _shortened(text: str, longest: int) -> str:
    """Return `text`, cut at a word where a spreadsheet would refuse it."""
    return text if len(text) <= longest else text[: longest - 1].rpartition(" ")[0] + "…"
