"""Next year's workbook from this year's: every typed cell is carried, moved where it can be looked up, or listed.

Nothing is matched by row: ids are carried with their rows. What belongs to last year's report alone (its days, its
reasons for weights, its answers) does not pass into a new one unread: it stands under a heading that ends in "last
year" or on the sheet Carried over, with the reason.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any

from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, UNREADABLE, Missing, given
from appraise.records.assignment import Assumption
from appraise.records.declare import Column, Sheet
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Treatment, Use
from appraise.records.yearly import LineTreatment
from appraise.schedule.propose import removed_items
from appraise.workbook.layout import AGE, LEFT_OUT, LIBRARY_ROWS
from appraise.workbook.reading.read import ReadResult
from appraise.workbook.renewing.renewal import (
    DROPPED_CELLS,
    DROPPED_SHEETS,
    MOVED_CELLS,
    last_year_heading,
    shown_headings,
)
from appraise.workbook.rows import OWN

#: Stands as the reconciliation of a line that rests on last year's value.
NOT_AFRESH = "Not valued afresh this year: last year's value before rounding, treated as Treatments says."
_NOT_AFRESH = (Treatment.INDEX, Treatment.PERCENT, Treatment.HOLD)


@frozen
class Left:
    """A cell of last year that is not in the new workbook as it was: where it stood, what it said, why."""

    sheet: str
    row: int
    heading: str
    value: str
    reason: str


@frozen
class Renewed:
    """What is new in next year's workbook.

    effective, last  the new effective date and that of this year
    prior_services   the text that discloses this year's report, with what was disclosed before
    lines            the lines proposed
    assumption       what is assumed of items not inspected; None where this year's assumptions say it already
    """

    effective: date
    last: date
    prior_services: str
    lines: tuple[LineTreatment, ...]
    assumption: Assumption | None = None


@dataclass(slots=True)
class NextYear:
    """The new workbook's rows, the user's own sheets, what was left, and where each record's row went.

    went  position in the new sheet by (field of the job, row in the old workbook)
    """

    rows: dict[str, Any] = field(default_factory=dict)
    left: list[Left] = field(default_factory=list)
    went: dict[tuple[str, int], int] = field(default_factory=dict)
    sheets: tuple[tuple[str, tuple[tuple[int, int, Any], ...]], ...] = ()


def next_year(read: ReadResult, renewed: Renewed) -> NextYear:
    """Return next year's workbook; the sheet Answers is left out, since what is open shows only in the new one."""
    made = NextYear()
    carrier = _Carrier(read, renewed, made)
    for name, sheet in SHEETS.items():
        carrier.sheet(name, sheet)
    carrier.renew()
    made.left += _not_read(read)
    made.sheets = tuple((one.name, one.cells) for one in read.extra_sheets)
    return made


class _Carrier:
    """Carries one workbook, sheet by sheet."""

    def __init__(self, read: ReadResult, renewed: Renewed, made: NextYear) -> None:
        self.job, self.renewed, self.made = read.job, renewed, made
        self.gone = removed_items(read.job)
        self.own = _own_values(read)
        self.unread = {(one.place.sheet, one.place.row, one.place.column): one.found for one in read.findings}

    def sheet(self, name: str, sheet: Sheet) -> None:
        records = getattr(self.job, name)
        if sheet.form:
            row = self.row(name, sheet, records, self.reason_of_row(name, records))
            if row:
                self.made.rows[name] = row
            return
        rows: list[dict[str, Any]] = []
        for record in records:
            if record.row >= LIBRARY_ROWS:
                continue
            reason = self.reason_of_row(name, record)
            row = self.row(name, sheet, record, reason)
            if not reason:
                self.made.went[name, record.row] = len(rows)
                rows.append(row)
        if rows:
            self.made.rows[name] = rows

    def reason_of_row(self, name: str, record: Any) -> str:
        """Return why a whole row stays behind, "" if it is carried."""
        if name in DROPPED_SHEETS:
            return DROPPED_SHEETS[name]
        item = record.id if name == "items" else getattr(record, "item", BLANK)
        if given(item) and item in self.gone:
            day = self.gone[item].removed_on
            return f"{item} was removed from the schedule{f' on {day.isoformat()}' if given(day) else ''}"
        if name == "renamings" and given(record.day) and record.day <= self.renewed.last:
            return f"settled in the schedule of {self.renewed.last.isoformat()}"
        return ""

    def row(self, name: str, sheet: Sheet, record: Any, reason: str) -> dict[str, Any]:
        """Return the new row of a record and list what does not stand in it as it was."""
        new: dict[str, Any] = {}
        own: dict[str, Any] = {}
        for column in sheet.columns:
            value = getattr(record, column.key)
            if value is BLANK:
                continue
            if value is UNREADABLE:
                found = self.unread.get((sheet.name, record.row, column.key), "")
                self.leave(sheet, record.row, column.heading, found, "it could not be read")
            elif why := reason or DROPPED_CELLS.get((name, column.key), ""):
                self.leave(sheet, record.row, column.heading, value, why)
            elif why := MOVED_CELLS.get((name, column.key), ""):
                heading = last_year_heading(name, column.key)
                own[heading] = _plain(value)
                self.leave(sheet, record.row, column.heading, value, f"{why}; it stands under '{heading}'")
            else:
                new[column.key] = self.carried(name, sheet, record, column, value)
        for heading, value in self.own.get((sheet.name, record.row), {}).items():
            if reason:
                self.leave(sheet, record.row, heading, value, reason)
            else:
                own[heading] = value
        if own:
            new[OWN] = own
        return new

    def carried(self, name: str, sheet: Sheet, record: Any, column: Column, value: Any) -> Any:
        """Return the value as it stands in the new workbook, with a line where it is not the same."""
        if name == "assumptions" and column.key == "items" and self.gone:
            kept = "; ".join(one for one in (part.strip() for part in value.split(";")) if one not in self.gone)
            if kept != value:
                self.leave(
                    sheet, record.row, column.heading, value, f"now '{kept}': what was removed is no longer named"
                )
            return kept or value
        return value

    def leave(self, sheet: Sheet, row: int, heading: str, value: Any, reason: str) -> None:
        self.made.left.append(Left(sheet.name, row, heading, _text(value), reason))

    def renew(self) -> None:
        """Write what is new."""
        rows, renewed, job = self.made.rows, self.renewed, self.job
        form = rows.setdefault("assignment", {})
        form |= {"use": Use.YEARLY, "effective_date": renewed.effective, "prior_services": renewed.prior_services}
        terms = rows.setdefault("yearly_terms", {})
        terms["prior_day"] = renewed.last
        rows["treatments"] = [_given(one) for one in renewed.lines]
        carried = {(one.item, one.value_type): one for one in renewed.lines if one.treatment in _NOT_AFRESH}
        for row in rows.get("opinions", ()):
            if (row.get("item"), row.get("value_type")) in carried:
                row["reconciliation"] = NOT_AFRESH
        for row in rows.get("comparisons", ()):
            row["weight"] = Decimal(0)
            row["weight_reason"] = f"carried from the schedule of {renewed.last.isoformat()}; not confirmed yet"
        for row, sale in zip(rows.get("sales", ()), _own_rows(job.sales), strict=True):
            if given(sale.day):
                row[OWN] = {AGE: Decimal(_months(sale.day, renewed.effective)), **row.get(OWN, {})}
        if renewed.assumption is not None:
            rows.setdefault("assumptions", []).append(_given(renewed.assumption))


def _own_rows(records: tuple[Any, ...]) -> list[Any]:
    return [one for one in records if one.row < LIBRARY_ROWS]


def _given(record: Any) -> dict[str, Any]:
    names = [name for name in type(record).__dataclass_fields__ if name != "row"]
    return {name: value for name in names if (value := getattr(record, name)) is not BLANK}


def _own_values(read: ReadResult) -> dict[tuple[str, int], dict[str, Any]]:
    """Return the values of the user's own columns and lines by sheet, row (0 on a form) and heading."""
    forms = {sheet.name for sheet in SHEETS.values() if sheet.form}
    found: dict[tuple[str, int], dict[str, Any]] = {}
    for extra in read.extra_columns:
        if extra.heading in shown_headings(extra.sheet):
            continue
        for row, value in extra.values.items():
            found.setdefault((extra.sheet, 0 if extra.sheet in forms else row), {})[extra.heading] = value
    return found


def _not_read(read: ReadResult) -> Iterator[Left]:
    """Yield what the reader does not hand on: rows marked "leave out", cells without a heading above them."""
    known: set[tuple[str, int]] = set()
    for sheet in SHEETS.values():
        if not sheet.form:
            name = next(key for key, one in SHEETS.items() if one is sheet)
            known |= {(sheet.name, one.row) for one in getattr(read.job, name)}
    for name, count in read.counts.items():
        if count.left_out:
            yield Left(name, 0, "", f"{count.left_out} rows", f"marked '{LEFT_OUT}', so they are not read")
    for one in read.findings:
        if one.code == "CEL-38":
            yield Left(one.place.sheet, one.place.row, "", "", "cells in a column without a heading are not read")
    for extra in read.extra_columns:
        for row, value in extra.values.items():
            on_form = any(sheet.form and sheet.name == extra.sheet for sheet in SHEETS.values())
            if not on_form and (extra.sheet, row) not in known and extra.heading not in shown_headings(extra.sheet):
                yield Left(extra.sheet, row, extra.heading, _text(value), "the row holds nothing else that is read")


def _months(first: date, last: date) -> int:
    """Return the whole months from one day to another; 0 if the second is not later."""
    months = 12 * (last.year - first.year) + last.month - first.month - (last.day < first.day)
    return max(0, months)


def _plain(value: Any) -> Any:
    return str(value) if isinstance(value, StrEnum) else value.value if isinstance(value, Missing) else value


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Missing):
        return value.value
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, tuple):
        return "; ".join(_text(one) for one in value)
    return value.isoformat() if isinstance(value, date) else str(value)
