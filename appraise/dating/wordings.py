"""Dates of manufacture in words, read into months: the closed list, and a refusal for everything else.

Three readers for three columns: `read_wording` for a date stated for the thing itself, `read_start` and `read_end`
for a period of use. None of them guesses: what is not on the list is refused with the nearest accepted wordings,
and what can mean two things is read at its widest with a question to ask.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache

from appraise.dating.nearest import nearest_wordings
from appraise.dating.periods import Period, read_period
from appraise.dating.result import Reading
from appraise.dating.settings import Settings
from appraise.model.frozen import frozen
from appraise.model.months import NO_MONTHS, Month, Months


@frozen
class Wording:
    """A date in words as months.

    outer      months it may mean at its widest; `core` at its narrowest (empty: none for certain)
    readings   the alternatives of an `or` list, else empty
    question   code of the finding that asks what is meant, "" if nothing is to be asked; `options` answer it
    uses       keys of the conventions it rests on (see `conventions`)
    """

    text: str
    outer: Months
    core: Months
    readings: tuple[Reading, ...] = ()
    question: str = ""
    options: tuple[str, ...] = ()
    uses: frozenset[str] = frozenset()


@frozen
class Bound:
    """A start or an end of a period of use: first and last month in which it may fall; None: no bound at all."""

    first: Month | None
    last: Month | None
    question: str = ""
    options: tuple[str, ...] = ()
    uses: frozenset[str] = frozenset()


@frozen
class Refusal:
    """A wording that is not on the list, with the reason and the nearest wordings that are."""

    text: str
    reason: str
    near: tuple[str, ...]


_NO_SUCH = "this wording is not on the list"
_REVERSED = "it ends before it begins"

#: Words before a date, longest first; each names how the bound is made.
_BEFORE = {
    "start": ("not before", "not earlier than", "no earlier than"),
    "later than": ("after", "post"),
    "from": ("from", "since", "beginning in"),
    "earlier than": ("before", "prior to", "pre"),
    "through": ("not later than", "no later than", "not after", "up to and including", "through", "by"),
    "until": ("until", "till", "up to", "to"),
}
_BEHIND = {
    "from": ("or later", "or after", "and later", "and after", "onwards", "onward", "on"),
    "to": ("or earlier", "or before", "and earlier", "and before"),
    "through": ("inclusive",),
}
_STARTS = frozenset({"start", "later than", "from"})
_PRESENT = re.compile(r"(?:to |until |up to |- ?)?(?:the )?(?:present|present day|date|now)")
_TO_PRESENT = re.compile(r"(?:from |since )?(?P<a>.+?)(?: ?- ?| to | until )(?:the )?(?:present|present day|date|now)")


def _words(table: dict[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    return sorted(((word, kind) for kind, words in table.items() for word in words), key=lambda one: -len(one[0]))


_PREFIXES = _words(_BEFORE)
_SUFFIXES = _words(_BEHIND)


def normalised(text: str) -> str:
    """Return the wording in lower case with plain dashes, apostrophes and single spaces.

    >>> normalised("  Mid–1950’s ")
    "mid-1950's"
    """
    text = re.sub(r"[\u2010-\u2015\u2212]", "-", text)
    text = re.sub(r"[\u2018\u2019\u00b4\u02bc`]", "'", text)
    return " ".join(text.split()).casefold().removesuffix(",").removesuffix(";")


@lru_cache(maxsize=8192)
def read_wording(text: str, settings: Settings) -> Wording | Refusal:
    """Return the months a date in words may mean, or a refusal with the nearest accepted wordings.

    Blank text is refused too: the caller knows whether something must stand there.

    >>> from appraise.model.months import month_number
    >>> read_wording("c. 1960", Settings(month_number(2026, 11))).outer.edtf()
    '1955-01/1965-12'
    """
    words = normalised(text)
    listed = _read_alternatives(words, settings) if " or " in words else None
    found = listed or _read_one(words, settings)
    if isinstance(found, Wording):
        return replace(found, text=text.strip())
    near = nearest_wordings(words, settings, lambda one: isinstance(_read_one(one, settings), Wording))
    return Refusal(text.strip(), found or _NO_SUCH, near)


@lru_cache(maxsize=8192)
def read_start(text: str, settings: Settings) -> Bound | Refusal:
    """Return the months in which a period of use may start, or a refusal.

    `late 1955`: it came in at some time in it. `after 1957`: with January 1958. `not before 1957`: with January 1957.
    """
    return _read_bound(text, settings, starts=True)


@lru_cache(maxsize=8192)
def read_end(text: str, settings: Settings) -> Bound | Refusal:
    """Return the months in which a period of use may end, or a refusal.

    `1965`: at some time in it. `until 1965`: December 1964 to December 1965, as the year may be in or out.
    `through 1965`: with December 1965. `before 1965`: with December 1964. `to present`: no bound.
    """
    return _read_bound(text, settings, starts=False)


def _read_bound(text: str, settings: Settings, *, starts: bool) -> Bound | Refusal:
    words = normalised(text)
    if not starts and _PRESENT.fullmatch(words):
        return Bound(None, None)
    found = _split_bound(words, settings)
    if found and (found[0] in _STARTS) is starts:
        return _bound(found[0], found[1])
    period = None if found else _read_span(words, settings, said=False)
    if isinstance(period, Period):
        return _bound("from" if starts else "to", period)
    listed = read_wording(text, settings) if " or " in words else None
    if isinstance(listed, Wording) and listed.readings and listed.outer.first is not None:
        return Bound(listed.outer.first, listed.outer.last, uses=listed.uses)
    if found:
        reason = "it bounds the wrong end: a start stands in From, an end in To"
        return Refusal(text.strip(), reason, nearest_wordings(_without_bound(words), settings, _always))
    near = nearest_wordings(words, settings, lambda one: isinstance(_read_one(one, settings), Wording))
    return Refusal(text.strip(), period or _NO_SUCH, near)


def _always(words: str) -> bool:
    return True


def _bound(kind: str, period: Period) -> Bound:
    """Return the months in which the start or end may fall that `kind` makes of the period."""
    first, last = {
        "start": period.start,
        "later than": (period.end[0] + 1, period.end[1] + 1),
        "from": (period.start[0], period.end[1]),
        "to": (period.start[0], period.end[1]),
        "earlier than": (period.start[0] - 1, period.start[1] - 1),
        "through": period.end,
        "until": (period.start[0] - 1, period.end[1]),
    }[kind]
    uses = period.uses | ({"until"} if kind == "until" else frozenset())
    return Bound(first, last, period.question, period.options, uses)


def _split_bound(words: str, settings: Settings) -> tuple[str, Period] | None:
    """Return what `before`, `until`, `or later` and the like make of the period they stand with, if they do."""
    for word, kind in _PREFIXES:
        if words.startswith(word) and len(words) > len(word) and words[len(word)] in " -":
            rest = words[len(word) :].lstrip(" -")
            for behind in _BEHIND["from"] if kind == "from" else ():
                rest = rest.removesuffix(" " + behind)
            period = _read_span(rest, settings, said=False)
            if isinstance(period, Period):
                return kind, period
    for word, kind in _SUFFIXES:
        if words.endswith(" " + word):
            period = _read_span(words.removesuffix(word).rstrip(" ,"), settings, said=False)
            if isinstance(period, Period):
                return kind, period
    return _edtf_open(words, settings)


def _edtf_open(words: str, settings: Settings) -> tuple[str, Period] | None:
    """Read `1958-01/..` and `../1964-12` (ISO 8601-2), the way windows are printed."""
    if words.endswith("/.."):
        period = _edtf_date(words.removesuffix("/.."), settings)
        return ("start", period) if period else None
    if words.startswith("../"):
        period = _edtf_date(words.removeprefix("../"), settings)
        return ("through", period) if period else None
    return None


_EDTF_DATE = re.compile(r"\d{4}|\d{4}-\d\d|\d{4}-\d\d-\d\d")


def _edtf_date(words: str, settings: Settings) -> Period | None:
    """Read year, year and month, or day. Within an interval of the standard `1905-06` is a month and nothing else."""
    if not _EDTF_DATE.fullmatch(words):
        return None
    whole_day = f"{words}-01" if len(words) == 7 else words
    return read_period(whole_day, settings)


def _without_bound(words: str) -> str:
    for word, _ in _PREFIXES:
        if words.startswith(word):
            return words.removeprefix(word).lstrip(" -")
    for word, _ in _SUFFIXES:
        if words.endswith(word):
            return words.removesuffix(word).rstrip()
    return words


def _read_span(words: str, settings: Settings, *, said: bool = True) -> Period | str | None:
    """Return a period or a range of two, the reason why a range is impossible, or None.

    said  whether ranges made with words (`1957 to 1959`) are read; beside `from` and `until` they are not, as
          `from 1957 to 1959` is a start and an end
    """
    period = read_period(words.removeprefix("the "), settings)
    if period:
        return period
    for first, second, read in _splits(words, said):
        a, b = read(first, settings), read(second, settings)
        if a and b:
            return _range(a, b)
    return None


def _splits(words: str, said: bool) -> Iterator[tuple[str, str, Callable[[str, Settings], Period | None]]]:
    """Yield the ways to split a range, with the reader of its two ends; `said` allows those made with words."""
    if words.count("/") == 1:
        first, second = words.split("/")
        yield first.strip(), second.strip(), _edtf_date
    between = re.fullmatch(r"between (.+?) and (.+)", words) if said else None
    if between:
        yield between[1], between[2], read_period
    for mark in (" to ", " through ", " - ", "-") if said else (" - ", "-"):
        parts = words.split(mark)
        if len(parts) == 2:
            yield parts[0].strip(), parts[1].strip(), read_period


def _range(a: Period, b: Period) -> Period | str:
    """Return the period from the start of one to the end of another."""
    if b.end[1] < a.start[0] or b.start[0] < a.start[0]:
        return _REVERSED
    known = a.core and b.core and a.core.first is not None and b.core.last is not None
    core = Months.between(a.core.first, b.core.last) if known else NO_MONTHS
    question = a.question or b.question
    options = a.options or b.options
    return Period(Months.between(a.start[0], b.end[1]), core, a.start, b.end, question, options, a.uses | b.uses)


def _read_one(words: str, settings: Settings) -> Wording | str | None:
    """Return a date without alternatives, the reason why it is impossible, or None if it is not on the list."""
    span = _read_span(words, settings)
    if isinstance(span, str):
        return span
    if span:
        return Wording(words, span.outer, span.core, (), span.question, span.options, span.uses)
    use = _read_use(words, settings)
    if use:
        return use
    bound = _split_bound(words, settings)
    if bound:
        return _bounded(words, bound[0] in _STARTS, _bound(*bound))
    present = _TO_PRESENT.fullmatch(words)
    if present:
        start = _read_span(present["a"], settings)
        return _bounded(words, True, _bound("from", start)) if isinstance(start, Period) else start
    return None


def _bounded(words: str, starts: bool, bound: Bound) -> Wording:
    if starts:
        outer, core = Months.between(bound.first, None), Months.between(bound.last, None)
    else:
        outer, core = Months.between(None, bound.last), Months.between(None, bound.first)
    return Wording(words, outer, core, (), bound.question, bound.options, bound.uses)


_END_MARKS = {" to ": "to", " until ": "until", " through ": "through"}


def _read_use(words: str, settings: Settings) -> Wording | str | None:
    """Read `from 1957 to 1959` and `after 1957 and before 1960`: a start and an end, each with its own vagueness."""
    for mark in (" to ", " until ", " through ", " and ", " but ", ", "):
        first, found, second = words.partition(mark)
        if not found:
            continue
        start = _split_bound(first, settings)
        end = _split_bound(second, settings)
        if end is None and mark in (" to ", " until ", " through "):
            period = _read_span(second, settings)
            end = (
                ({" to ": "to", " until ": "until", " through ": "through"}[mark], period)
                if isinstance(period, Period)
                else None
            )
        if start and end and start[0] in _STARTS and end[0] not in _STARTS:
            months = use_months(_bound(*start), _bound(*end))
            question = start[1].question or end[1].question
            options = start[1].options or end[1].options
            uses = start[1].uses | end[1].uses
            return Wording(words, *months, (), question, options, uses) if months[0] else _REVERSED
    return None


def use_months(start: Bound | None, end: Bound | None) -> tuple[Months, Months]:
    """Return outer and inner months of a period of use; either end may be missing.

    Outer: from the first month the start may mean to the last month the end may mean. Inner: from the last month
    the start may mean to the first month the end may mean; may be empty.
    """
    outer = Months.between(start.first if start else None, end.last if end else None)
    inner = Months.between(start.last if start else None, end.first if end else None)
    return outer, inner


def _read_alternatives(words: str, settings: Settings) -> Wording | None:
    """Read `1957 or 1963`, `1957, 1960 or 1963`: several readings of one statement."""
    parts = [part.strip() for part in re.split(r",? or |, ", words)]
    if len(parts) < 2 or len(set(parts)) != len(parts):
        return None
    read = [_read_one(part, settings) for part in parts]
    known = [one for one in read if isinstance(one, Wording)]
    if len(known) != len(read):
        return None
    readings = tuple(Reading(part, one.outer, one.core) for part, one in zip(parts, known, strict=True))
    question = next((one.question for one in known if one.question), "")
    options = next((one.options for one in known if one.question), ())
    uses = frozenset(use for one in known for use in one.uses)
    return Wording(words, *union(readings), readings, question, options, uses)


def union(readings: tuple[Reading, ...]) -> tuple[Months, Months]:
    """Return outer and inner months of a statement with several readings."""
    outer = Months.of(run for one in readings for run in one.outer.runs)
    inner = Months.of(run for one in readings for run in one.inner.runs)
    return outer, inner


@frozen
class Convention:
    """How one vague word is read, shown on an example, for print."""

    key: str
    example: str
    outer: str
    core: str


_EXAMPLES = {
    "early year": "early 1959",
    "mid year": "mid 1959",
    "late year": "late 1959",
    "early decade": "early 1950s",
    "mid decade": "mid 1950s",
    "late decade": "late 1950s",
    "half year": "first half of 1958",
    "quarter": "second quarter of 1959",
    "spring": "spring 1959",
    "summer": "summer 1959",
    "autumn": "autumn 1959",
    "winter": "winter 1959-60",
    "circa": "c. 1960",
    "century": "19th century",
    "week": "week 12 of 1962",
    "until": "until 1965",
    "two-figure year": "'57",
}


def conventions(settings: Settings) -> tuple[Convention, ...]:
    """Return every convention for vague words, each computed on an example by the reader itself."""
    found = []
    for key, example in _EXAMPLES.items():
        read = read_wording(example, settings)
        if isinstance(read, Wording):
            found.append(Convention(key, example, read.outer.edtf(), read.core.edtf()))
    return tuple(found)
