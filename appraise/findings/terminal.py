"""Findings as plain lines of text, and the line that counts them. No colour, no markup: words say everything."""

import textwrap
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence

from appraise.findings.answers import Counts, Judged, Status, answer_key, can_be_answered
from appraise.findings.entries import Severity, action, message
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.tables import Answer

#: From a place to how it is printed: `Sales!F12`.
Where = Callable[[Place], str]

#: From so many on, findings that say the same of cells of one column are told once, with all their cells.
_TOLD_ONCE_FROM = 3
#: Runs of cells named before the rest are only counted.
_RUNS_NAMED = 4


def finding_lines(one: Judged, where: Where, *, width: int | None = None, how_to_answer: bool = False) -> Iterator[str]:
    """Yield the lines of one finding: place, word, code and sentence; below it what to do.

    width          wrap to so many characters; None: do not wrap
    how_to_answer  add the line that says what to type on Answers, for an open stop or warning that can be answered
    """
    yield from _lines_at(where(one.finding.place), one, width, how_to_answer)


def all_lines(
    judged: Iterable[Judged], where: Where, *, width: int | None = None, how_to_answer: bool = False
) -> Iterator[str]:
    """Yield the lines of all findings in the order given.

    Three or more open findings that say the same of cells of one column stand once, where the first of them stands,
    with all their cells: 'Parts!D4 to D25 (22 cells)'.
    """
    everything = list(judged)
    alike: dict[Hashable, list[Judged]] = defaultdict(list)
    for one in everything:
        if one.open and one.lapsed is None and one.finding.place.row and "!" in where(one.finding.place):
            alike[_sameness(one)].append(one)
    for one in everything:
        group = alike.get(_sameness(one), [])
        if len(group) < _TOLD_ONCE_FROM or one not in group:
            yield from finding_lines(one, where, width=width, how_to_answer=how_to_answer)
        elif one is group[0]:
            cells = _cells([each.finding.place for each in group], where)
            yield from _lines_at(cells, one, width, how_to_answer)


def count_line(counts: Counts) -> str:
    """Return the count as a sentence.

    >>> count_line(Counts(stops=1, warnings=2))
    '1 stop, 2 warnings.'
    >>> count_line(Counts(notes=1, released=1, answered=3))
    '1 note. Settled in writing: 1 stop released, 3 answered.'
    >>> count_line(Counts())
    'No findings.'
    """
    still = [
        f"{number} {name}{'' if number == 1 else 's'}"
        for number, name in ((counts.stops, "stop"), (counts.warnings, "warning"), (counts.notes, "note"))
        if number
    ]
    settled = []
    if counts.released:
        settled.append(f"{counts.released} {'stop' if counts.released == 1 else 'stops'} released")
    if counts.answered:
        settled.append(f"{counts.answered} answered")
    if not still and not settled:
        return "No findings."
    line = ", ".join(still) if still else "No open findings"
    return f"{line}. Settled in writing: {', '.join(settled)}." if settled else f"{line}."


def _sameness(one: Judged) -> Hashable:
    place = one.finding.place
    return place.sheet, place.column, message(one.finding), answer_key(one.finding)


def _cells(places: Sequence[Place], where: Where) -> str:
    """Return the cells of one column as runs: `Parts!D4 to D25, D40 (23 cells)`."""
    runs: list[list[Place]] = []
    for place in places:
        if runs and place.row == runs[-1][-1].row + 1:
            runs[-1].append(place)
        else:
            runs.append([place])
    named = []
    for number, run in enumerate(runs[:_RUNS_NAMED]):
        first = where(run[0]) if number == 0 else where(run[0]).rpartition("!")[2]
        named.append(first if len(run) == 1 else f"{first} to {where(run[-1]).rpartition('!')[2]}")
    more = ", ..." if len(runs) > _RUNS_NAMED else ""
    return f"{', '.join(named)}{more} ({len(places)} cells)"


def _lines_at(place: str, one: Judged, width: int | None, how_to_answer: bool) -> Iterator[str]:
    # Beside many cells the text would begin far to the right: then it goes on below, four signs in.
    indent = " " * (len(place) + 2 if len(place) <= 28 else 4)
    yield from _wrapped(f"{place}  {_word(one)}  {one.finding.code}  {message(one.finding)}", indent, width)
    if one.answer is not None:
        yield from _wrapped(f"{indent}{_signed(one.answer)}", indent, width)
        return
    if one.lapsed is not None:
        yield from _wrapped(f"{indent}No longer answered, the value has changed. {_signed(one.lapsed)}", indent, width)
    yield from _wrapped(f"{indent}{action(one.finding)}", indent, width)
    if how_to_answer and can_be_answered(one.finding) and one.severity is not Severity.NOTE:
        key = answer_key(one.finding)
        about = f", about {key.about}" if key.about else ""
        column = f", column key {key.column}" if key.column else ""
        yield from _wrapped(f"{indent}To answer: code {key.code}{about}{column}, mark {key.mark}.", indent, width)


def _word(one: Judged) -> str:
    return one.status.value if one.status in (Status.RELEASED, Status.ANSWERED) else one.severity.word


def _signed(answer: Answer) -> str:
    day = f", {answer.day}" if given(answer.day) else ""
    return f"{answer.initials}{day}: {answer.reason}"


def _wrapped(line: str, indent: str, width: int | None) -> Iterator[str]:
    if width is None or len(line) <= width:
        yield line
        return
    # At least 40 characters beside a long place, or the text would run down the margin word by word.
    room = max(width, len(indent) + 40)
    start = indent if line.startswith(indent) else ""
    yield from textwrap.wrap(
        line[len(start) :],
        room,
        initial_indent=start,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
