"""The appraiser's library beside the job: tables kept across jobs. What the job itself says wins."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import fields, replace
from typing import Any

from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.declare import Sheet
from appraise.records.job import SHEETS
from appraise.workbook.reading.references import id_key

Records = dict[str, list[Any]]

#: What makes a row the same row where the sheet has no id; elsewhere only an equal row is the same.
_SAME_ROW: Mapping[str, tuple[str, ...]] = {
    "rates": ("currency", "day", "direction"),
    "deductions": ("family", "departure"),
    "model_periods": ("maker", "model"),
}


def join_library(job: Records, library: Records) -> Iterator[Finding]:
    """Add the library's rows to the job's, in place, and yield a note for each difference.

    A row, or a table with the same id, that the job has itself is left as the job has it. Of the library's sales
    only those come in that a comparison uses; its people only complete the blanks of people the job names.
    """
    for name, sheet in SHEETS.items():
        if not sheet.library or not library.get(name):
            continue
        if name == "people":
            yield from _complete(sheet, job, library[name])
            continue
        offered = library[name]
        if name == "sales":
            used = {line.sale for line in job.get("comparisons", ())}
            offered = [sale for sale in offered if sale.id in used]
        yield from _append(name, sheet, job, offered)


def _append(name: str, sheet: Sheet, job: Records, offered: Iterable[Any]) -> Iterator[Finding]:
    same = _same_row(name, sheet)
    own = _grouped(job.get(name, ()), same)
    added = []
    for key, rows in _grouped(offered, same).items():
        if key not in own:
            added += rows
        elif [_content(row) for row in own[key]] != [_content(row) for row in rows]:
            place = Place(sheet.name, own[key][0].row)
            yield finding("FIL-14", place, found=", ".join(str(word) for word in key), sheet=sheet.name)
    job.setdefault(name, []).extend(added)


def _same_row(name: str, sheet: Sheet) -> Callable[[Any], tuple[Any, ...]]:
    key = id_key(sheet)
    if key is None and name not in _SAME_ROW:
        return _content
    keys = (key,) if key is not None else _SAME_ROW[name]
    return lambda record: tuple(getattr(record, one) for one in keys)


def _grouped(records: Iterable[Any], same: Callable[[Any], tuple[Any, ...]]) -> dict[tuple[Any, ...], list[Any]]:
    groups: dict[tuple[Any, ...], list[Any]] = {}
    for record in records:
        groups.setdefault(same(record), []).append(record)
    return groups


def _content(record: Any) -> tuple[Any, ...]:
    return tuple(getattr(record, one.name) for one in fields(record) if one.name != "row")


def _complete(sheet: Sheet, job: Records, offered: Iterable[Any]) -> Iterator[Finding]:
    """Fill the blanks of the job's people from the library's row with the same id."""
    by_id = {person.id: person for person in offered}
    people = job.get("people", [])
    for position, person in enumerate(people):
        known = by_id.get(person.id)
        if known is None:
            continue
        values = {column.key: getattr(known, column.key) for column in sheet.columns}
        blanks = {key: value for key, value in values.items() if getattr(person, key) is BLANK}
        people[position] = replace(person, **blanks)
        if any(
            value is not BLANK and value != getattr(person, key) for key, value in values.items() if key not in blanks
        ):
            yield finding("FIL-14", Place(sheet.name, person.row), found=str(person.id), sheet=sheet.name)
