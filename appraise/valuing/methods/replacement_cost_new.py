"""Replacement cost new: what a new one of like kind and quality costs, without anything taken off for age.

For things still made, or copies made to order. For scarce old things it may lie far below their value.
"""

from datetime import date

from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT
from appraise.records.claims import DEPRECIATION, Depreciation
from appraise.records.declare import place_of
from appraise.records.vocabulary import ValueType
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.inputs import Inputs
from appraise.valuing.lookup.rates import RateTable
from appraise.valuing.methods import depreciated_cost, retail_replacement
from appraise.valuing.opinions import opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.working import Worked, Working

VALUES = (ValueType.REPLACEMENT_COST_NEW,)


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the cost new of an item from its row on Depreciation; without one, from quotations compared."""
    line = inputs.uses.depreciation.get(inputs.item_id)
    if line is None and inputs.comparisons:
        return retail_replacement.value(inputs, ledger)
    if line is None:
        return without_row(inputs, "LOS-19", DEPRECIATION)
    tables = inputs.tables
    if not given(tables.currency):
        return without_row(inputs, "LOS-20", ASSIGNMENT)
    worked = replacement_cost_new(
        ledger,
        line,
        day=tables.effective,
        day_place=place_of(ASSIGNMENT, tables.assignment, "effective_date"),
        rates=tables.rates,
        currency=tables.currency,
    )
    return opinion_of(inputs, worked, "rcn", "value_rounded")


def replacement_cost_new(
    ledger: Ledger, line: Depreciation, *, day: date | Missing, day_place: Place, rates: RateTable, currency: str
) -> Worked:
    """Return price, tax, freight and their sum `rcn`, with `value_rounded` for an opinion.

    day  whose exchange rate serves where the price has no day of its own: date of loss, or effective date
    """
    work = Working(ledger, "LOS-01", line.item)
    exchange = depreciated_cost.price_exchange(line, rates, day, day_place, currency)
    rcn = depreciated_cost.replacement_cost_new(work, line, exchange=exchange)
    rounded_by_scale(work, "value_rounded", rcn, rcn, currency)
    return work.done()
