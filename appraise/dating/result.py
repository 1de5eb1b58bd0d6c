"""What dating one item gives: statements as computed, the windows, what conflicts, and how it may be explained.

Frozen values only; `window.date_window` makes them, report, checks and proof read them.
"""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.months import Month, Months
from appraise.model.place import Place
from appraise.records.vocabulary import EvidenceKind, EvidenceRole, EvidenceStatus


class Verdict(StrEnum):
    """How the binding statements agree; the value is the short word of cases and records."""

    FIRM = "firm"
    EDGE = "edge"
    CONFLICT = "conflict"

    @property
    def printed(self) -> str:
        """The words of the report (English; other languages by the key)."""
        return _PRINTED[self]


_PRINTED = {
    Verdict.FIRM: "the evidence agrees",
    Verdict.EDGE: "agrees only at its limits",
    Verdict.CONFLICT: "conflicts",
}


class Advice(StrEnum):
    """Patterns an appraiser should think of. Each has a text in the catalogue (`ADVICE_CODES`)."""

    LATE_PART = "late part"
    OLD_STOCK = "old stock"
    TRANSITION = "transition"
    MISREAD = "misread or altered mark"
    COMPOSITE = "composite"
    SEVERAL_READINGS = "several readings"
    IMPOSSIBLE = "impossible by itself"
    LEGAL_MARK = "legal mark"


@frozen
class Reading:
    """One way to read a statement that has several.

    name      short name, unique in its statement: `1966`
    outer     months it does not exclude; `inner` those allowed however narrowly it is read
    unlikely  possible, but against what is usual
    """

    name: str
    outer: Months
    inner: Months
    unlikely: bool = False


@frozen(kw_only=True)
class Statement:
    """One statement of evidence as computed.

    say         what was seen, in the appraiser's words
    words       the date as typed or looked up, for print: `late 1955 to mid 1958`
    role, lag   what the date is the date of; least and most months to completion (most None: open)
    status      only what is not `replaced` binds
    strength    4 to 1 as typed (or lowered, see findings); `rank_strength` is what ranking uses
    outer       months it does not exclude; `inner` those allowed however narrowly the words are read
    readings    its readings where it has several, else empty
    fact        id of the published fact, feature period or serial range it rests on, "" if typed
    cautions    sentences to print with it (of a published fact)
    conventions keys of the conventions for vague words it used (`settings.Conventions.described`)
    """

    id: str
    part: str
    say: str
    kind: EvidenceKind
    source: str
    status: EvidenceStatus
    strength: int
    outer: Months
    inner: Months
    place: Place
    words: str = ""
    role: EvidenceRole = EvidenceRole.WHOLE
    lag: tuple[int, int | None] = (0, None)
    readings: tuple[Reading, ...] = ()
    fact: str = ""
    cautions: tuple[str, ...] = ()
    conventions: frozenset[str] = frozenset()
    photo: str = ""

    @property
    def binding(self) -> bool:
        """Whether it bounds the date: what was replaced or added bounds nothing."""
        return self.status is not EvidenceStatus.REPLACED

    @property
    def rank_strength(self) -> int:
        """Strength used to rank explanations: unverified counts as 1."""
        return 1 if self.status is EvidenceStatus.UNVERIFIED else self.strength


@frozen
class Explanation:
    """A maximal agreeing set of binding statements: what it keeps, what it sets aside, and its window.

    outer, inner  as printed: open above where only the examination bounds
    cost          how many statements of strength 4, 3, 2, 1 it sets aside; compared from the left, fewer is better
    parts         the parts its statements are about, in order: the part group of a composite
    """

    keep: tuple[str, ...]
    set_aside: tuple[str, ...]
    outer: Months
    inner: Months
    cost: tuple[int, int, int, int]
    parts: tuple[str, ...]


@frozen
class Edges:
    """The statements that set each end of a window; empty where the end is open."""

    first: tuple[str, ...] = ()
    last: tuple[str, ...] = ()
    inner_first: tuple[str, ...] = ()
    inner_last: tuple[str, ...] = ()


@frozen
class PartWindow:
    """The window of the statements about one part alone (the examination included)."""

    part: str
    statements: tuple[str, ...]
    outer: Months
    inner: Months


@frozen
class ReadingsLeft:
    """Which readings of a statement with several meet the window of all the evidence, and what dropped the others."""

    left: tuple[str, ...]
    dropped: tuple[str, ...]
    settled_by: tuple[str, ...]


@frozen
class Shown:
    """The one window that may be printed. Provisional: only together with what was set aside."""

    outer: Months
    inner: Months
    provisional: bool
    set_aside: tuple[str, ...]


@frozen(kw_only=True)
class DateWindow:
    """The date of one item.

    examined        month of the examination; it bounds from above but is never printed as an end
    outer, inner    windows of all binding statements; empty where they conflict
    edges           what set the ends of the window shown (of `outer` unless in conflict)
    statements      all statements in the order typed, replaced ones too
    conflicts       minimal conflicts, smallest first, as ids
    more_conflicts  there are more than those listed
    explanations    every maximal agreeing set, best first; one that keeps all where nothing conflicts
    best            the best-ranked explanations; empty where nothing conflicts
    tie             several are equally good: no window may be shown
    shown           the window to print, or None
    later_work      statement id to the month not before which that later work was done
    readings        by id of each binding statement with several readings
    parts           window of each part by itself, in the order of the evidence
    advice          patterns with the ids of the statements they are about
    """

    item: str
    examined: Month
    verdict: Verdict
    outer: Months
    inner: Months
    edges: Edges
    statements: tuple[Statement, ...]
    conflicts: tuple[tuple[str, ...], ...]
    more_conflicts: bool
    explanations: tuple[Explanation, ...]
    best: tuple[Explanation, ...]
    shown: Shown | None
    later_work: Mapping[str, Month]
    readings: Mapping[str, ReadingsLeft]
    parts: tuple[PartWindow, ...]
    advice: tuple[tuple[Advice, tuple[str, ...]], ...]
    findings: tuple[Finding, ...] = field(default=())

    @property
    def tie(self) -> bool:
        """Whether several explanations are equally good."""
        return len(self.best) > 1

    def statement(self, statement_id: str) -> Statement:
        """Return the statement with that id; an unknown id is our own mistake."""
        return next(one for one in self.statements if one.id == statement_id)
