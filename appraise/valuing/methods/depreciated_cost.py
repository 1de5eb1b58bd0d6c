"""Actual cash value by cost new less depreciation (method rule R15), and the cost new itself.

The reading suits gear that wears out. For antiques and old instruments it makes no sense: their price rises with
age, and market value is the accepted measure of actual cash value. Which reading holds is the policy's or the law's
to say; `actual_cash_value` asks for it.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import COUNT, FACTOR, SHOWN_PERCENT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given, value_or
from appraise.model.operations import (
    DIFFERENCE,
    LARGER,
    LESS_PERCENT,
    PERCENT_BELOW,
    PERCENT_OF,
    PERCENT_SHARE,
    SUM,
    Numbers,
    operation,
)
from appraise.model.place import Place
from appraise.records.claims import DEPRECIATION, Depreciation
from appraise.records.declare import place_of
from appraise.records.vocabulary import DepreciationManner
from appraise.valuing.amounts import LESS_FRACTION
from appraise.valuing.days import full_months
from appraise.valuing.exchange import Exchange, in_report_currency
from appraise.valuing.lookup.rates import RateTable
from appraise.valuing.working import Worked, Working, dividable

ZERO = Decimal(0)


@operation(
    "fraction used up",
    "the smaller of {0} ÷ {1} and 1, × (1 − {2} %)",
    lambda refs, places: f"MIN({refs[0]},{refs[1]})*(100-{refs[2]})/(100*{refs[1]})",
)
def USED_UP(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Age and life in the same unit, residual percent at the end of that life.

    Divided last, so that nothing is cut off before the rounding: 11 of 96 x 75 % is 0.0859375, a tie.
    """
    return min(values[0], values[1]) * (100 - values[2]) / (100 * values[1])


@operation(
    "fraction used up by a yearly percent",
    "the smaller of {1} % × {0} months ÷ 12 and 1 − {2} %",
    lambda refs, places: f"MIN({refs[1]}*{refs[0]}/1200,1-{refs[2]}/100)",
)
def USED_UP_YEARLY(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Age in months, percent a year of the cost new, residual percent."""
    return min(values[1] * values[0] / 1200, 1 - values[2] / 100)


@operation(
    "declined yearly",
    "{0} × (1 − {1} %) for each of the full years in {2} months",
    lambda refs, places: f"{refs[0]}*(1-{refs[1]}/100)^INT({refs[2]}/12)",
)
def DECLINED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Cost new, percent a year of what is left, age in months; only full years count."""
    return values[0] * (1 - values[1] / 100) ** int(values[2] // 12)


def depreciated_cost(
    ledger: Ledger,
    line: Depreciation,
    *,
    loss_day: date | Missing,
    loss_place: Place,
    rates: RateTable,
    currency: str,
) -> Worked:
    """Return the cost new of one item and its actual cash value, to the cent and never rounded further.

    Figures: tax, rcn, age_months, physical, after_physical, after_functional, acv, depreciation, depreciation_pct.
    """
    work = Working(ledger, "LOS-01", line.item)
    rcn = replacement_cost_new(work, line, exchange=price_exchange(line, rates, loss_day, loss_place, currency))
    after_physical = _after_physical(work, line, rcn, loss_day=loss_day, loss_place=loss_place, currency=currency)
    functional = work.cell(DEPRECIATION, line, "functional", blank=ZERO)
    economic = work.cell(DEPRECIATION, line, "economic", blank=ZERO)
    after_functional = work.figure("after_functional", money(currency), LESS_PERCENT, after_physical, functional)
    acv = work.figure("acv", money(currency), LESS_PERCENT, after_functional, economic)
    depreciation = work.figure("depreciation", money(currency), DIFFERENCE, rcn, acv)
    if dividable(rcn):
        work.figure("depreciation_pct", SHOWN_PERCENT, PERCENT_SHARE, depreciation, rcn)
    return work.done()


def price_exchange(
    line: Depreciation, rates: RateTable, loss_day: date | Missing, loss_place: Place, currency: str
) -> Exchange:
    """Return the rates of the day the price was seen; if that is blank, of the date of loss."""
    if given(line.seen_on):
        return Exchange(rates, currency, line.seen_on, place_of(DEPRECIATION, line, "seen_on"), "LOS-17", "LOS-18")
    return Exchange(rates, currency, loss_day, loss_place, "LOS-17", "LOS-18")


def replacement_cost_new(work: Working, line: Depreciation, *, exchange: Exchange) -> Outcome:
    """Return the cost of a new one of like kind and quality (figures price, freight, tax, rcn).

    Price and freight in a foreign currency are converted apart, each rounded; the tax is on the price alone.
    """
    cash = money(exchange.report)
    price, freight = (_converted(work, line, key, exchange) for key in ("price", "freight"))
    rate = work.cell(DEPRECIATION, line, "tax", name="tax_rate", blank=ZERO)
    tax = work.figure("tax", cash, PERCENT_OF, price, rate)
    return work.figure("rcn", cash, SUM, price, tax, freight)


def _converted(work: Working, line: Depreciation, key: str, exchange: Exchange) -> Outcome:
    """Return price or freight in the report's currency; a blank freight is 0."""
    blank = ZERO if key == "freight" else None
    if line.currency in (Missing.BLANK, exchange.report):
        return work.cell(DEPRECIATION, line, key, blank=blank)
    if not given(line.currency):
        return work.keep(key, work.lacking(DEPRECIATION, line, "currency"))
    foreign = work.cell(DEPRECIATION, line, key, name=f"{key}_foreign", blank=blank)
    return in_report_currency(work, key, foreign, currency=line.currency, exchange=exchange)


def totals(ledger: Ledger, lines: Sequence[Worked], *, currency: str) -> Worked:
    """Return the sums over the lines: total_rcn, total_acv and the share depreciated."""
    work = Working(ledger, "LOS-01")
    rcn = work.figure("total_rcn", money(currency), SUM, *(line["rcn"] for line in lines))
    acv = work.figure("total_acv", money(currency), SUM, *(line["acv"] for line in lines))
    if dividable(rcn):
        work.figure("total_depreciation_pct", SHOWN_PERCENT, PERCENT_BELOW, acv, rcn)
    return work.done()


def _after_physical(
    work: Working, line: Depreciation, rcn: Outcome, *, loss_day: date | Missing, loss_place: Place, currency: str
) -> Outcome:
    """Return the cost new less physical wear, in the manner typed (blank: by age and life)."""
    manner = value_or(line.manner, DepreciationManner.AGE_AND_LIFE)
    if manner is DepreciationManner.PERCENT_GOOD:
        good = work.cell(DEPRECIATION, line, "percent_good")
        return work.figure("after_physical", money(currency), PERCENT_OF, rcn, good)
    age = _age(work, line, loss_day=loss_day, loss_place=loss_place)
    residual = work.cell(DEPRECIATION, line, "residual", blank=ZERO)
    if manner is DepreciationManner.DECLINING:
        yearly = work.cell(DEPRECIATION, line, "yearly")
        declined = work.figure("declined", money(currency), DECLINED, rcn, yearly, age)
        least = work.figure("residual_value", money(currency), PERCENT_OF, rcn, residual)
        return work.figure("after_physical", money(currency), LARGER, declined, least)
    if manner is DepreciationManner.YEARLY_PERCENT:
        yearly = work.cell(DEPRECIATION, line, "yearly")
        physical = work.figure("physical", FACTOR, USED_UP_YEARLY, age, yearly, residual)
    else:
        physical = work.figure("physical", FACTOR, USED_UP, age, _life(work, line), residual)
    return work.figure("after_physical", money(currency), LESS_FRACTION, rcn, physical)


def _age(work: Working, line: Depreciation, *, loss_day: date | Missing, loss_place: Place) -> Outcome:
    """Return the age in months: the effective one if typed, else the full months in use."""
    if line.effective_age is not Missing.BLANK:
        age = work.cell(DEPRECIATION, line, "effective_age", name="age_months", kind=COUNT)
        if given(line.effective_age):
            if line.effective_age < 0:
                return _refuse_age(work, line, "effective_age", found=str(line.effective_age))
            work.find("LOS-02", place_of(DEPRECIATION, line, "effective_age"), found=str(line.effective_age))
        return age
    if not given(line.in_service):
        return work.keep("age_months", work.lacking(DEPRECIATION, line, "in_service"))
    if not given(loss_day):
        return work.refuse("age_months", "LOS-03", loss_place)
    months = full_months(line.in_service, loss_day)
    if months < 0:
        return _refuse_age(work, line, "in_service", found=line.in_service.isoformat())
    return work.note("age_months", Decimal(months), place_of(DEPRECIATION, line, "in_service"), loss_place, kind=COUNT)


def _refuse_age(work: Working, line: Depreciation, key: str, *, found: str) -> Outcome:
    return work.refuse("age_months", "LOS-04", place_of(DEPRECIATION, line, key), found=found)


def _life(work: Working, line: Depreciation) -> Outcome:
    if given(line.life) and line.life <= 0:
        place = place_of(DEPRECIATION, line, "life")
        return work.refuse("life", "LOS-05", place, found=str(line.life))
    return work.cell(DEPRECIATION, line, "life", kind=COUNT)
