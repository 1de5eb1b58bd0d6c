"""Actual cash value under the reading that the policy or the law takes.

Three readings, with very different sums: cost new less depreciation, market value, broad evidence. Standard forms do
not define it; the reading is typed on Policy and never assumed.
"""

from collections.abc import Mapping

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.claims import DEPRECIATION, POLICY, VALUE_FACTS, Policy
from appraise.records.declare import place_of
from appraise.records.vocabulary import CashValueReading
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working, compared, number_text

#: Where the figures of a reading are typed.
SHEETS = {
    CashValueReading.COST_LESS_DEPRECIATION: Place(DEPRECIATION.name),
    CashValueReading.MARKET_VALUE: Place("Comparisons"),
    CashValueReading.BROAD_EVIDENCE: Place(VALUE_FACTS.name),
}


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
