"""What the report is made from. Every part is given; nothing here reads a file or asks for the day."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from datetime import date
from pathlib import Path
from typing import BinaryIO

from appraise.checks.elements import ElementState
from appraise.dating.result import DateWindow
from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.records.items import Item
from appraise.records.job import Job
from appraise.records.tables import Answer
from appraise.records.vocabulary import ValueType
from appraise.schedule.history import PastSchedule
from appraise.schedule.of_job import Revaluation
from appraise.valuing.result import Valuation
from appraise.valuing.use_results import UseResults


@frozen
class ItemResult:
    """One item with its window, its opinions in the order of the job's value types, and its findings.

    bridge  the steps between its first two values (`sums.bridge`), empty if it has only one
    """

    item: Item
    window: DateWindow
    valuations: tuple[Valuation, ...]
    findings: tuple[Finding, ...] = ()
    bridge: Mapping[str, Outcome] = field(default_factory=dict)


@frozen
class PreparedPhoto:
    """A photograph as it may be put into the document: turned, downscaled, stripped.

    file           the name typed in the workbook; it finds the caption
    source         prepared file, bytes, or a function that opens a stream
    sha256         of the source
    width, height  pixels
    """

    file: str
    source: Path | bytes | Callable[[], BinaryIO]
    sha256: str
    width: int
    height: int


@frozen
class AnsweredFinding:
    """A finding with its written answer; `answer` is None while it is open."""

    finding: Finding
    answer: Answer | None


@frozen
class Over:
    """An item, or a set counted as one, whose value is above the policy's limit for one item.

    set_id  "" for an item by itself
    """

    items: tuple[str, ...]
    set_id: str
    value: Outcome


@frozen
class Exposure:
    """What an insurer asks of the total of one type of value.

    main    the main location, "" if no location is stated
    away    ids of the items kept elsewhere
    value   sum of the values of those; None if there are none
    over    what is above the limit for one item; empty without a limit
    """

    main: str
    away: tuple[str, ...]
    value: Outcome | None
    over: tuple[Over, ...]


@frozen
class Total:
    """The totals of one type of value.

    total        sum of the rounded opinions that are concluded
    difference   rounded sum less sum before rounding
    lacking      ids of the items not concluded
    by_location  total by location in the order first met
    largest      id of the largest item, "" if there is none
    exposure     for uses of insurance; None for all others
    """

    value_type: ValueType
    total: Outcome
    difference: Outcome
    lacking: tuple[str, ...]
    by_location: Mapping[str, Outcome]
    largest: str
    exposure: Exposure | None = None

    @property
    def largest_location(self) -> str | None:
        """The location with the largest total, the first of two alike; None where there is no choice."""
        sums = [(place, one) for place, one in self.by_location.items() if isinstance(one, Figure)]
        return max(sums, key=lambda pair: pair[1].number)[0] if len(sums) > 1 else None


@frozen(kw_only=True)
class ReportInputs:
    """All that a report is composed from.

    results    called each time the items are gone through: once for the tables, once for the item sections
    totals     one for each type of value of the job
    place_name how a place is printed (`Evidence!F12`, from the layout of the file); None: sheet, row and heading
    photos     prepared photographs by item id
    yearly     the schedule revalued for the year, by type of value; empty for any other report
    library    name and SHA-256 of the appraiser's library that was read; None without one
    past       schedules of earlier years that may stand beside this one, by day
    past_totals  their totals, by day and type of value
    uses       what the use asks for beside the opinions of the items
    draft      open stops were found, or a draft was asked for
    redacted   a copy without owner, names, locations and serials; the job given is already without them
    """

    job: Job
    results: Callable[[], Iterable[ItemResult]]
    totals: tuple[Total, ...]
    findings: tuple[AnsweredFinding, ...] = ()
    elements: tuple[ElementState, ...] = ()
    place_name: Callable[[Place], str] | None = None
    photos: Mapping[str, tuple[PreparedPhoto, ...]] = field(default_factory=dict)
    yearly: tuple[Revaluation, ...] = ()
    past: tuple[PastSchedule, ...] = ()
    library: tuple[str, str] | None = None
    past_totals: Mapping[tuple[date, ValueType], Figure] = field(default_factory=dict)
    uses: UseResults = field(default_factory=UseResults)
    draft: bool = False
    redacted: bool = False
