"""Reading a table sheet into records: headings above, one record a row."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import chain, islice
from typing import Any

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, UNREADABLE
from appraise.model.place import Place
from appraise.records.declare import Column, ColumnKind, Sheet
from appraise.workbook.cells import Cell, Kind, Row, SheetRows, Value, column_letters, column_number
from appraise.workbook.layout import LEFT_OUT, MARKS, SheetLayout
from appraise.workbook.reading.headings import LOOKED_AT, Matched, find_heading_row, match, names_of
from appraise.workbook.reading.values import Convert, Fault, Typing, remembering
from appraise.workbook.writing.examples import examples_of

#: Without these nothing can be worked out; other blanks leave something unsaid.
_WORKED_WITH = frozenset(
    (
        ColumnKind.IDENTITY,
        ColumnKind.REFERENCE,
        ColumnKind.CHOICE,
        ColumnKind.AMOUNT,
        ColumnKind.NUMBER,
        ColumnKind.WHOLE,
        ColumnKind.PERCENT,
        ColumnKind.DAY,
        ColumnKind.MONTH,
        ColumnKind.YES_NO,
        ColumnKind.CURRENCY,
    )
)


@dataclass(slots=True)
class Count:
    """How many rows of a sheet were read, and how many were not for which reason."""

    read: int = 0
    blank: int = 0
    hidden: int = 0
    example: int = 0
    left_out: int = 0


@frozen
class Extra:
    """A column the user added: its heading and its values by row. Kept, not understood."""

    sheet: str
    heading: str
    values: Mapping[int, Value]


@dataclass(slots=True)
class SheetRead:
    """What was read from one sheet. `example_ids` are the ids of rows still marked as examples."""

    records: list[Any] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    layout: SheetLayout | None = None
    count: Count = field(default_factory=Count)
    extras: list[Extra] = field(default_factory=list)
    example_ids: set[str] = field(default_factory=set)


@frozen
class Terms:
    """What reading depends on: how texts are typed, the use, headings of older formats by sheet."""

    typing: Typing
    use: str
    former: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


def read_table(sheet: Sheet, tab: str, rows: SheetRows, terms: Terms) -> SheetRead:
    """Return the records of a table sheet. Rows below a gap count; rows marked as example or "leave out" do not."""
    result = SheetRead()
    stream = iter(rows)
    top = list(islice(stream, LOOKED_AT))
    names = names_of(sheet, terms.former.get(sheet.name, {}))
    heading = find_heading_row(top, names)
    if heading is None:
        result.layout = SheetLayout(tab)
        if top:
            result.findings.append(finding("FIL-06", Place(sheet.name), sheet=sheet.name))
        return result
    matched = match(sheet, heading, names, terms.use)
    result.findings += matched.findings
    result.layout = SheetLayout(tab, matched.row, {column.key: number for number, column in matched.columns.items()})
    below = (row for row in chain(top, stream) if row.number > matched.row)
    _TableReader(sheet, matched, terms, result).read(below)
    result.findings += _merged_findings(sheet, matched, rows.merged)
    return result


class _TableReader:
    """Turns the rows below the headings into records, findings and kept extra values."""

    def __init__(self, sheet: Sheet, matched: Matched, terms: Terms, result: SheetRead) -> None:
        self.sheet = sheet
        self.matched = matched
        self.result = result
        positions = {column.key: position for position, column in enumerate(sheet.columns)}
        self.keys = tuple(positions)
        self.blank = [UNREADABLE if key in matched.missing else BLANK for key in positions]
        self.slots: dict[int, tuple[int, Convert, dict[object, Any]]] = {
            number: (positions[column.key], *remembering(column, terms.typing))
            for number, column in matched.columns.items()
        }
        self.needed = [
            (positions[column.key], column)
            for column in sheet.columns
            if column.required == "always" and (not column.uses or terms.use in column.uses)
        ]
        self.identity = next((positions[c.key] for c in sheet.columns if c.kind is ColumnKind.IDENTITY), None)
        self.extra: dict[int, dict[int, Value]] = {number: {} for number in matched.extra}
        self.unnamed: dict[int, int] = {}
        self.first_left_out = 0
        self.positions = positions
        self.shown = [column.key for column in matched.columns.values()]

    @cached_property
    def ours(self) -> list[dict[str, Any]]:
        """Our example rows; only a sheet that still has a row marked as one asks for them."""
        return examples_of(self.sheet)

    def read(self, rows: Iterable[Row]) -> None:
        count = self.result.count
        last = self.matched.row
        for row in rows:
            if self.row(row):
                count.blank += row.number - last - 1
                last = row.number
                count.hidden += row.hidden
        self.finish()

    def row(self, row: Row) -> bool:
        """Read one row; return whether it was one that holds something of ours."""
        values = self.blank.copy()
        faults: list[tuple[int, Fault]] = []
        mark = ""
        slots = self.slots
        for cell in row.cells:
            column, kind, held, _, _ = cell
            slot = slots.get(column)
            if kind is Kind.TEXT and held in _MARK_WORDS:
                mark = _MARK_WORDS[held]
                if slot is None:
                    continue
            if slot is None:
                self.other(row, cell)
                continue
            position, convert, known = slot
            value = known.get(held) if kind is Kind.TEXT else None
            if value is None:
                value = convert(cell)
            if type(value) is Fault:
                faults.append((position, value))
                value = value.value
            values[position] = value
        if values == self.blank:
            return False
        if mark:
            self.marked(row, mark, values)
            return True
        self.record(row, values, faults)
        return True

    def record(self, row: Row, values: list[Any], faults: list[tuple[int, Fault]]) -> None:
        result = self.result
        for position, fault in faults:
            result.findings.append(fault_finding(self.sheet.columns[position], self.place(row, position), fault))
        for position, column in self.needed:
            if values[position] is BLANK:
                result.findings.append(blank_finding(column, self.place(row, position)))
        result.records.append(self.sheet.record(row=row.number, **dict(zip(self.keys, values, strict=True))))
        result.count.read += 1

    def place(self, row: Row, position: int) -> Place:
        return Place(self.sheet.name, row.number, self.keys[position])

    def marked(self, row: Row, mark: str, values: list[Any]) -> None:
        """Count a row that is not read. One still marked as example that a person has typed over is a finding."""
        count = self.result.count
        if mark == LEFT_OUT:
            self.first_left_out = self.first_left_out or row.number
            count.left_out += 1
            return
        count.example += 1
        if self.identity is not None and isinstance(values[self.identity], str):
            self.result.example_ids.add(values[self.identity])
        if not any(all(values[self.positions[key]] == one.get(key, BLANK) for key in self.shown) for one in self.ours):
            place = Place(self.sheet.name, row.number)
            self.result.findings.append(finding("CEL-36", place, found=mark, sheet=self.sheet.name, row=row.number))

    def other(self, row: Row, cell: Cell) -> None:
        """Keep a cell of a column that is not ours."""
        if cell.value in (None, ""):
            return
        kept = self.extra.get(cell.column)
        if kept is not None:
            kept[row.number] = cell.value
        elif cell.column != self.matched.mark:
            self.unnamed.setdefault(cell.column, row.number)

    def finish(self) -> None:
        result, name = self.result, self.sheet.name
        result.extras = [
            Extra(name, self.matched.extra[number], values) for number, values in self.extra.items() if values
        ]
        if result.count.left_out:
            place = Place(name, self.first_left_out)
            result.findings.append(finding("CEL-30", place, found=LEFT_OUT, sheet=name, count=result.count.left_out))
        if result.count.hidden:
            result.findings.append(finding("CEL-37", Place(name), sheet=name, count=result.count.hidden))
        for number, row in sorted(self.unnamed.items()):
            result.findings.append(finding("CEL-38", Place(name, row), sheet=name, letters=column_letters(number)))


_MARK_WORDS: dict[object, str] = {spelling: word for word in MARKS for spelling in (word, word.capitalize())}


def fault_finding(column: Column, place: Place, fault: Fault) -> Finding:
    """Return the finding for a fault of one cell."""
    return finding(fault.code, place, found=fault.found, heading=column.heading, **dict(fault.details))


def blank_finding(column: Column, place: Place) -> Finding:
    """Return the finding for a cell that must be filled and is not."""
    code = "CEL-21" if column.kind in _WORKED_WITH else "CEL-22"
    return finding(code, place, heading=column.heading, hint=column.hint or column.heading)


def _merged_findings(sheet: Sheet, matched: Matched, merged: Iterable[str]) -> Iterator[Finding]:
    """Yield a finding for each merged area that reaches into the data: all its cells but the first look blank."""
    for area in merged:
        corners = [_CORNER.fullmatch(corner) for corner in area.split(":")]
        if not all(corners) or len(corners) > 2:
            continue
        (left, top), (right, bottom) = (
            (column_number(corner[1]), int(corner[2])) for corner in (corners[0], corners[-1]) if corner
        )
        if bottom <= matched.row:
            continue
        touched = [column for number, column in sorted(matched.columns.items()) if left <= number <= right]
        if touched:
            yield finding("CEL-28", Place(sheet.name, top, touched[0].key), found=area, sheet=sheet.name)


#: A corner of an area, such as `F12`.
_CORNER = re.compile("([A-Z]{1,3})([0-9]{1,7})")
