"""Amounts converted on a day of their own: quotations, costs, a whole schedule (method rule R6)."""

from datetime import date

from appraise.model.figure import Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import DAY, money
from appraise.model.missing import Missing, given
from appraise.model.operations import CONVERTED_OVER, CONVERTED_TIMES
from appraise.model.place import Place
from appraise.records.declare import place_of
from appraise.records.tables import RATES
from appraise.records.vocabulary import RateDirection
from appraise.valuing.lookup.rates import RateTable
from appraise.valuing.working import Working


@frozen
class Exchange:
    """The rates of one day, into the report's currency.

    place    the cell the day was typed in
    lacking  code of the finding "no rate": details `currency`; found is the day
    earlier  code of the finding "the rate of an earlier day is used": details `currency`, `rate_day`
    """

    rates: RateTable
    report: str
    day: date | Missing
    place: Place
    lacking: str
    earlier: str


def in_report_currency(
    work: Working, name: str, amount: Outcome, *, currency: str | Missing, exchange: Exchange
) -> Outcome:
    """Return an amount in the report's currency, rounded to its minor unit; unchanged if it is in it already.

    Figures `<name>_rate` and `<name>_rate_date` say at which rate; the result has the name itself.
    """
    if not given(currency) or currency == exchange.report:
        return amount
    if not given(exchange.day):
        return work.refuse(name, exchange.lacking, exchange.place, currency=currency)
    found = exchange.rates.on(currency, exchange.day)
    if found is None:
        return work.refuse(name, exchange.lacking, exchange.place, found=exchange.day.isoformat(), currency=currency)
    if found.day != exchange.day:
        work.find(
            exchange.earlier,
            exchange.place,
            found=exchange.day.isoformat(),
            currency=currency,
            rate_day=found.day.isoformat(),
        )
    rate = work.ledger.typed(f"{name}_rate", found.rate, place_of(RATES, found.row, "rate"))
    work.keep(f"{name}_rate", rate)
    work.note(f"{name}_rate_date", found.day, place_of(RATES, found.row, "day"), kind=DAY)
    operation = CONVERTED_TIMES if found.direction is RateDirection.REPORT_PER_FOREIGN else CONVERTED_OVER
    return work.figure(name, money(exchange.report), operation, amount, rate)
