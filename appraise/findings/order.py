"""The order in which findings are shown: by place, as the workbook is filled."""

from collections.abc import Iterable
from functools import cache

from appraise.model.finding import Finding
from appraise.model.place import Place
from appraise.records.job import SHEETS


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Return findings sorted by sheet (as filled), row, column, then code and subjects.

    A sheet we do not declare comes last, by name; the row as a whole comes before its columns.
    """
    return sorted(findings, key=lambda one: (*_key(one.place), one.code, one.subjects, one.found, one.details))


def _key(place: Place) -> tuple[int, str, int, int, str]:
    sheets, columns = _positions()
    return (
        sheets.get(place.sheet, len(sheets)),
        place.sheet,
        place.row,
        columns.get((place.sheet, place.column), -1 if not place.column else len(columns)),
        place.column,
    )


@cache
def _positions() -> tuple[dict[str, int], dict[tuple[str, str], int]]:
    sheets = {sheet.name: position for position, sheet in enumerate(SHEETS.values())}
    columns = {
        (sheet.name, column.key): position for sheet in SHEETS.values() for position, column in enumerate(sheet.columns)
    }
    return sheets, columns
