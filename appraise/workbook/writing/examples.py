"""The example rows of a blank workbook, all marked "example, replace" and never read."""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from appraise.files.packaged import packaged
from appraise.records.declare import Column, ColumnKind, Sheet
from appraise.records.job import SHEETS
from appraise.workbook.cells import Cell, Kind
from appraise.workbook.reading.values import Fault, Typing, converter


def example_rows(names: Iterable[str]) -> dict[str, list[dict[str, Any]]]:
    """Return the example rows of the named table sheets: one from the declarations, more where a table needs them."""
    return {name: examples_of(SHEETS[name]) for name in names if not SHEETS[name].form}


@cache
def _names() -> dict[str, str]:
    return {sheet.name: name for name, sheet in SHEETS.items()}


def examples_of(sheet: Sheet) -> list[dict[str, Any]]:
    """Return the example rows of one table sheet, values by column key.

    Without further rows it is the examples of the declarations. A further row takes what it does not give from there,
    less the columns named under `without`.
    """
    one = {column.key: typed(column, column.example) for column in sheet.columns if column.example}
    further = _further().get(_names().get(sheet.name, ""), [])
    return [_changed(sheet, one, row) for row in further] or [one]


def _changed(sheet: Sheet, one: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    left_out = {sheet.column(key).key for key in row.get("without", ())}
    given = {key: typed(sheet.column(key), text) for key, text in row.items() if key != "without"}
    return {key: value for key, value in {**one, **given}.items() if key not in left_out}


def typed(column: Column, text: str) -> Any:
    """Return an example's text as the value of its column. One that cannot be read is our own mistake."""
    if column.kind is ColumnKind.WORDING:
        return text
    value = converter(column, Typing.of("en_US"))(Cell(1, Kind.TEXT, text))
    if isinstance(value, Fault):
        raise ValueError(f"example of {column.key}: {value.code} {text}")
    return value


@cache
def _further() -> dict[str, list[dict[str, Any]]]:
    return tomllib.loads(packaged("workbook", "writing", "examples.toml").read_text("utf-8"))
