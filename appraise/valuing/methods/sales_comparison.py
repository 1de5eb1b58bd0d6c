"""The sales comparison: comparisons brought to the subject, reconciled, concluded, rounded (method rules R0 to R13).

Three routes. *Adjusted*: every difference is a percent or a sum. *Relative*: each comparison is better, similar or
poorer, and the conclusion lies between the best poorer and the worst better one. *Short*: one figure with its source.
"""

from appraise.model.figure import Outcome
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.records.assignment import ASSIGNMENT
from appraise.records.vocabulary import Route, ValueType
from appraise.valuing.comparing import Compared, compare
from appraise.valuing.conclusions import concluded, conclusion_of, reconciliation_findings
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.inputs import Inputs, each_once
from appraise.valuing.result import Valuation
from appraise.valuing.routes import relative_value, route_of, short_value
from appraise.valuing.sensitivity import standing_beside
from appraise.valuing.working import Working

VALUES = (ValueType.FAIR_MARKET,)


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the opinion of an item by sales comparison, by its route."""
    compared = compared_by_route(inputs, ledger)
    before = value_before_rounding(inputs, compared)
    rounded = round_with_range(inputs, compared.top, before)
    return valuation(inputs, ledger, compared, before, rounded)


def compared_by_route(inputs: Inputs, ledger: Ledger) -> Compared:
    """Return the comparisons as far as the route takes them; the short route takes none."""
    route = route_of(inputs)
    if route is Route.SHORT:
        return Compared(None, Working(ledger, "VAL-01", inputs.item_id), ())
    return compare(inputs, ledger, object_steps=route is Route.ADJUSTED)


def value_before_rounding(inputs: Inputs, compared: Compared, name: str = "value") -> Outcome:
    """Return the value before rounding, in the working of the opinion (figure `name`)."""
    route = route_of(inputs)
    if route is Route.SHORT:
        return short_value(inputs, compared.top, name)
    if route is Route.RELATIVE:
        return relative_value(inputs, compared, name)
    return concluded(inputs, compared.top, compared.lines, name)


def round_with_range(inputs: Inputs, work: Working, value: Outcome) -> Outcome:
    """Return the rounded value (figure `value_rounded`), and round the range by the same increment."""
    currency = inputs.tables.currency
    if not given(currency):
        return work.keep("value_rounded", work.lacking(ASSIGNMENT, inputs.tables.assignment, "currency"))
    rounded = rounded_by_scale(work, "value_rounded", value, value, currency)
    for name in ("low", "high"):
        if name in work.figures:
            rounded_by_scale(work, f"{name}_rounded", work.figures[name], value, currency)
    return rounded


def valuation(inputs: Inputs, ledger: Ledger, compared: Compared, before: Outcome, rounded: Outcome) -> Valuation:
    """Return the finished opinion with all its findings, each once, the lines' first."""
    beside = standing_beside(inputs, ledger, compared, rounded)
    lines = [one for result in compared.lines for one in result.findings]
    route = route_of(inputs)
    own = reconciliation_findings(inputs, compared, compared.top) if route is Route.ADJUSTED else []
    subject = {} if compared.subject is None else dict(compared.subject.figures)
    worked = [] if compared.subject is None else list(compared.subject.work.done().findings)
    return Valuation(
        item=inputs.item_id,
        value_type=inputs.value_type,
        route=route,
        conclusion=conclusion_of(inputs),
        subject=subject,
        comparisons=compared.lines,
        figures={**compared.top.figures, **beside.figures},
        value=before,
        rounded=rounded,
        findings=each_once([*lines, *worked, *compared.top.done().findings, *own, *beside.findings]),
    )
