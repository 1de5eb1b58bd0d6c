"""Dates and values the items of a job, one at a time, against either kind of ledger."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from functools import cached_property, partial

from appraise.dating.dated import Dated, read_use
from appraise.dating.line import tables
from appraise.dating.result import DateWindow
from appraise.dating.settings import Settings
from appraise.dating.statements import date_item
from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import given, value_or
from appraise.model.months import Month, Months, month_number
from appraise.records.assignment import ValueTerms
from appraise.records.dating import Evidence
from appraise.records.declare import place_of
from appraise.records.items import Item
from appraise.records.job import Job
from appraise.records.market import SALES
from appraise.records.vocabulary import Treatment, ValueType
from appraise.schedule.item_lines import ItemLines
from appraise.schedule.of_job import Revaluation, revaluations
from appraise.schedule.revaluation import RevaluedLine
from appraise.valuing import job_rows, value_inputs
from appraise.valuing.codes import CODES
from appraise.valuing.inputs import Inputs
from appraise.valuing.result import Valuation
from appraise.valuing.sensitivity import effect_of_level, leave_one_out
from appraise.valuing.use_results import UseResults, use_results

#: Jobs of so many items keep the figures once made; of larger ones each pass makes them anew, and memory stays flat.
MOST_KEPT = 200


@frozen
class Computed:
    """What dating and valuing gave for one item; valuations are in the order of Value types.

    lines  its lines on Treatments, revalued for the year
    """

    item: Item
    window: DateWindow
    valuations: tuple[Valuation, ...]
    lines: tuple[RevaluedLine, ...] = ()

    @property
    def removed(self) -> bool:
        """Whether the item left the schedule this year under every type of value."""
        removed = [one for one in self.lines if one.treatment is Treatment.REMOVED]
        return bool(removed) and len(removed) == len(self.valuations)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Findings of dating and valuing, each once."""
        found = [*self.window.findings, *(one for valuation in self.valuations for one in valuation.findings)]
        return tuple(dict.fromkeys(found))


class Computation:
    """A job made ready for computing: its rows sorted by item, its tables built once.

    today  stands for the month of examination of an item without any other day
    """

    def __init__(self, job: Job, *, today: date) -> None:
        self.job = job
        self._today = today
        self._rows, self._table_findings = job_rows(job)
        self._lines = ItemLines(self._rows)
        self._dating_tables = tables(job.feature_periods, job.serial_ranges, job.items)
        self._recorded: dict[int, tuple[Item, Computed, dict[str, Figure]]] = {}
        self._evidence: dict[str, list[Evidence]] = defaultdict(list)
        for row in job.evidence:
            if given(row.item):
                self._evidence[row.item].append(row)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Findings about the tables and the sales themselves, apart from any item."""
        return (*self._table_findings, *self.sale_windows[1])

    def computed(self, *, figures_later: bool) -> Iterator[Computed]:
        """Yield every item computed, one at a time.

        figures_later  its figures will be asked for with `recorded`: those of a small job are kept at once
        """
        for item in self.job.items:
            kept = figures_later and self._keeps
            yield self.recorded(item)[0] if kept else self.compute(item, Ledger(named(item)))

    @property
    def _keeps(self) -> bool:
        return len(self.job.items) <= MOST_KEPT

    def recorded(self, item: Item) -> tuple[Computed, RecordingLedger]:
        """Return one item of the job computed, with all its figures in a ledger that is the caller's to go on with."""
        # The very object, not its id or row: two rows may carry one id, and rows made in code none.
        kept = self._recorded.get(id(item))
        if kept is None:
            ledger = RecordingLedger(named(item))
            kept = item, self.compute(item, ledger), ledger.figures
            if self._keeps:
                self._recorded[id(item)] = kept
        _item, computed, figures = kept
        return computed, RecordingLedger(named(item), dict(figures))

    def compute(self, item: Item, ledger: Ledger) -> Computed:
        """Return the window and the opinions of one item; figures go through `ledger`, whose scope is the item's."""
        window = self.date(item)
        concluded: dict[ValueType, Valuation] = {}
        lines: list[RevaluedLine] = []
        for terms in self._terms_in_order():
            inputs = self._inputs(item, terms, window, concluded)
            scope = ledger.under(CODES[inputs.value_type])
            ordinary = partial(value_inputs, inputs, scope)
            valuation, line = self._lines.value(named(item), inputs.value_type, scope, ordinary)
            concluded[inputs.value_type] = valuation
            lines += [] if line is None else [line]
        in_order = (terms.value_type for terms in self._rows.terms())
        return Computed(item, window, tuple(concluded[one] for one in in_order if given(one)), tuple(lines))

    def stability(self, item: Item, computed: Computed, ledger: Ledger) -> dict[str, Outcome]:
        """Return what each opinion would be without one of its comparisons, and what the market level step does.

        By what each is: `G01.fmv without c1`, `G01.fmv without the market level step`. Adjusted route only.
        """
        found: dict[str, Outcome] = {}
        for terms, valuation in zip(self._rows.terms(), computed.valuations, strict=True):
            inputs = self._inputs(item, terms, computed.window, {one.value_type: one for one in computed.valuations})
            scope = ledger.under(CODES[valuation.value_type])
            for line, value in leave_one_out(inputs, scope, valuation).items():
                found[f"{scope.scope} without {line}"] = value
            words = {"value_rounded": "without the market level step", "effect": "effect of the market level step"}
            for name, value in effect_of_level(inputs, scope, valuation).items():
                found[f"{scope.scope} {words[name]}"] = value
        return found

    def _inputs(
        self, item: Item, terms: ValueTerms, window: DateWindow, concluded: Mapping[ValueType, Valuation]
    ) -> Inputs:
        return self._rows.inputs(
            item,
            terms,
            window=window.outer or None,
            sale_windows=self.sale_windows[0],
            concluded=dict(concluded),
        )

    def yearly(
        self, ledger: Ledger, lines: Iterable[RevaluedLine]
    ) -> tuple[tuple[Revaluation, ...], tuple[Finding, ...]]:
        """Return the schedule revalued, by type of value, from the lines of the items, and what was found."""
        return revaluations(ledger, self._rows, made={one.line.row: one for one in lines})

    def uses(self, ledger: Ledger, valuations: Iterable[Valuation]) -> UseResults:
        """Return what the use asks for beside the opinions of the items, made from these opinions."""
        valued = {(one.item, one.value_type): one for one in valuations}
        return use_results(ledger, self._rows, valued)

    def _terms_in_order(self) -> list[ValueTerms]:
        """Return the terms in the order of computing: fair market value first, since others may rest on it."""
        terms = [one for one in self._rows.terms() if given(one.value_type)]
        return sorted(terms, key=lambda one: one.value_type is not ValueType.FAIR_MARKET)

    def date(self, item: Item) -> DateWindow:
        """Return the window of one item."""
        name = named(item)
        settings = self._settings(self._examined(item))
        return date_item(name, self._evidence.get(name, ()), self._dating_tables, settings)

    @cached_property
    def sale_windows(self) -> tuple[Mapping[str, Months], tuple[Finding, ...]]:
        """Months of manufacture of the sales, by sale id, and the wordings that cannot be read."""
        settings = self._settings(self._month_of_report)
        windows: dict[str, Months] = {}
        findings: list[Finding] = []
        for sale_id, sale in self._rows.sales.items():
            start, end = value_or(sale.made_from, ""), value_or(sale.made_to, "")
            read = read_use(start, end, settings) if start or end else ()
            if isinstance(read, Dated):
                windows[sale_id] = read.outer
                continue
            for one in read:
                place = place_of(SALES, sale, _COLUMNS_OF_SALES[one.column])
                near = "; ".join(one.refusal.near)
                text = one.refusal.text
                findings.append(finding("DAT-01", place, sale_id, found=text, reason=one.refusal.reason, near=near))
        return windows, tuple(findings)

    def _examined(self, item: Item) -> Month:
        day = item.inspected_on
        return month_number(day.year, day.month) if given(day) else self._month_of_report

    @property
    def _month_of_report(self) -> Month:
        a = self.job.assignment
        day = next((one for one in (a.report_date, a.effective_date) if given(one)), self._today)
        return month_number(day.year, day.month)

    def _settings(self, examined: Month) -> Settings:
        a = self.job.assignment
        settings = Settings(examined=examined, locale=value_or(a.workbook_locale, "en"))
        return replace(settings, circa_years=int(a.circa_years)) if given(a.circa_years) else settings


_COLUMNS_OF_SALES = {"from_": "made_from", "to": "made_to"}


def named(item: Item) -> str:
    """Return the item's id; an item without one is called by its row."""
    return item.id if given(item.id) else f"row {item.row}"
