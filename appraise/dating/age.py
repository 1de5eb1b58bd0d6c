"""Whether an object is old enough, on the unfavourable end of its window.

Used for "antique" (so many years on a day) and for materials listed from a day on. The answer is about the window
of manufacture only. It is no statement of law: what a rule asks beyond age (repairs, documents, permits) is for the
local rule and a licensed adviser.
"""

from calendar import monthrange
from datetime import date
from enum import StrEnum

from appraise.dating.result import DateWindow, Verdict
from appraise.model.frozen import frozen
from appraise.model.months import ALL_MONTHS, Month, Months, month_number


class Established(StrEnum):
    """What the window says."""

    YES = "established"
    NO = "not met"
    UNCERTAIN = "not established"


@frozen
class AgeAnswer:
    """The answer with what it rests on.

    deciding    the unfavourable end that decided, None where nothing bounds it but the examination
    cutoff      last month in which completion would satisfy the test
    later_work  ids of statements that date later work: a part added after the cut-off may undo the answer
    reason      key: `window`, `across the cut-off`, `conflict`, `no evidence`, `later than the cut-off`
    """

    answer: Established
    cutoff: Month
    deciding: Month | None
    reason: str
    later_work: tuple[str, ...]


def at_least_years_old(window: DateWindow, years: int, day: date) -> AgeAnswer:
    """Return whether the object is at least `years` years old on `day`.

    Completed within a month counts as completed on its last day for "established" and on its first for "not met":
    the month `years` years ago is surely old enough only if `day` has reached its last day.
    """
    month = month_number(day.year, day.month) - 12 * years
    reached = day.day >= monthrange(day.year - years, day.month)[1]
    return _answer(window, month if reached else month - 1, month)


def completed_before(window: DateWindow, day: date) -> AgeAnswer:
    """Return whether the object was completed before `day`, for example the day a species was listed.

    An object completed later may still hold older material, which its window cannot show: then "not established",
    never "not met".
    """
    month = month_number(day.year, day.month)
    answer = _answer(window, month - 1, month if day.day > 1 else month - 1)
    if answer.answer is not Established.NO:
        return answer
    return AgeAnswer(Established.UNCERTAIN, answer.cutoff, answer.deciding, answer.reason, answer.later_work)


def _answer(window: DateWindow, surely: Month, perhaps: Month) -> AgeAnswer:
    """Return the answer from the last month that surely satisfies the test and the last that perhaps does."""
    later = tuple(one for one, first in window.later_work.items() if first > surely)
    if window.outer == ALL_MONTHS:
        return AgeAnswer(Established.UNCERTAIN, surely, None, "no evidence", later)
    possible = _possible(window)
    last = possible.last
    reason = "conflict" if window.verdict is Verdict.CONFLICT else "window"
    if last is not None and last <= surely:
        return AgeAnswer(Established.YES, surely, last, reason, later)
    first = possible.first
    if first is not None and first > perhaps:
        return AgeAnswer(Established.NO, surely, first, "later than the cut-off", later)
    return AgeAnswer(Established.UNCERTAIN, surely, last, "across the cut-off" if reason == "window" else reason, later)


def _possible(window: DateWindow) -> Months:
    """Return every month some explanation allows: where the evidence conflicts the answer must hold in all of them."""
    return Months.of(run for one in window.explanations for run in one.outer.runs)
