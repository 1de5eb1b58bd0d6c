"""Schedules of earlier years, as the records beside their reports tell them, and what becomes of them in a chart."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.kinds import typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import SUM
from appraise.model.place import Place
from appraise.records.declare import place_of
from appraise.records.job import Job
from appraise.records.vocabulary import Treatment, ValueType
from appraise.records.yearly import TREATMENTS
from appraise.valuing.codes import CODES

#: Years shown in a history: common practice, no source.
YEARS_SHOWN = 5


@frozen
class PastValue:
    """One value of a record; value types are the words of the workbook."""

    item: str
    value_type: str
    family: str
    value: Decimal
    rounded: Decimal


@frozen
class PastSchedule:
    """One record.

    file    its name
    edited  its digest does not match its content
    """

    file: str
    day: date
    currency: str
    values: tuple[PastValue, ...]
    edited: bool = False

    def total(self, value_type: str, family: str | None = None) -> Decimal | None:
        """Return the sum of the rounded values of one type, of one family if it is named; None without a value."""
        amounts = [one.rounded for one in self.values if one.value_type == value_type and family in (None, one.family)]
        return sum(amounts, Decimal(0)) if amounts else None


@frozen
class Histories:
    """The records found, by day, and what is wrong with some; `unreadable` are file names with the reason."""

    schedules: tuple[PastSchedule, ...] = ()
    unreadable: Mapping[str, str] = field(default_factory=dict)


def before(histories: Histories, effective: date, currency: str) -> tuple[PastSchedule, ...]:
    """Return the schedules that may stand beside this year's: intact, earlier, in its currency, the last of each day.

    At most `YEARS_SHOWN` less one, the latest.
    """
    fit: dict[date, PastSchedule] = {}
    for one in histories.schedules:
        if not one.edited and one.day < effective and one.currency == currency:
            fit[one.day] = one
    return tuple(fit[day] for day in sorted(fit))[-(YEARS_SHOWN - 1) :]


def history_findings(job: Job, histories: Histories) -> tuple[Finding, ...]:
    """Return what is to be said of the records of a yearly job: one missing, edited, unreadable, or of other values."""
    terms, day = job.yearly_terms, job.yearly_terms.prior_day
    place = Place("Yearly terms", terms.row, "prior_day")
    found = [
        finding("YRL-48", place, found=name, reason=reason) for name, reason in sorted(histories.unreadable.items())
    ]
    found += [finding("YRL-46", place, found=one.file) for one in histories.schedules if one.edited]
    if not given(day) or not job.treatments:
        return tuple(found)
    of_day = [one for one in histories.schedules if one.day == day and not one.edited]
    if not of_day:
        return (*found, finding("YRL-45", place, found=day.isoformat()))
    return (*found, *_differences(job, of_day[-1]))


def _differences(job: Job, record: PastSchedule) -> Iterable[Finding]:
    """Yield a finding for each line whose prior value is not what the record says; held lines have an older one."""
    known = {(one.item, one.value_type): one for one in record.values}
    for line in job.treatments:
        then = line.prior_value_type if given(line.prior_value_type) else line.value_type
        past = known.get((str(line.item), str(then)))
        if past is None or line.treatment is Treatment.ADDED or not given(line.item):
            continue
        if given(line.prior_currency) and line.prior_currency != record.currency:
            continue
        for key, recorded in (("prior_value", past.value), ("prior_rounded", past.rounded)):
            typed = getattr(line, key)
            if given(typed) and typed != recorded:
                place = place_of(TREATMENTS, line, key)
                yield finding(
                    "YRL-47", place, line.item, found=f"{typed:f}", recorded=f"{recorded:f}", file=record.file
                )


def past_totals(
    ledger: Ledger, past: Sequence[PastSchedule], value_types: Iterable[ValueType]
) -> dict[tuple[date, ValueType], Figure]:
    """Return the totals of earlier years by day and type of value, worked out from the values in their records.

    A year without a value of that type has none. Ids: `schedule.rrv.past_2024-06-30.total`.
    """
    found: dict[tuple[date, ValueType], Figure] = {}
    for value_type in value_types:
        for one in past:
            under = ledger.under(CODES[value_type]).under(f"past_{one.day.isoformat()}")
            cash = typed_money(one.currency)
            amounts = [
                under.typed(f"value{number}", value.rounded, Place(one.file), kind=cash)
                for number, value in enumerate(one.values, start=1)
                if value.value_type == str(value_type)
            ]
            total = under.figure("total", cash, SUM, *amounts) if amounts else None
            if isinstance(total, Figure):
                found[one.day, value_type] = total
    return found


def series(past: Sequence[PastSchedule], value_type: str, families: Iterable[str]) -> dict[str, list[Decimal | None]]:
    """Return a row of totals for each family, None in a year without it."""
    return {family: [one.total(value_type, family) for one in past] for family in families}
