"""From the typed words of one statement to its outer and inner months: period of use or stated date, role, lag."""

from functools import lru_cache

from appraise.dating.result import Reading
from appraise.dating.settings import Settings
from appraise.dating.wordings import Bound, Refusal, read_end, read_start, read_wording, union, use_months
from appraise.model.frozen import frozen
from appraise.model.months import NO_MONTHS, Month, Months
from appraise.records.vocabulary import EvidenceRole

#: Least and most months between the dated part or event and completion; most None is open.
Lag = tuple[int, int | None]
OPEN_LAG: Lag = (0, None)


@frozen
class Question:
    """What is to be asked about a wording that can mean two things."""

    column: str
    code: str
    text: str
    options: tuple[str, ...]


@frozen
class Refused:
    """A wording that was refused, with the column it stands in."""

    column: str
    refusal: Refusal


@frozen
class Dated:
    """What the words of a statement say: months, readings if it has several, and what is to be asked."""

    outer: Months
    inner: Months
    words: str
    readings: tuple[Reading, ...] = ()
    questions: tuple[Question, ...] = ()
    uses: frozenset[str] = frozenset()


@lru_cache(maxsize=8192)
def read_use(start: str, end: str, settings: Settings) -> Dated | tuple[Refused, ...]:
    """Return the months of a period of use typed as start and end, either of which may be empty text.

    An end before the start gives a statement that no month allows.
    """
    first = read_start(start, settings) if start else None
    last = read_end(end, settings) if end else None
    refused = [Refused(column, one) for column, one in (("from_", first), ("to", last)) if isinstance(one, Refusal)]
    if refused:
        return tuple(refused)
    assert not isinstance(first, Refusal) and not isinstance(last, Refusal)
    questions = [
        Question(column, one.question, text, one.options)
        for column, one, text in (("from_", first, start), ("to", last, end))
        if one and one.question
    ]
    words = f"from {start} to {end}" if start and end else f"from {start}" if start else f"to {end}"
    return Dated(*use_months(first, last), words, (), tuple(questions), _uses(first) | _uses(last))


def _uses(bound: Bound | None) -> frozenset[str]:
    return bound.uses if bound else frozenset()


def read_stated(date: str, settings: Settings) -> Dated | tuple[Refused, ...]:
    """Return the months of a date stated for the thing itself."""
    read = read_wording(date, settings)
    if isinstance(read, Refusal):
        return (Refused("date", read),)
    questions = (Question("date", read.question, date, read.options),) if read.question else ()
    return Dated(read.outer, read.core, date, read.readings, questions, read.uses)


def with_role(dated: Dated, role: EvidenceRole, lag: Lag) -> Dated:
    """Return what the date says about the completion of the object; for a statement with several readings each."""
    if role is EvidenceRole.WHOLE:
        return dated
    readings = tuple(
        Reading(one.name, *by_role(one.outer, one.inner, role, lag), one.unlikely) for one in dated.readings
    )
    outer, inner = union(readings) if readings else by_role(dated.outer, dated.inner, role, lag)
    return Dated(outer, inner, dated.words, readings, dated.questions, dated.uses)


def of_readings(readings: tuple[Reading, ...], words: str, uses: frozenset[str] = frozenset()) -> Dated:
    """Return a statement with alternatives: their unions."""
    return Dated(*union(readings), words, readings if len(readings) > 1 else (), (), uses)


def by_role(outer: Months, core: Months, role: EvidenceRole, lag: Lag) -> tuple[Months, Months]:
    """Return outer and inner months of completion from the months of a dated part or of a later event.

    With P the outer months of the wording, p1 its first and p2 its last:
    part   outer p1 + least ... p2 + most    inner p2 + least ... p1 + most
    after  outer p1 - most ... p2 - least    inner p2 - most ... p1 - least
    Where P has several runs the outer set keeps them apart. A date of the object itself ignores the lag.
    """
    if role is EvidenceRole.WHOLE or not outer:
        return outer, core
    least, most = lag
    # An event after completion is a part made before it, seen with time running backwards.
    nearer, further = (least, most) if role is EvidenceRole.PART else (None if most is None else -most, -least)
    moved = [Months.between(_plus(run.first, nearer), _plus(run.last, further)) for run in outer.runs]
    months = Months.of(run for one in moved for run in one.runs)
    if role is EvidenceRole.PART:
        return months, _narrow(outer.last, least, outer.first, most)
    narrow = _narrow(_minus(outer.first), least, _minus(outer.last), most)
    return months, _mirrored(narrow)


def _narrow(latest: Month | None, least: int, earliest: Month | None, most: int | None) -> Months:
    """Return `latest` + least ... `earliest` + most; an unknown `latest` leaves nothing certain."""
    if latest is None or (most is not None and earliest is None):
        return NO_MONTHS
    return Months.between(latest + least, None if most is None or earliest is None else earliest + most)


def _mirrored(months: Months) -> Months:
    return Months.of(run for one in months.runs for run in Months.between(_minus(one.last), _minus(one.first)).runs)


def _plus(month: Month | None, months: int | None) -> Month | None:
    return None if month is None or months is None else month + months


def _minus(month: Month | None) -> Month | None:
    return None if month is None else -month
