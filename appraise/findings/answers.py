"""Written answers to findings: which finding each answers, and whether it still holds.

An answer is keyed by code, ids, column and the mark of the value found. If the value changes the answer lapses and
says so; nothing is answered by accident.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from enum import StrEnum

from appraise.findings.entries import Severity, entry_of, value_mark
from appraise.findings.order import in_order
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.tables import ANSWERS, Answer

SEPARATOR = "; "


class Status(StrEnum):
    """Where a finding stands."""

    OPEN = "open"
    #: A stop contrary to practice, released by a written reason with initials and date; it is always printed.
    RELEASED = "released"
    #: A warning or a note answered in writing.
    ANSWERED = "answered"
    #: There was an answer, but the value has changed since; open again.
    LAPSED = "lapsed"


@frozen
class AnswerKey:
    """What is typed on Answers to answer a finding: code, ids, column key and the mark of the value found."""

    code: str
    about: str
    column: str
    mark: str


@frozen
class Judged:
    """A finding with where it stands.

    answer  the answer that holds; None while it is open or lapsed
    lapsed  the answer that no longer holds, if the finding is lapsed
    """

    finding: Finding
    status: Status
    answer: Answer | None = None
    lapsed: Answer | None = None

    @property
    def severity(self) -> Severity:
        """Severity of the finding."""
        return entry_of(self.finding).severity

    @property
    def open(self) -> bool:
        """Whether it is not answered, or no longer."""
        return self.status in (Status.OPEN, Status.LAPSED)

    @property
    def stops(self) -> bool:
        """Whether it keeps a report from being final."""
        return self.open and self.severity.stops


@frozen
class Counts:
    """How many findings there are of each kind: open stops, warnings and notes, and those settled in writing."""

    stops: int = 0
    warnings: int = 0
    notes: int = 0
    released: int = 0
    answered: int = 0


def answer_key(one: Finding) -> AnswerKey:
    """Return what is typed on Answers to answer a finding."""
    return AnswerKey(one.code, SEPARATOR.join(one.subjects), one.place.column, value_mark(one))


def can_be_answered(one: Finding) -> bool:
    """Say whether a finding can be settled in writing; what is impossible never is."""
    return entry_of(one).severity is not Severity.IMPOSSIBLE


def judge(findings: Iterable[Finding], answers: Sequence[Answer]) -> list[Judged]:
    """Return every finding once with where it stands, and the findings about the answers, sorted by place.

    An answer without reason, initials or date counts for nothing (the reader says what is blank). Of two answers
    with one key the later row holds. No findings and no answers: an empty list.
    """
    complete = [one for one in answers if _complete(one)]
    holding = {_key(answer): answer for answer in complete}
    used: set[int] = set()
    judged: list[Judged] = []
    waiting: list[Finding] = []
    for one in dict.fromkeys(findings):
        answer = holding.get(_parts(answer_key(one)))
        if answer is None:
            waiting.append(one)
        else:
            used.add(answer.row)
            judged.extend(_settled(one, answer))
    older = _by_loose_key(answer for answer in holding.values() if answer.row not in used)
    for one in waiting:
        left = older.get(_parts(answer_key(one))[:3], [])
        judged.extend(_lapsed(one, left.pop()) if left else [Judged(one, Status.OPEN)])
    for answer in complete:
        if holding[_key(answer)] is not answer:
            judged.append(_about_answer("ANS-04", answer))
    for unused in older.values():
        judged.extend(_about_answer("ANS-02", answer) for answer in unused)
    place = {one: position for position, one in enumerate(in_order(each.finding for each in judged))}
    return sorted(judged, key=lambda each: place[each.finding])


def counted(judged: Iterable[Judged]) -> Counts:
    """Return how many findings there are of each kind."""
    stops = warnings = notes = released = answered = 0
    for one in judged:
        if one.status is Status.RELEASED:
            released += 1
        elif one.status is Status.ANSWERED:
            answered += 1
        elif one.severity.stops:
            stops += 1
        elif one.severity is Severity.WARN:
            warnings += 1
        else:
            notes += 1
    return Counts(stops, warnings, notes, released, answered)


def _complete(one: Answer) -> bool:
    return all(given(value) for value in (one.code, one.found_mark, one.reason, one.initials, one.day))


def _key(one: Answer) -> tuple[str, str, str, str]:
    about = one.subjects if given(one.subjects) else ""
    column = one.column_key if given(one.column_key) else ""
    return _parts(AnswerKey(str(one.code), about, column, str(one.found_mark)))


def _parts(key: AnswerKey) -> tuple[str, str, str, str]:
    """A key as compared: spaces and case do not matter, except in ids."""
    about = SEPARATOR.join(part.strip() for part in key.about.split(";") if part.strip())
    return key.code.strip().upper(), about, key.column.strip().lower(), key.mark.strip().lower()


def _by_loose_key(answers: Iterable[Answer]) -> dict[tuple[str, ...], list[Answer]]:
    """Answers by all of the key but the mark."""
    found: dict[tuple[str, ...], list[Answer]] = defaultdict(list)
    for answer in answers:
        found[_key(answer)[:3]].append(answer)
    return found


def _settled(one: Finding, answer: Answer) -> list[Judged]:
    """The finding with its answer; one that cannot be answered stays open, and the answer is pointed out."""
    severity = entry_of(one).severity
    if not can_be_answered(one):
        return [Judged(one, Status.OPEN), _about_answer("ANS-03", answer)]
    return [Judged(one, Status.RELEASED if severity.stops else Status.ANSWERED, answer)]


def _lapsed(one: Finding, answer: Answer) -> list[Judged]:
    """The finding whose answer was given for another value, and what is to be said of that answer."""
    if not can_be_answered(one):
        return [Judged(one, Status.OPEN), _about_answer("ANS-03", answer)]
    changed = _about_answer("ANS-01", answer, mark=value_mark(one), value=one.found or "nothing")
    return [Judged(one, Status.LAPSED, lapsed=answer), changed]


def _about_answer(code: str, answer: Answer, **details: str) -> Judged:
    key = "found_mark" if code == "ANS-01" else "code"
    subjects = str(answer.subjects) if given(answer.subjects) else ""
    about = (str(answer.code), *(part.strip() for part in subjects.split(";") if part.strip()))
    found = str(getattr(answer, key))
    return Judged(finding(code, place_of(ANSWERS, answer, key), *about, found=found, **details), Status.OPEN)
