"""What a check is given: the job, what dating and valuing made of it, facts about its photographs, the thresholds."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TypeVar

from appraise.checks.settings import DEFAULT_SETTINGS, Settings
from appraise.dating.result import DateWindow
from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given
from appraise.model.months import Months
from appraise.model.place import Place
from appraise.records.assignment import ValueTerms
from appraise.records.items import HistoryLine, InspectionLine, Item, Part, Photo
from appraise.records.job import Job
from appraise.records.market import Comparison, Opinion, Sale
from appraise.records.vocabulary import PhotoKind, Route, Use, ValueType
from appraise.valuing.result import Valuation


@frozen
class PhotoFact:
    """What is known of a photograph's file: whether it is there, the hash of its content, its size in bytes."""

    exists: bool
    sha256: str = ""
    size: int = 0


@frozen
class ItemResults:
    """What dating and valuing gave for one item.

    window      None where dating gave none (it has its own findings then)
    valuations  one for each type of value that was worked out
    sides       for each valuation, on which side of the subject each used comparison stood: -1 better, 0, 1 poorer
    """

    window: DateWindow | None = None
    valuations: tuple[Valuation, ...] = ()
    sides: tuple[tuple[int, ...], ...] = ()

    @staticmethod
    def of(window: DateWindow, valuations: Sequence[Valuation]) -> "ItemResults":
        """Return what checks and totals need of an item, without the figures and statements that led to it.

        Of ten thousand items all figures together would fill a gigabyte; they are made again where they are printed.
        """
        slim = replace(window, statements=(), explanations=(), best=(), conflicts=(), readings={}, parts=(), advice=())
        return ItemResults(slim, tuple(_outcome_of(one) for one in valuations), tuple(map(sides_of, valuations)))

    @property
    def made(self) -> Months | None:
        """The months in which the item may have been made, as printed; None where no window may be shown."""
        return self.window.shown.outer if self.window is not None and self.window.shown is not None else None


R = TypeVar("R", HistoryLine, InspectionLine, Part, Photo)


def sides_of(valuation: Valuation) -> tuple[int, ...]:
    """Return on which side of the subject each used comparison stood, by its net percent: -1 better, 1 poorer."""
    nets = [one.steps.get("net_pct") for one in valuation.comparisons if one.used]
    return tuple((net.number > 0) - (net.number < 0) for net in nets if isinstance(net, Figure))


#: Figures that are needed beside an opinion: its range, and what a policy's clause asks of a loss.
_KEPT = ("low", "high", "total_loss", "repair_total")


def _outcome_of(valuation: Valuation) -> Valuation:
    figures = {name: valuation.figures[name] for name in _KEPT if name in valuation.figures}
    return replace(valuation, subject=_NO_FIGURES, comparisons=(), figures=figures or _NO_FIGURES, findings=())


_NO_FIGURES: Mapping[str, Outcome] = {}

#: Item id and type of value.
Opened = tuple[str, ValueType]


@dataclass(frozen=True)
class CheckContext:
    """Everything a check may look at; the look-ups are made once and shared.

    results   by item id; an item without an entry was neither dated nor valued
    photos    by the file's name as typed on the workbook
    made      months of manufacture of the sales, by sale id, where they are typed and could be read
    raised    findings of the other parts: a check keeps silent where the root finding exists
    """

    job: Job
    results: Mapping[str, ItemResults] = field(default_factory=dict)
    photos: Mapping[str, PhotoFact] = field(default_factory=dict)
    made: Mapping[str, Months] = field(default_factory=dict)
    settings: Settings = DEFAULT_SETTINGS
    raised: tuple[Finding, ...] = ()

    @cached_property
    def places_raised(self) -> frozenset[Place]:
        """Places at which another part has raised a finding already."""
        return frozenset(one.place for one in self.raised)

    @property
    def use(self) -> Use | Missing:
        """The use of the report."""
        return self.job.assignment.use

    @cached_property
    def country(self) -> str:
        """Country code of the jurisdiction, "" if it is not given: `US-NY` is `US`."""
        jurisdiction = self.job.assignment.jurisdiction
        return jurisdiction.split("-")[0].strip().upper() if given(jurisdiction) else ""

    @cached_property
    def items(self) -> dict[str, Item]:
        """Items by id; an item without an id is left out (the reader has said so)."""
        return {one.id: one for one in self.job.items if given(one.id)}

    @cached_property
    def sales(self) -> dict[str, Sale]:
        """Sales by id."""
        return {one.id: one for one in self.job.sales if given(one.id)}

    @cached_property
    def parts_of(self) -> dict[str, list[Part]]:
        """Parts by item id."""
        return _grouped(self.job.parts)

    @cached_property
    def history_of(self) -> dict[str, list[HistoryLine]]:
        """Lines of the subject's history by item id."""
        return _grouped(self.job.history)

    @cached_property
    def inspection_of(self) -> dict[str, list[InspectionLine]]:
        """Inspection lines by item id."""
        return _grouped(self.job.inspection)

    @cached_property
    def shown_of(self) -> dict[str, frozenset[PhotoKind]]:
        """Kinds of photograph by item id; a line without a file shows nothing."""
        grouped = _grouped(self.job.photos)
        return {
            key: frozenset(one.kind for one in photos if given(one.kind) and given(one.file))
            for key, photos in grouped.items()
        }

    @cached_property
    def comparisons_of(self) -> dict[Opened, list[Comparison]]:
        """All comparisons by item id and type of value."""
        found: dict[Opened, list[Comparison]] = defaultdict(list)
        for line in self.job.comparisons:
            if given(line.item) and given(line.value_type):
                found[line.item, line.value_type].append(line)
        return dict(found)

    @cached_property
    def weighted(self) -> dict[Opened, list[tuple[Comparison, Sale]]]:
        """Comparisons with a weight above zero and a known sale, by item id and type of value."""
        found = {}
        for key, lines in self.comparisons_of.items():
            pairs = [(line, self.sales[line.sale]) for line in lines if counts(line) and line.sale in self.sales]
            if pairs:
                found[key] = pairs
        return found

    @cached_property
    def opinions_of(self) -> dict[Opened, Opinion]:
        """The first row of Opinions by item id and type of value."""
        found: dict[Opened, Opinion] = {}
        for one in self.job.opinions:
            if given(one.item) and given(one.value_type):
                found.setdefault((one.item, one.value_type), one)
        return found

    def route(self, item: str, value_type: ValueType) -> Route:
        """The route of an opinion; blank is adjusted."""
        opinion = self.opinions_of.get((item, value_type))
        return opinion.route if opinion is not None and given(opinion.route) else Route.ADJUSTED

    @cached_property
    def terms_of(self) -> dict[ValueType, ValueTerms]:
        """The first line of terms by type of value."""
        found: dict[ValueType, ValueTerms] = {}
        for one in self.job.value_terms:
            if given(one.value_type):
                found.setdefault(one.value_type, one)
        return found

    @cached_property
    def lines(self) -> tuple[tuple[Comparison, Item, Sale], ...]:
        """Comparisons with a weight above zero, each with its item and its sale."""
        return tuple(
            (line, self.items[item], sale)
            for (item, _value_type), pairs in self.weighted.items()
            if item in self.items
            for line, sale in pairs
        )

    @cached_property
    def adjusted(self) -> frozenset[str]:
        """Ids of the items to which percents bring sales with weight, so that grade and originality are charged for."""
        return frozenset(item for item, value_type in self.weighted if self.route(item, value_type) is Route.ADJUSTED)


def counts(line: Comparison) -> bool:
    """Say whether a comparison carries weight."""
    return given(line.weight) and line.weight > 0


def _grouped(records: tuple[R, ...]) -> dict[str, list[R]]:
    found: dict[str, list[R]] = defaultdict(list)
    for one in records:
        if given(one.item):
            found[one.item].append(one)
    return dict(found)
