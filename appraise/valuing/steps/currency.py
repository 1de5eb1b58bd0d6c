"""Step b: from the currency of the sale to the report's, at the rate of the sale's day (method rule R6)."""

from appraise.model.figure import Outcome
from appraise.model.kinds import DAY
from appraise.model.missing import given
from appraise.model.operations import CONVERTED_OVER, CONVERTED_TIMES
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.market import SALES
from appraise.records.tables import RATES
from appraise.records.vocabulary import RateDirection
from appraise.valuing.steps.line import Line


def converted(line: Line, price: Outcome) -> Outcome:
    """Return the price in the report's currency (figure `converted`; none is made if it is in it already).

    The rate is that of the sale's day, or the last one listed at most seven days before; its day is noted.
    """
    tables, sale, work = line.inputs.tables, line.sale, line.work
    if not given(tables.currency):
        return work.keep("converted", work.lacking(ASSIGNMENT, tables.assignment, "currency"))
    if not given(sale.currency) or sale.currency == tables.currency:
        return price
    if not given(sale.day):
        return work.keep("converted", work.lacking(SALES, sale, "day"))
    found = tables.rates.on(sale.currency, sale.day)
    if found is None:
        place = place_of(SALES, sale, "day")
        return work.refuse("converted", "CMP-31", place, found=sale.day.isoformat(), currency=sale.currency)
    place = place_of(RATES, found.row, "rate")
    rate = work.keep("rate", work.ledger.typed("rate", found.rate, place))
    work.note("rate_date", found.day, place_of(RATES, found.row, "day"), kind=DAY)
    operation = CONVERTED_TIMES if found.direction is RateDirection.REPORT_PER_FOREIGN else CONVERTED_OVER
    return work.figure("converted", line.report_money, operation, price, rate)
