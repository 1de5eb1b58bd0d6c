"""One row of evidence on its way to a statement: what is typed, the tables it may refer to, and what was found."""

from collections.abc import Iterable, Mapping
from dataclasses import field, replace

from appraise.dating.dated import Dated, Refused, read_stated, read_use
from appraise.dating.settings import Settings
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, Missing, given
from appraise.model.place import Place
from appraise.records.dating import EVIDENCE, Evidence, FeaturePeriod, SerialRange
from appraise.records.declare import place_of
from appraise.records.items import Item


@frozen
class Tables:
    """The appraiser's periods by id, serial ranges by maker in lower case, and the items the evidence is about."""

    feature_periods: Mapping[str, FeaturePeriod] = field(default_factory=dict)
    serial_ranges: Mapping[str, tuple[SerialRange, ...]] = field(default_factory=dict)
    items: Mapping[str, Item] = field(default_factory=dict)

    def ranges(self, maker: str = "") -> tuple[SerialRange, ...]:
        """Return the serial ranges of a maker, or all."""
        if maker:
            return self.serial_ranges.get(maker.casefold(), ())
        return tuple(one for ranges in self.serial_ranges.values() for one in ranges)


def tables(
    feature_periods: Iterable[FeaturePeriod] = (),
    serial_ranges: Iterable[SerialRange] = (),
    items: Iterable[Item] = (),
) -> Tables:
    """Return the tables for looking things up. Of two rows with one id the first counts (the job's rows)."""
    periods: dict[str, FeaturePeriod] = {}
    for period in feature_periods:
        if given(period.id):
            periods.setdefault(period.id, period)
    known: dict[str, Item] = {}
    for item in items:
        if given(item.id):
            known.setdefault(item.id, item)
    ranges: dict[str, list[SerialRange]] = {}
    for one in serial_ranges:
        ranges.setdefault(text_of(one.maker).casefold(), []).append(one)
    return Tables(periods, {maker: tuple(own) for maker, own in ranges.items()}, known)


@frozen
class Line:
    """One row of evidence with what is needed to read it."""

    evidence: Evidence
    settings: Settings
    tables: Tables

    @property
    def reference(self) -> str:
        """What stands under 'By id', without outer spaces; "" if nothing."""
        return text_of(self.evidence.reference)

    @property
    def typed(self) -> bool:
        """Whether From, To or Date is typed."""
        one = self.evidence
        return any(text_of(words) for words in (one.from_, one.to, one.date))

    def without_reference(self) -> "Line":
        """Return the row with nothing under 'By id'."""
        return replace(self, evidence=replace(self.evidence, reference=BLANK))

    def place(self, column: str) -> Place:
        """Return the place of a column of this row."""
        return place_of(EVIDENCE, self.evidence, column)

    def finding(self, code: str, column: str, found: str = "", **details: object) -> Finding:
        """Return a finding at a column of this row, about the item and the statement."""
        subjects = [text_of(self.evidence.item), text_of(self.evidence.id)]
        return finding(code, self.place(column), *filter(None, subjects), found=found, **details)


@frozen
class Found:
    """What reading one row gave.

    dated     the months, None where the row could not be read (then a finding says why)
    strength  greatest strength what was looked up allows, None if nothing was looked up
    fact      id of what was looked up; `source` and `cautions` are its own
    """

    dated: Dated | None
    findings: tuple[Finding, ...] = ()
    strength: int | None = None
    source: str = ""
    fact: str = ""
    cautions: tuple[str, ...] = ()


def text_of(value: str | Missing) -> str:
    """Return typed text without outer spaces, "" where there is none."""
    return value.strip() if isinstance(value, str) else ""


def read_typed(line: Line) -> Found:
    """Return what From, To or Date say; a finding where nothing, too much or something not on the list is typed."""
    one = line.evidence
    start, end, date = text_of(one.from_), text_of(one.to), text_of(one.date)
    if date and (start or end):
        return Found(None, (line.finding("DAT-10", "date", date),))
    if not (date or start or end):
        unreadable = Missing.UNREADABLE in (one.from_, one.to, one.date)
        return Found(None, () if unreadable else (line.finding("DAT-09", "date"),))
    read = read_stated(date, line.settings) if date else read_use(start, end, line.settings)
    if not isinstance(read, Dated):
        return Found(None, tuple(refused(line, one) for one in read))
    return Found(read, (*asked(line, read), *reversed_use(line, read, start, end)))


def refused(line: Line, one: Refused) -> Finding:
    """Return the finding for a wording that is not on the list."""
    near = "; ".join(one.refusal.near)
    return line.finding("DAT-01", one.column, one.refusal.text, reason=one.refusal.reason, near=near)


def asked(line: Line, read: Dated) -> list[Finding]:
    """Return the findings that ask what is meant."""
    return [
        line.finding(one.code, one.column, one.text, options="; ".join(one.options), months=read.outer.edtf())
        for one in read.questions
    ]


def reversed_use(line: Line, read: Dated, start: str, end: str) -> list[Finding]:
    """Return the finding for a period of use that ends before it begins."""
    return [line.finding("DAT-11", "to", end, start=start)] if start and end and not read.outer else []
