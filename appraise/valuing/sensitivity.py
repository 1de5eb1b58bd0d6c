"""Values that stand beside an opinion: without later evidence, for the ends of the window, without one comparison.

Each is worked out again from the same inputs less one thing, under a scope of its own, so that it can be explained.
A typed conclusion does not move; what stands beside it is the mean of the comparisons.
"""

from collections.abc import Mapping
from dataclasses import replace

from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, given
from appraise.model.months import Month, Months
from appraise.model.operations import DIFFERENCE
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.vocabulary import Route
from appraise.valuing.comparing import Compared, compare
from appraise.valuing.conclusions import statistic, weighted_lines
from appraise.valuing.days import month_of
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.inputs import Inputs
from appraise.valuing.lookup.indexes import Indexes, Reading, index_month
from appraise.valuing.model_period import period_of
from appraise.valuing.operations import CARRIED
from appraise.valuing.reconcile import Weighted, reconcile
from appraise.valuing.result import Valuation
from appraise.valuing.routes import route_of
from appraise.valuing.steps.line import NOT_GIVEN, report_money
from appraise.valuing.working import Working


@frozen
class Beside:
    """Figures that stand beside the opinion, by name, and what they show."""

    figures: Mapping[str, Outcome]
    findings: tuple[Finding, ...]


def standing_beside(inputs: Inputs, ledger: Ledger, compared: Compared, rounded: Outcome) -> Beside:
    """Return what must stand beside an opinion by the adjusted route: `without_later`, `first_month`, `last_month`."""
    if route_of(inputs) is not Route.ADJUSTED or compared.subject is None:
        return Beside({}, ())
    figures: dict[str, Outcome] = {}
    findings: list[Finding] = []
    _without_later(inputs, ledger, compared, figures, findings)
    _ends_of_window(inputs, ledger, rounded, figures, findings)
    return Beside(figures, tuple(findings))


def leave_one_out(inputs: Inputs, ledger: Ledger, valuation: Valuation) -> dict[str, Outcome]:
    """Return the rounded value without each comparison used, by the name of its line.

    Adjusted route only; a line without which nothing is left has no entry. Of a build-up it is the base before tax
    and costs. Each is made under the scope `without_` and the line's name.
    """
    if valuation.route is not Route.ADJUSTED:
        return {}
    lines = weighted_lines(valuation.comparisons)
    found: dict[str, Outcome] = {}
    for line in lines:
        others = [other for other in lines if other is not line]
        if others:
            found[line.name] = _reconciled(inputs, ledger.under(f"without_{line.name}"), others)
    return found


def effect_of_level(inputs: Inputs, ledger: Ledger, valuation: Valuation) -> dict[str, Outcome]:
    """Return the value without the market level step (`value_rounded`), and what the step adds to it (`effect`).

    The effect is of values before rounding, of a build-up before tax and costs. Empty if no comparison has a level
    step or the route is not the adjusted one. Made under the scope `without_level`.
    """
    if valuation.route is not Route.ADJUSTED or not any("level" in one.steps for one in valuation.comparisons):
        return {}
    flat = [replace(one, level=BLANK) for one in inputs.comparisons]
    under = ledger.under("without_level")
    work = Working(under, NOT_GIVEN, inputs.item_id)
    rounded = _reconciled(inputs, under, weighted_lines(compare(replace(inputs, comparisons=flat), under).lines), work)
    found = {"value_rounded": rounded}
    with_step = valuation.figures.get(statistic(inputs))
    if with_step is not None and "value" in work.figures:
        found["effect"] = work.figure("effect", report_money(inputs), DIFFERENCE, with_step, work.figures["value"])
    return found


def _reconciled(inputs: Inputs, ledger: Ledger, lines: list[Weighted], work: Working | None = None) -> Outcome:
    """Return the rounded value of these lines alone (figures `value` and `value_rounded`, and the reconciliation)."""
    work = work or Working(ledger, NOT_GIVEN, inputs.item_id)
    reconcile(work, lines, report_money(inputs))
    if not lines:
        place = place_of(ITEMS, inputs.item, "id")
        return work.refuse("value_rounded", "VAL-10", place, value_type=inputs.value_type.value)
    value = work.figure("value", report_money(inputs), CARRIED, work.figures[statistic(inputs)])
    currency = inputs.tables.currency
    return rounded_by_scale(work, "value_rounded", value, value, currency if given(currency) else "")


def _without_later(
    inputs: Inputs, ledger: Ledger, compared: Compared, figures: dict[str, Outcome], findings: list[Finding]
) -> None:
    """Later evidence: a used sale after the effective date, or an index point after its month, enters the value."""
    effective = inputs.tables.effective
    if not given(effective):
        return
    later_sale = any(
        result.used and result.sale is not None and given(result.sale.day) and result.sale.day > effective
        for result in compared.lines
    )
    points = _later_points(inputs, compared, month_of(effective))
    if not (later_sale or points):
        return
    index = compared.subject.time.index if compared.subject is not None else None
    if points and index is not None:
        place = place_of(ITEMS, inputs.item, "index")
        said = {"index": index.id, "effective": effective.isoformat()}
        findings.append(
            finding("VAL-14", place, inputs.item_id, inputs.value_type.value, found=", ".join(points), **said)
        )
    known = {} if index is None else {index.id: index.known_by(month_of(effective))}
    by_id = {key: one for key, one in known.items() if one is not None}
    earlier = [
        result.comparison
        for result in compared.lines
        if result.sale is not None and (not given(result.sale.day) or result.sale.day <= effective)
    ]
    tables = replace(inputs.tables, indexes=Indexes(by_id))
    under = ledger.under("without_later")
    again = compare(replace(inputs, tables=tables, comparisons=earlier), under)
    figures["without_later"] = _reconciled(inputs, under, weighted_lines(again.lines))


def _later_points(inputs: Inputs, compared: Compared, month: Month) -> list[str]:
    """Return the months of index points after a month that enter the value, in order."""
    if compared.subject is None or compared.subject.time.index is None:
        return []
    time = compared.subject.time
    readings: list[Reading | None] = [time.reading]
    for result in compared.lines:
        if result.used and result.sale is not None and given(result.sale.day) and time.index is not None:
            readings.append(time.index.reading(month_of(result.sale.day)))
    months = set()
    for reading in readings:
        for point in () if reading is None else (reading.before, reading.after):
            at = None if point is None else index_month(point)
            if at is not None and at > month and point is not None and given(point.month):
                months.add(point.month)
    return sorted(months)


def _ends_of_window(
    inputs: Inputs, ledger: Ledger, rounded: Outcome, figures: dict[str, Outcome], findings: list[Finding]
) -> None:
    """The model period takes every month of the window as equally likely; its first and last month stand beside."""
    window = inputs.window
    if period_of(inputs) is None or not window or window.first is None or window.last is None:
        return
    if window.first == window.last:
        return
    for name, month in (("first_month", window.first), ("last_month", window.last)):
        under = ledger.under(name)
        again = compare(replace(inputs, window=Months.between(month, month)), under)
        figures[name] = _reconciled(inputs, under, weighted_lines(again.lines))
    ends = [one.number for one in (figures["first_month"], figures["last_month"]) if isinstance(one, Figure)]
    if isinstance(rounded, Figure) and any(end != ends[0] for end in ends):
        place = place_of(ITEMS, inputs.item, "id")
        said = {"first": str(ends[0]), "last": str(ends[-1])}
        findings.append(finding("VAL-15", place, inputs.item_id, found=str(rounded.number), **said))
