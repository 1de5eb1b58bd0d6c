"""Replacement cost new: what a new one of like kind and quality costs, without anything taken off for age.

For things still made, or copies made to order. For scarce old things it may lie far below their value.
"""

from datetime import date

from appraise.model.ledger import Ledger
from appraise.model.missing import Missing
from appraise.model.place import Place
from appraise.records.claims import Depreciation
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.lookup.rates import RateTable
from appraise.valuing.methods import depreciated_cost
from appraise.valuing.working import Worked, Working


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
