"""A value moved by an index from one day to another (method rule R8 for values instead of sales)."""

from datetime import date

from appraise.model.figure import Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import FACTOR
from appraise.model.missing import Missing, given
from appraise.model.months import month_text
from appraise.model.operations import QUOTIENT
from appraise.model.place import Place
from appraise.valuing.days import month_of
from appraise.valuing.lookup.indexes import Index, Indexes, Reading
from appraise.valuing.steps.time import index_figure
from appraise.valuing.working import Working


@frozen
class RollCodes:
    """Codes of the findings: no such index; a month before its first point; a month after its last."""

    unknown: str
    before: str
    after: str


@frozen
class Rolled:
    """The factor of a roll, and whether a last index figure was carried on for it."""

    factor: Outcome
    carried: bool


def roll_factor(
    work: Working, indexes: Indexes, name: str | Missing, *, since: date, to: date, place: Place, codes: RollCodes
) -> Rolled:
    """Return index of the month of `to` ÷ index of the month of `since` (figures index_then, index_now, factor)."""
    index = indexes.get(name) if given(name) else None
    if index is None:
        return Rolled(work.refuse("factor", codes.unknown, place, found=name if given(name) else ""), False)
    then, then_carried = _index_at(work, index, "index_then", since, place, codes)
    now, now_carried = _index_at(work, index, "index_now", to, place, codes)
    return Rolled(work.figure("factor", FACTOR, QUOTIENT, now, then), then_carried or now_carried)


def _index_at(
    work: Working, index: Index, name: str, day: date, place: Place, codes: RollCodes
) -> tuple[Outcome, bool]:
    month = month_of(day)
    reading: Reading | None = index.reading(month)
    if reading is None:
        code = codes.before if month < index.first else codes.after
        refusal = work.refuse(
            name,
            code,
            place,
            found=index.id,
            month=month_text(month),
            first=month_text(index.first),
            last=month_text(index.last),
        )
        return refusal, False
    return index_figure(work, name, reading), reading.carried
