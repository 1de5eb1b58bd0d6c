"""Retail replacement value by build-up: what dealers ask, with tax and costs (method rule R14, part A).

Base = the reconciled retail price before tax. Sales tax = (base + taxable costs) x rate, rounded once. Transit
insurance = the larger of base x rate and the typed minimum. Value = base + costs + tax + freight + insurance, then
rounded. The base stays beside the value: tax and costs are never hidden in it. A typed figure, on the adjusted route,
is the base; on the short route it is the value, and no costs are added.
"""

from collections import Counter

from appraise.model.figure import Outcome
from appraise.model.kinds import typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, given
from appraise.model.operations import CONVERTED_OVER, CONVERTED_TIMES, LARGER, PERCENT_OF, SMALLER, SUM
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.market import COSTS, Cost
from appraise.records.tables import RATES
from appraise.records.vocabulary import CostKind, RateDirection, Route, ValueType
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.inputs import Inputs
from appraise.valuing.methods.sales_comparison import (
    compared_by_route,
    round_with_range,
    valuation,
    value_before_rounding,
)
from appraise.valuing.operations import CARRIED
from appraise.valuing.result import Valuation
from appraise.valuing.routes import route_of
from appraise.valuing.steps.line import report_money
from appraise.valuing.working import Working

VALUES = (ValueType.RETAIL_REPLACEMENT,)

#: Names of figures by kind of cost.
NAMES = {
    CostKind.SALES_TAX: "sales_tax",
    CostKind.SET_UP: "set_up",
    CostKind.FREIGHT: "freight",
    CostKind.TRANSIT_INSURANCE: "transit_insurance",
    CostKind.OTHER: "other_cost",
}


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the retail replacement value of an item, with the base before tax and costs beside it."""
    compared = compared_by_route(inputs, ledger)
    work = compared.top
    if route_of(inputs) is Route.SHORT:
        before = value_before_rounding(inputs, compared)
        return valuation(inputs, ledger, compared, before, round_with_range(inputs, work, before))
    base = value_before_rounding(inputs, compared, "base")
    before = built_up(inputs, work, base)
    currency = inputs.tables.currency
    if given(currency):
        rounded_by_scale(work, "base_rounded", base, base, currency)
    return valuation(inputs, ledger, compared, before, round_with_range(inputs, work, before))


def built_up(inputs: Inputs, work: Working, base: Outcome) -> Outcome:
    """Return the base with all costs and the sales tax (figure `value`)."""
    kind = report_money(inputs)
    names: Counter[str] = Counter()
    parts, taxable, taxes = [base], [base], []
    for cost in inputs.tables.costs_of(inputs.item.id):
        if not given(cost.kind):
            parts.append(work.lacking(COSTS, cost, "kind"))
        elif cost.kind not in NAMES:
            work.find("VAL-40", place_of(COSTS, cost, "kind"), found=cost.kind.value)
        elif cost.kind is CostKind.SALES_TAX and given(cost.percent):
            taxes.append(cost)
        else:
            part = _cost(inputs, work, cost, base, _name(names, cost.kind))
            parts.append(part)
            taxable += _taxable(work, cost, part)
    if taxes:
        taxed = work.figure("taxable_sum", kind, SUM, *taxable)
        for cost in taxes:
            name = _name(names, CostKind.SALES_TAX)
            rate = work.cell(COSTS, cost, "percent", name=f"{name}_rate")
            parts.append(work.figure(name, kind, PERCENT_OF, taxed, rate))
    return work.figure("value", kind, SUM, *parts)


def _name(names: Counter[str], kind: CostKind) -> str:
    """Return the name of a cost's figure; the second of one kind is numbered."""
    name = NAMES[kind]
    names[name] += 1
    return name if names[name] == 1 else f"{name}_{names[name]}"


def _taxable(work: Working, cost: Cost, part: Outcome) -> list[Outcome]:
    """Return the cost if sales tax is charged on it; if that is stated unknown, the reason why there is no tax."""
    if cost.taxable is True:
        return [part]
    return [] if given(cost.taxable) or cost.taxable is BLANK else [work.lacking(COSTS, cost, "taxable")]


def _cost(inputs: Inputs, work: Working, cost: Cost, base: Outcome, name: str) -> Outcome:
    """Return one cost in the report's currency: an amount, or a percent of the base, within its least and most."""
    kind = report_money(inputs)
    bounds = [
        (key, operation) for key, operation in (("least", LARGER), ("most", SMALLER)) if getattr(cost, key) is not BLANK
    ]
    first = f"{name}_before_bounds" if bounds else name
    if given(cost.percent):
        rate = work.cell(COSTS, cost, "percent", name=f"{name}_rate")
        amount = work.figure(first, kind, PERCENT_OF, base, rate)
    else:
        amount = _amount(inputs, work, cost, name, first)
    for number, (key, operation) in enumerate(bounds, 1):
        bound = work.cell(COSTS, cost, key, name=f"{name}_{key}", kind=typed_money(kind.currency))
        made = name if number == len(bounds) else f"{name}_{key}_applied"
        amount = work.figure(made, kind, operation, amount, bound)
    return amount


def _amount(inputs: Inputs, work: Working, cost: Cost, name: str, made: str) -> Outcome:
    """Return a typed amount; a foreign one is converted at the rate of the effective date."""
    tables, kind = inputs.tables, report_money(inputs)
    currency = tables.currency if cost.currency is BLANK else cost.currency
    if not given(tables.currency):
        return work.lacking(ASSIGNMENT, tables.assignment, "currency")
    if not given(currency):
        return work.keep(made, work.lacking(COSTS, cost, "currency"))
    typed = work.cell(COSTS, cost, "amount", name=f"{name}_typed", kind=typed_money(currency))
    if currency == tables.currency:
        return work.figure(made, kind, CARRIED, typed)
    if not given(tables.effective):
        return work.keep(made, work.lacking(ASSIGNMENT, tables.assignment, "effective_date"))
    found = tables.rates.on(currency, tables.effective)
    if found is None:
        place = place_of(COSTS, cost, "currency")
        return work.refuse(made, "VAL-41", place, found=currency, day=tables.effective.isoformat())
    rate = work.ledger.typed(f"{name}_exchange_rate", found.rate, place_of(RATES, found.row, "rate"))
    operation = CONVERTED_TIMES if found.direction is RateDirection.REPORT_PER_FOREIGN else CONVERTED_OVER
    return work.figure(made, kind, operation, typed, rate)
