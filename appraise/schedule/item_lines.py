"""The value of one item as its line on Treatments has it: rolled, held, removed, added, or concluded afresh.

The line is worked out with its item, so that its figures stand beside those of the item; the totals of the schedule
are worked out afterwards from all lines (`schedule.of_job`).
"""

from collections.abc import Callable
from dataclasses import replace

from appraise.model.figure import NoFigure
from appraise.model.finding import finding
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.records.declare import place_of
from appraise.records.vocabulary import Conclusion, Route, Treatment, ValueType
from appraise.records.yearly import TREATMENTS, LineTreatment
from appraise.schedule.of_job import year_of_job
from appraise.schedule.revaluation import RevaluedLine, revalued
from appraise.valuing import JobRows
from appraise.valuing.inputs import each_once
from appraise.valuing.result import Valuation

#: Figures of a line stand under this name in the scope of the opinion: `G01.rrv.year.factor`.
SCOPE = "year"

Ordinary = Callable[[], Valuation]


class ItemLines:
    """The lines of Treatments by item and type of value; of two for one opinion the first holds."""

    def __init__(self, rows: JobRows) -> None:
        self._year = year_of_job(rows)
        self._lines: dict[tuple[str, ValueType], LineTreatment] = {}
        for line in rows.job.treatments:
            if given(line.item) and given(line.value_type):
                self._lines.setdefault((line.item, line.value_type), line)

    def value(
        self, item: str, value_type: ValueType, ledger: Ledger, ordinary: Ordinary
    ) -> tuple[Valuation, RevaluedLine | None]:
        """Return the opinion of an item and its line, None where it has none.

        ledger    its scope is that of the opinion
        ordinary  values the item by the method of its type of value; asked only where the line wants it
        """
        line = self._lines.get((item, value_type))
        if line is None or self._year is None:
            return ordinary(), None
        fresh = ordinary() if wants_comparables(line) else None
        if isinstance(self._year, NoFigure):
            return fresh or _without(item, value_type, self._year), None
        found = revalued(ledger.under(SCOPE), line, self._year, fresh=None if fresh is None else fresh.value)
        if fresh is not None and not _foreign(line, self._year.currency):
            return replace(fresh, findings=each_once([*fresh.findings, *found.findings])), found
        return _carried(item, value_type, found), found


def wants_comparables(line: LineTreatment) -> bool:
    """Say whether a line is valued in this workbook: fresh comparables or an added line without a typed value."""
    return line.treatment in (Treatment.FRESH, Treatment.ADDED) and line.new_value is Missing.BLANK


def _foreign(line: LineTreatment, currency: str) -> bool:
    return given(line.new_currency) and line.new_currency != currency


def _carried(item: str, value_type: ValueType, found: RevaluedLine) -> Valuation:
    """Return the opinion that a line makes without comparisons; a removed line has none, and says so."""
    if found.new is None or found.new_rounded is None:
        line = found.line
        day = line.removed_on.isoformat() if given(line.removed_on) else ""
        removed = NoFigure((finding("YRL-40", place_of(TREATMENTS, line, "treatment"), item, found=day),))
        return replace(_without(item, value_type, removed), findings=each_once([*found.findings, *removed.because]))
    value, rounded = found.new, found.new_rounded
    whole = _without(item, value_type, NoFigure(()))
    figures = {**found.figures, "value": value, "value_rounded": rounded}
    return replace(whole, figures=figures, value=value, rounded=rounded, findings=found.findings)


def _without(item: str, value_type: ValueType, reason: NoFigure) -> Valuation:
    return Valuation(
        item=item,
        value_type=value_type,
        route=Route.ADJUSTED,
        conclusion=Conclusion.TYPED,
        subject={},
        comparisons=(),
        figures={},
        value=reason,
        rounded=reason,
        findings=reason.because,
    )
