"""Next year's line for each opinion of this year: what is carried into it, and the treatment proposed with its reason.

A proposal, typed into the workbook to be changed: the appraiser decides. The order of the grounds is that of common
practice (no source): what could not be valued, what is held for an open question, what was rolled long enough, what
is dear enough to deserve fresh comparables, then an index of the line's own market, then a percent.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from appraise.model.figure import NoFigure
from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, Missing, given, value_or
from appraise.records.declare import filled
from appraise.records.items import Item, Renaming
from appraise.records.job import Job
from appraise.records.vocabulary import Market, Treatment, ValueType
from appraise.records.yearly import LineTreatment
from appraise.schedule.revaluation import ROLLED_YEARS, ROLLS
from appraise.valuing.days import add_months
from appraise.valuing.result import Valuation

#: Our default where Yearly terms says nothing [months]; the same as for the finding.
_INSPECTION = Decimal(36)


@frozen
class Years:
    """What the proposals share.

    last       effective date of the schedule that is renewed
    effective  the new one
    levels     markets that the points of each index measure, by index id
    """

    job: Job
    last: date
    effective: date
    levels: Mapping[str, frozenset[Market]]

    @staticmethod
    def of(job: Job, last: date, effective: date) -> "Years":
        """Return what the proposals for a job share."""
        levels: dict[str, set[Market]] = {}
        for point in job.indexes:
            if given(point.index):
                found = levels.setdefault(point.index, set())
                if given(point.market):
                    found.add(point.market)
        return Years(job, last, effective, {name: frozenset(markets) for name, markets in levels.items()})


def proposed_lines(years: Years, concluded: Mapping[str, Sequence[Valuation]]) -> tuple[LineTreatment, ...]:
    """Return next year's lines, in the order of the items, then of the types of value.

    concluded  the opinions of each item by its id; an item removed this year has none left to carry and is left out
    """
    last_lines = {(one.item, one.value_type): one for one in years.job.treatments}
    split = split_items(years)
    lines = []
    for item in years.job.items:
        if not given(item.id):
            continue
        for valuation in concluded.get(item.id, ()):
            last = last_lines.get((item.id, valuation.value_type))
            if not is_left_out(years.job, item.id, valuation.value_type, last):
                lines.append(_line(years, item, valuation, last, split))
    return tuple(lines)


def is_left_out(job: Job, item: str, value_type: ValueType, last: LineTreatment | None) -> bool:
    """Say whether an opinion has no line next year: removed this year, or expressly not valued."""
    if last is not None and last.treatment is Treatment.REMOVED:
        return True
    return any(one.item == item and one.value_type is value_type and given(one.not_valued) for one in job.opinions)


def removed_items(job: Job) -> dict[str, LineTreatment]:
    """Return the items whose every line was removed this year, with the first of those lines."""
    lines: dict[str, list[LineTreatment]] = {}
    for one in job.treatments:
        if given(one.item):
            lines.setdefault(one.item, []).append(one)
    return {item: all_[0] for item, all_ in lines.items() if all(one.treatment is Treatment.REMOVED for one in all_)}


def split_items(years: Years) -> dict[str, Renaming]:
    """Return the items that a split or join after the last effective date replaces, by their old id."""
    found: dict[str, Renaming] = {}
    for one in _splits(years):
        found.setdefault(str(one.old), one)
    return found


def _line(
    years: Years, item: Item, valuation: Valuation, last: LineTreatment | None, split: Mapping[str, Renaming]
) -> LineTreatment:
    rounded, value = valuation.rounded, valuation.value
    known: dict[str, Any] = {"item": item.id, "value_type": valuation.value_type, "inspected": _seen(item, last)}
    if isinstance(rounded, NoFigure) or isinstance(value, NoFigure):
        reason = f"no value was concluded as of {years.last.isoformat()}; value it afresh"
        return filled(LineTreatment, treatment=Treatment.ADDED, reason=reason, **known)
    held = last is not None and last.treatment is Treatment.HOLD
    known |= {
        "prior_day": last.prior_day if held and last is not None else years.last,
        "prior_value": value.number,
        "prior_rounded": rounded.number,
        "prior_currency": years.job.assignment.currency,
        "prior_value_type": valuation.value_type,
        "prior_market": _market(years.job, valuation.value_type, last),
        "rolled_years": Decimal(rolled_so_far(last)),
    }
    if str(item.id) in split:
        row = split[str(item.id)]
        reason = f"split or joined into {row.new}"
        return filled(LineTreatment, treatment=Treatment.REMOVED, reason=reason, removed_on=row.day, **known)
    treatment, reason, index = _proposal(years, item, last, filled(LineTreatment, **known))
    return filled(LineTreatment, treatment=treatment, reason=reason, index=index, **known)


def rolled_so_far(last: LineTreatment | None) -> int:
    """Return for how many years running a line has been rolled, this one included; a held year neither adds nor ends.

    >>> rolled_so_far(None)
    0
    """
    if last is None or last.treatment not in (*ROLLS, Treatment.HOLD):
        return 0
    return int(value_or(last.rolled_years, Decimal(0))) + (last.treatment in ROLLS)


def _proposal(
    years: Years, item: Item, last: LineTreatment | None, line: LineTreatment
) -> tuple[Treatment, str, str | Missing]:
    """Return the treatment proposed, why, and the index if it is one."""
    terms = years.job.yearly_terms
    if last is not None and last.treatment is Treatment.HOLD:
        why = f" ({last.reason})" if given(last.reason) else ""
        return Treatment.HOLD, f"held last year{why}; settle that, then roll it or value it afresh", BLANK
    rolled = int(value_or(line.rolled_years, Decimal(0)))
    if rolled >= int(value_or(terms.rolled_years, Decimal(ROLLED_YEARS))):
        return Treatment.FRESH, f"rolled {rolled} years running", BLANK
    limit = terms.roll_limit
    if given(limit) and given(line.prior_rounded) and line.prior_rounded > limit:
        return Treatment.FRESH, f"above the limit for rolling, {limit:,f}", BLANK
    index = last.index if last is not None and given(last.index) else item.index
    due = "; inspection is due" if _due(years, line) else ""
    if given(index) and index in years.levels:
        levels = years.levels[index]
        if not levels or line.prior_market in levels:
            return Treatment.INDEX, f"rolled by index {index} once the owner has told of no change{due}", index
        measured = ", ".join(sorted(levels))
        return Treatment.FRESH, f"index {index} measures {measured}, not {line.prior_market}{due}", BLANK
    if last is not None and last.treatment is Treatment.PERCENT:
        return Treatment.PERCENT, f"by percent last year; type this year's and what it rests on{due}", BLANK
    return Treatment.FRESH, f"no index of its market is typed{due}", BLANK


def _due(years: Years, line: LineTreatment) -> bool:
    months = int(value_or(years.job.yearly_terms.inspection_months, _INSPECTION))
    return not given(line.inspected) or years.effective > add_months(line.inspected, months)


def _seen(item: Item, last: LineTreatment | None) -> date | Missing:
    days = [item.inspected_on, BLANK if last is None else last.inspected]
    return max((one for one in days if given(one)), default=BLANK)


def _market(job: Job, value_type: ValueType, last: LineTreatment | None) -> Market | Missing:
    if last is not None and given(last.market):
        return last.market
    if last is not None and given(last.prior_market):
        return last.prior_market
    return next((one.market for one in job.value_terms if one.value_type is value_type), BLANK)


def split_lines(years: Years, lined: Iterable[str | Missing]) -> tuple[LineTreatment, ...]:
    """Return an added line for each item that a split or join brought and that has none yet.

    lined  ids of items with a line
    Such an item has no prior value of its own: that of the old line is removed, and the bridge closes.
    """
    there, seen = {one.id for one in years.job.items}, set(lined)
    types = [one.value_type for one in years.job.value_terms if given(one.value_type)]
    lines = []
    for row in _splits(years):
        if row.new in there and row.new not in seen:
            seen.add(row.new)
            known: dict[str, Any] = {
                "item": row.new,
                "treatment": Treatment.ADDED,
                "reason": f"split or joined from {row.old}",
            }
            lines += [filled(LineTreatment, value_type=one, **known) for one in types]
    return tuple(lines)


def _splits(years: Years) -> list[Renaming]:
    rows = [one for one in years.job.renamings if given(one.old) and given(one.new) and one.old != one.new]
    return [one for one in rows if not (given(one.day) and one.day <= years.last)]
