"""Alternate valuation date of a US estate (method rule R18).

Six months after the death, item by item: what was sold, distributed or otherwise disposed of on or before that day
is valued on the day of disposal, all else on the alternate date (26 CFR 20.2032-1(a)). A binding contract counts from
its own day unless it is not carried out in substance. The month without the day takes its last day (Rev. Rul.
74-260, from memory). The election is all or nothing for the whole estate and only allowed if it lowers both the gross
estate and the tax (IRC 2032(c)): the first test is worked out, and only from counsel's figures; the tax is counsel's.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.kinds import DAY, money, typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given, value_or
from appraise.model.operations import DIFFERENCE, PERCENT_OF, PRODUCT, SUM, TIER_REACHED, TIERED
from appraise.model.place import Place
from appraise.records.alternate import ALTERNATE, COUNSEL_FIGURES, AlternateLine, CounselFigures
from appraise.records.declare import place_of
from appraise.records.tables import PREMIUMS
from appraise.records.vocabulary import Departure, PriceKind
from appraise.valuing.days import add_months
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.methods.net_proceeds import premium_tiers
from appraise.valuing.operations import CARRIED
from appraise.valuing.roll import RollCodes, roll_factor
from appraise.valuing.tables import JobTables
from appraise.valuing.working import Worked, Working, compared, number_text

MONTHS = 6
CODES = RollCodes("ALT-07", "ALT-08", "ALT-08")
#: Kinds of price that say what was paid in full.
PAID = (PriceKind.HAMMER, PriceKind.ALL_IN, PriceKind.DEALER_SOLD, PriceKind.PRIVATE_SOLD, PriceKind.TRADE)


@frozen
class EstateDays:
    """The day of death and the alternate date, as figures' base; `place` is the cell of the first."""

    death: date
    alternate: date
    place: Place


def estate_days(ledger: Ledger, death: date | Missing, place: Place) -> EstateDays | None:
    """Return both days and note the alternate date (figure `alternate_date`); None without a date of death."""
    if not given(death):
        return None
    alternate = add_months(death, MONTHS)
    ledger.note("alternate_date", alternate, kind=DAY, places=(place,))
    return EstateDays(death, alternate, place)


def alternate_value(
    ledger: Ledger,
    line: AlternateLine,
    *,
    days: EstateDays,
    tables: JobTables,
    at_death: Outcome | None = None,
    currency: str,
) -> Worked:
    """Return one item (or part) at death and at its own later day, before rounding and as reported.

    `at_death` is the value before rounding concluded in the workbook for the whole item, used where none is typed.
    Figures: at_death, date, alternate, dod_reported, alternate_reported; also premium, or factor. A price received at
    arm's length on or before the alternate date is the value, to the cent; an opinion is rounded by the scale.
    """
    work = Working(ledger, "ALT-01", line.item)
    death_value = _at_death(work, line, at_death, currency=currency)
    rounded_by_scale(work, "dod_reported", death_value, death_value, currency)
    disposal = _disposal(work, line)
    in_time = disposal is not None and disposal <= days.alternate
    day = disposal if disposal is not None and in_time else days.alternate
    work.note("date", day, place_of(ALTERNATE, line, "day"), kind=DAY)
    if disposal is not None and disposal < days.death:
        place = place_of(ALTERNATE, line, "day")
        work.keep("alternate_reported", work.refuse("alternate", "ALT-13", place, found=disposal.isoformat()))
        return work.done()
    if _disposal_unknown(line):
        work.keep("alternate", work.lacking(ALTERNATE, line, "day" if given(line.departure) else "departure"))
        work.keep("alternate_reported", work.figures["alternate"])
        return work.done()
    if in_time and _price_counts(work, line):
        price = _price(work, line, tables, currency=currency)
        alternate = work.figure("alternate", money(currency), SUM, *price)
        work.figure("alternate_reported", money(currency), CARRIED, alternate)
        return work.done()
    alternate = _opinion(work, line, death_value, days, day, tables, currency=currency)
    rounded_by_scale(work, "alternate_reported", alternate, alternate, currency)
    if not in_time and given(line.price) and disposal is not None:
        price_place = place_of(ALTERNATE, line, "price")
        work.find("ALT-03", price_place, found=str(line.price), value=number_text(alternate), day=disposal.isoformat())
    return work.done()


def totals(ledger: Ledger, lines: Sequence[Worked], counsel: CounselFigures, *, currency: str) -> Worked:
    """Return the totals at both dates and, from counsel's figures, the test of the value.

    Figures: dod_total, alternate_total (before rounding), dod_total_reported, alternate_total_reported; with both of
    counsel's figures also gross_estate_dod, gross_estate_alternate, gross_estate_decrease, value_test_met.
    """
    cash = money(currency)
    work = Working(ledger, "ALT-01")
    work.figure("dod_total", cash, SUM, *(line["at_death"] for line in lines))
    work.figure("alternate_total", cash, SUM, *(line["alternate"] for line in lines))
    exact = typed_money(currency)
    death = work.figure("dod_total_reported", exact, SUM, *(line["dod_reported"] for line in lines))
    alternate = work.figure("alternate_total_reported", exact, SUM, *(line["alternate_reported"] for line in lines))
    if counsel.other_at_death is Missing.BLANK and counsel.other_alternate is Missing.BLANK:
        return work.done()
    other_death = work.cell(COUNSEL_FIGURES, counsel, "other_at_death")
    other_alternate = work.cell(COUNSEL_FIGURES, counsel, "other_alternate")
    gross_death = work.figure("gross_estate_dod", cash, SUM, other_death, death)
    gross_alternate = work.figure("gross_estate_alternate", cash, SUM, other_alternate, alternate)
    work.figure("gross_estate_decrease", cash, DIFFERENCE, gross_death, gross_alternate)
    order = compared(gross_alternate, gross_death)
    work.answer("value_test_met", None if order is None else order < 0, gross_death, gross_alternate)
    return work.done()


def _at_death(work: Working, line: AlternateLine, concluded: Outcome | None, *, currency: str) -> Outcome:
    if given(line.at_death) or concluded is None:
        return work.cell(ALTERNATE, line, "at_death")
    if line.share is Missing.BLANK:
        return work.figure("at_death", money(currency), CARRIED, concluded)
    return work.figure("at_death", money(currency), PERCENT_OF, concluded, work.cell(ALTERNATE, line, "share"))


def _disposal(work: Working, line: AlternateLine) -> date | None:
    """Return the day of disposal: that of the contract if it counts, else of the event; None while still held."""
    if line.departure is Departure.HELD:
        return None
    if given(line.contract_day):
        if line.contract_kept is True:
            return line.contract_day
        if line.contract_kept is not False:
            work.find("ALT-02", place_of(ALTERNATE, line, "contract_kept"), found=line.contract_day.isoformat())
            return line.contract_day
    return line.day if given(line.day) else None


def _disposal_unknown(line: AlternateLine) -> bool:
    """Say whether it is not known if, or when, the item left."""
    if not given(line.departure):
        return True
    return line.departure is not Departure.HELD and not given(line.day) and not given(line.contract_day)


def _price_counts(work: Working, line: AlternateLine) -> bool:
    """Say whether the price received is the value: a price paid in full, at arm's length."""
    if line.departure is not Departure.SOLD or not given(line.price):
        return False
    place = place_of(ALTERNATE, line, "price")
    if line.arms_length is not True:
        work.find("ALT-04", place_of(ALTERNATE, line, "arms_length"), found=str(line.price))
        return False
    if line.price_kind not in PAID:
        work.find("ALT-05", place, found=str(value_or(line.price_kind, PriceKind.UNSOLD)))
        return False
    return True


def _price(work: Working, line: AlternateLine, tables: JobTables, *, currency: str) -> list[Outcome]:
    """Return the parts of the price a buyer paid: hammer price, premium and its tax; or the price itself."""
    price = work.cell(ALTERNATE, line, "price")
    if line.price_kind is not PriceKind.HAMMER:
        return [price]
    place = place_of(ALTERNATE, line, "premium_table")
    if not given(line.premium_table):
        return [work.keep("premium", work.lacking(ALTERNATE, line, "premium_table"))]
    day = line.day if given(line.day) else line.contract_day
    table = tables.premiums.in_force(line.premium_table, day) if given(day) else None
    if table is None:
        return [work.refuse("premium", "ALT-06", place, found=line.premium_table, day=day)]
    if table.currency != currency:
        return [work.refuse("premium", "ALT-14", place, found=table.currency, table=table.id, currency=currency)]
    if table.ends is not None and given(line.price) and line.price > table.ends:
        return [work.refuse("premium", "ALT-15", place, found=f"{table.ends:f}", table=table.id)]
    cash = money(currency)
    operation = TIER_REACHED if tables.whole_price else TIERED
    premium = work.figure("premium", cash, operation, price, *premium_tiers(work, table))
    if table.tax == 0:
        return [price, premium]
    rate = work.ledger.typed("premium_tax_rate", table.tax, place_of(PREMIUMS, table.tax_row, "tax"))
    return [price, premium, work.figure("premium_tax", cash, PERCENT_OF, premium, rate)]


def _opinion(
    work: Working,
    line: AlternateLine,
    death_value: Outcome,
    days: EstateDays,
    day: date,
    tables: JobTables,
    *,
    currency: str,
) -> Outcome:
    """Return the value on its day before rounding: the appraiser's own figure, or the value at death rolled."""
    if line.appraised is not Missing.BLANK:
        appraised = work.cell(ALTERNATE, line, "appraised")
        return work.figure("alternate", money(currency), CARRIED, appraised)
    place = place_of(ALTERNATE, line, "index")
    if line.index is Missing.BLANK:
        return work.refuse("alternate", "ALT-09", place_of(ALTERNATE, line, "appraised"))
    rolled = roll_factor(work, tables.indexes, line.index, since=days.death, to=day, place=place, codes=CODES)
    if rolled.carried:
        work.find("ALT-10", place, found=str(line.index), day=day.isoformat())
    return work.figure("alternate", money(currency), PRODUCT, death_value, rolled.factor)


def share_findings(lines: Sequence[AlternateLine]) -> tuple[Finding, ...]:
    """Return a finding for each item whose typed parts do not make 100 percent together."""
    found = []
    for item in dict.fromkeys(one.item for one in lines if given(one.item)):
        parts = [one for one in lines if one.item == item]
        shares = [one.share for one in parts if given(one.share)]
        if not shares and len(parts) == 1:
            continue
        total = sum(shares, Decimal(0))
        if total != 100 or len(shares) != len(parts):
            place = place_of(ALTERNATE, parts[-1], "share")
            found.append(finding("ALT-11", place, item, found=f"{total:f}", parts=len(parts)))
    return tuple(found)
