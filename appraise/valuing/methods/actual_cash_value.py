"""Actual cash value under the reading that the policy or the law takes.

Three readings, with very different sums: cost new less depreciation, market value, broad evidence. Standard forms do
not define it; the reading is typed on Policy and never assumed.
"""

from collections.abc import Mapping
from dataclasses import replace

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT
from appraise.records.claims import DEPRECIATION, POLICY, VALUE_FACTS, Policy
from appraise.records.declare import place_of
from appraise.records.vocabulary import CashValueReading, Route, ValueType
from appraise.valuing.inputs import Inputs, each_once
from appraise.valuing.methods.broad_evidence import broad_evidence
from appraise.valuing.methods.depreciated_cost import depreciated_cost
from appraise.valuing.methods.market_cash_value import market_reading
from appraise.valuing.operations import CARRIED
from appraise.valuing.opinions import concluded_value, opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.routes import route_of
from appraise.valuing.working import Worked, Working, compared, number_text

VALUES = (ValueType.ACTUAL_CASH,)


#: Where the figures of a reading are typed.
SHEETS = {
    CashValueReading.COST_LESS_DEPRECIATION: Place(DEPRECIATION.name),
    CashValueReading.MARKET_VALUE: Place("Comparisons"),
    CashValueReading.BROAD_EVIDENCE: Place(VALUE_FACTS.name),
}


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the actual cash value of an item under the policy's reading, with the readings that were worked out."""
    currency = inputs.tables.currency
    if not given(currency):
        return without_row(inputs, "LOS-20", ASSIGNMENT)
    readings: dict[CashValueReading, Outcome] = {}
    market = _market(inputs, ledger)
    if market is not None:
        readings[CashValueReading.MARKET_VALUE] = market.value
    elif (concluded := concluded_value(inputs, rounded=False)) is not None:
        readings[CashValueReading.MARKET_VALUE] = concluded
    parts = []
    if (line := inputs.uses.depreciation.get(inputs.item_id)) is not None:
        terms = inputs.tables.assignment
        cost = depreciated_cost(
            ledger.under("cost"),
            line,
            loss_day=terms.loss_date if given(terms.loss_date) else inputs.tables.effective,
            loss_place=place_of(ASSIGNMENT, terms, "loss_date"),
            rates=inputs.tables.rates,
            currency=currency,
        )
        readings[CashValueReading.COST_LESS_DEPRECIATION] = cost["acv"]
        parts.append(cost)
    if facts := inputs.uses.value_facts.get(inputs.item_id, ()):
        broad = broad_evidence(ledger.under("facts"), inputs.item_id, facts, currency=currency)
        readings[CashValueReading.BROAD_EVIDENCE] = broad["broad_evidence"]
        parts.append(broad)
    worked = actual_cash_value(ledger, inputs.item_id, inputs.uses.policy, readings, currency=currency)
    figures = {name: outcome for part in (*parts, worked) for name, outcome in part.figures.items()}
    findings = each_once([*(one for part in parts for one in part.findings), *worked.findings])
    opinion = opinion_of(inputs, Worked(figures, findings), "actual_cash_value", "actual_cash_value")
    if market is None:
        return opinion
    return replace(
        market,
        figures={**market.figures, **figures},
        value=opinion.value,
        rounded=opinion.rounded,
        findings=each_once([*market.findings, *findings]),
    )


def _market(inputs: Inputs, ledger: Ledger) -> Valuation | None:
    """Return the market reading where comparisons or a short-route figure are typed for it."""
    if inputs.comparisons or route_of(inputs) is Route.SHORT:
        return market_reading(inputs, ledger.under("market"))
    return None


def actual_cash_value(
    ledger: Ledger, item: str, policy: Policy, readings: Mapping[CashValueReading, Outcome], *, currency: str
) -> Worked:
    """Return an item's actual cash value (figure `actual_cash_value`), to the cent and never rounded further.

    readings  what each reading gives, as far as it was worked out; all are shown, one counts. Cost new less
              depreciation below the market value raises a finding: for old things it fits badly.
    """
    work = Working(ledger, "LOS-01", item)
    for reading, found in readings.items():
        work.keep(f"as_{reading.name.lower()}", found)
    place = place_of(POLICY, policy, "cash_value")
    if not given(policy.cash_value):
        work.refuse("actual_cash_value", "POL-09", place)
        return work.done()
    outcome = readings.get(policy.cash_value)
    if outcome is None:
        work.refuse("actual_cash_value", "POL-10", SHEETS[policy.cash_value], found=policy.cash_value.value)
        return work.done()
    work.figure("actual_cash_value", money(currency), CARRIED, outcome)
    market = readings.get(CashValueReading.MARKET_VALUE)
    cost = readings.get(CashValueReading.COST_LESS_DEPRECIATION)
    below = market is not None and cost is not None and compared(cost, market) == -1
    if below and policy.cash_value is CashValueReading.COST_LESS_DEPRECIATION:
        assert market is not None and cost is not None
        work.find("LOS-16", place, found=number_text(cost), market=number_text(market))
    return work.done()
