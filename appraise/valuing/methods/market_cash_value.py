"""Actual cash value read as market value: the sales comparison, to the cent and not rounded further.

The accepted measure for antiques and old instruments, whose price rises with age, as claims literature on antiques
under actual-cash-value policies has it. The policy or the law of the place says whether this reading holds.
"""

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.records.assignment import ASSIGNMENT
from appraise.valuing.inputs import Inputs
from appraise.valuing.methods.sales_comparison import compared_by_route, valuation, value_before_rounding
from appraise.valuing.operations import CARRIED
from appraise.valuing.result import Valuation
from appraise.valuing.working import Working


def market_reading(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the market reading of actual cash value from the comparisons (or the short route) typed for it."""
    compared = compared_by_route(inputs, ledger)
    before = value_before_rounding(inputs, compared)
    return valuation(inputs, ledger, compared, before, _to_the_cent(inputs, compared.top, before))


def _to_the_cent(inputs: Inputs, work: Working, value: Outcome) -> Outcome:
    currency = inputs.tables.currency
    if not given(currency):
        return work.keep("value_rounded", work.lacking(ASSIGNMENT, inputs.tables.assignment, "currency"))
    return work.figure("value_rounded", money(currency), CARRIED, value)
