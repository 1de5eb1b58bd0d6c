"""Price indexes by month, with straight lines between the points (method rule R8)."""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.kinds import INDEX
from appraise.model.missing import given
from appraise.model.months import Month, month_number
from appraise.records.declare import place_of
from appraise.records.tables import INDEXES, IndexPoint
from appraise.valuing.operations import CARRIED


@frozen
class Reading:
    """Where a month lies on an index.

    before, after  the points around it; `after` is None if the month is a point, or the last point is carried
    months, span   months from `before` to the month and to `after`
    carried        the month lies after the last point
    """

    before: IndexPoint
    after: IndexPoint | None
    months: int
    span: int
    carried: bool


@frozen
class Index:
    """One index: its points by month ascending, and whether the last figure may be carried on."""

    id: str
    months: tuple[Month, ...]
    points: tuple[IndexPoint, ...]
    carry_last: bool

    @property
    def first(self) -> Month:
        """The month of the first point."""
        return self.months[0]

    @property
    def last(self) -> Month:
        """The month of the last point."""
        return self.months[-1]

    def reading(self, month: Month) -> Reading | None:
        """Return where a month lies; None before the first point, and after the last one unless it is carried."""
        at = bisect_right(self.months, month) - 1
        if at < 0:
            return None
        before = self.points[at]
        if self.months[at] == month:
            return Reading(before, None, 0, 0, False)
        if at == len(self.months) - 1:
            return Reading(before, None, 0, 0, True) if self.carry_last else None
        return Reading(
            before, self.points[at + 1], month - self.months[at], self.months[at + 1] - self.months[at], False
        )

    def known_by(self, month: Month) -> "Index | None":
        """Return the index as it stood at a month: points up to it, the last of them carried; None if it had none."""
        count = bisect_right(self.months, month)
        if count == 0:
            return None
        return replace(self, months=self.months[:count], points=self.points[:count], carry_last=True)


@frozen
class Indexes:
    """All indexes by id."""

    by_id: dict[str, Index]

    def get(self, index: str) -> Index | None:
        """Return the index of that id, None if there is none."""
        return self.by_id.get(index)


def index_month(point: IndexPoint) -> Month | None:
    """Return the month of a point typed as `2024-07`, None if it is no month."""
    if not given(point.month):
        return None
    year, dash, month = point.month.partition("-")
    if not (dash and year.isdecimal() and month.isdecimal() and len(year) == 4 and len(month) <= 2):
        return None
    return month_number(int(year), int(month)) if 1 <= int(month) <= 12 else None


def indexes(rows: Iterable[IndexPoint]) -> tuple[Indexes, list[Finding]]:
    """Return the indexes of the sheet Indexes and what is wrong with them.

    Of two figures of a month the first holds.
    """
    findings: list[Finding] = []
    found: dict[str, dict[Month, IndexPoint]] = {}
    carried: set[str] = set()
    for row in rows:
        if not given(row.index):
            continue
        month = index_month(row)
        if month is None:
            findings.append(_at(row, "TBL-21", "month", found=str(row.month) if given(row.month) else ""))
            continue
        if not given(row.figure):
            findings.append(
                finding("TBL-01", place_of(INDEXES, row, "figure"), row.index, sheet=INDEXES.name, heading="Figure")
            )
            continue
        if CARRIED.result([row.figure], INDEX.places) <= 0:
            findings.append(_at(row, "TBL-22", "figure", found=str(row.figure)))
            continue
        first = found.setdefault(row.index, {}).setdefault(month, row)
        if first.figure != row.figure:
            findings.append(_at(row, "TBL-23", "figure", found=str(row.figure), month=row.month, other=first.figure))
        if row.carry_last is True:
            carried.add(row.index)
    built = {}
    for index, points in found.items():
        months = tuple(sorted(points))
        built[index] = Index(index, months, tuple(points[month] for month in months), index in carried)
    return Indexes(built), findings


def figure_of(point: IndexPoint) -> Decimal:
    """Return the figure of a point that is part of an index; all of them have one."""
    if not given(point.figure):
        raise ValueError(f"the point in row {point.row} has no figure")
    return point.figure


def _at(row: IndexPoint, code: str, key: str, *, found: str, **details: object) -> Finding:
    return finding(code, place_of(INDEXES, row, key), str(row.index), found=found, index=row.index, **details)
