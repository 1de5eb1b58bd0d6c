"""Reading the form sheet: one record, each value to the right of its label."""

from collections.abc import Iterable, Mapping
from itertools import islice
from typing import Any

from appraise.model.finding import finding
from appraise.model.missing import BLANK, UNREADABLE
from appraise.model.place import Place
from appraise.records.declare import Column, Sheet
from appraise.workbook.cells import Cell, Kind, Row, SheetRows, Value
from appraise.workbook.layout import SheetLayout
from appraise.workbook.reading.clean import clean_word
from appraise.workbook.reading.headings import folded, missing_columns, names_of
from appraise.workbook.reading.table import Extra, SheetRead, Terms, blank_finding, fault_finding
from appraise.workbook.reading.values import Fault, as_text, converter

#: The form that has to be filled; another form that is wholly blank says nothing, and nothing is missing.
ALWAYS_FILLED = "Assignment"
#: Rows looked at: a form has some forty lines.
_LOOKED_AT = 1000


def read_form(sheet: Sheet, tab: str, rows: SheetRows, terms: Terms) -> SheetRead:
    """Return the one record of a form sheet: each value stands to the right of its label."""
    result = SheetRead()
    names = names_of(sheet, terms.former.get(sheet.name, {}))
    every = list(islice(iter(rows), _LOOKED_AT))
    labels = _label_column(every, names)
    values: dict[str, Any] = {}
    lines: dict[str, int] = {}
    extra: dict[str, tuple[int, Value]] = {}
    for row in every:
        by_column = {cell.column: cell for cell in row.cells}
        label = by_column.get(labels)
        value = by_column.get(labels + 1)
        if label is None:
            continue
        column = names.get(folded(as_text(label)))
        if column is None:
            if value is not None and value.value not in (None, ""):
                extra[clean_word(as_text(label))] = (row.number, value.value)
        elif column.key in lines:
            first, second = f"row {lines[column.key]}", f"row {row.number}"
            place = Place(sheet.name, 0, column.key)
            result.findings.append(
                finding("FIL-05", place, found=column.heading, sheet=sheet.name, first=first, second=second)
            )
        else:
            lines[column.key] = row.number
            values[column.key] = _form_value(sheet, column, value, terms, result)
    result.layout = SheetLayout(tab, 0, dict.fromkeys(lines, labels + 1), lines)
    _finish(sheet, terms, result, values, extra)
    return result


def _form_value(sheet: Sheet, column: Column, cell: Cell | None, terms: Terms, result: SheetRead) -> Any:
    place = Place(sheet.name, 0, column.key)
    value = BLANK if cell is None else converter(column, terms.typing)(cell)
    if type(value) is Fault:
        result.findings.append(fault_finding(column, place, value))
        value = value.value
    return value


def _finish(
    sheet: Sheet, terms: Terms, result: SheetRead, values: dict[str, Any], extra: dict[str, tuple[int, Value]]
) -> None:
    """Fill in the lines that are not there, and build the record."""
    use = str(values.get("use", terms.use))
    missing = [one for one in sheet.columns if one.key not in values and (not one.uses or use in one.uses)]
    labels = {row: label for label, (row, _) in extra.items()}
    renamed, findings = missing_columns(Place(sheet.name), missing, labels, lambda row: f"row {row}")
    result.findings += findings
    unreadable = {one.key for one in missing if one.required == "always"} | set(renamed)
    if sheet.name == ALWAYS_FILLED or any(value is not BLANK for value in values.values()):
        for column in sheet.columns:
            if column.required == "always" and values.get(column.key) is BLANK:
                result.findings.append(blank_finding(column, Place(sheet.name, 0, column.key)))
    for column in sheet.columns:
        values.setdefault(column.key, UNREADABLE if column.key in unreadable else BLANK)
    result.extras = [
        Extra(sheet.name, label, {row: value}) for label, (row, value) in extra.items() if row not in renamed.values()
    ]
    result.records.append(sheet.record(row=0, **values))
    result.count.read = 1


def _label_column(rows: Iterable[Row], names: Mapping[str, Column]) -> int:
    """Return the number of the column that holds the most labels."""
    counts: dict[int, int] = {}
    for row in rows:
        for cell in row.cells:
            if cell.kind is Kind.TEXT and folded(str(cell.value)) in names:
                counts[cell.column] = counts.get(cell.column, 0) + 1
    return max(sorted(counts), key=lambda number: counts[number], default=1)
