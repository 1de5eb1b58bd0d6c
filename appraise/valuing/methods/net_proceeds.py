"""Marketable cash value: what a sale would put into the owner's hand (method rule R16).

The all-in price is what a buyer pays; the seller gets the hammer price less commission, fees, their tax and cover,
and gets it later. Sold by a dealer on consignment there is no buyer's premium: the price itself is the starting sum.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import given, value_or
from appraise.model.operations import LARGER, PERCENT_OF, SUM, TIERED, Numbers, operation
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.selling import COMMISSIONS, PROCEEDS, CommissionTier, Proceeds
from appraise.records.tables import PREMIUMS
from appraise.records.vocabulary import SaleRoute, ValueType
from appraise.valuing.amounts import LESS_OTHERS
from appraise.valuing.final import rounded_by_scale, rounded_money
from appraise.valuing.inputs import Inputs
from appraise.valuing.lookup.premiums import PremiumTable
from appraise.valuing.operations import CARRIED, HAMMER_IMPLIED, HAMMER_IMPLIED_WHOLE
from appraise.valuing.opinions import concluded_value, opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.tables import JobTables
from appraise.valuing.working import Worked, Working, number_text

VALUES = (ValueType.MARKETABLE_CASH,)

ZERO = Decimal(0)


@operation(
    "worth today",
    "{0} ÷ (1 + {1} % × {2} ÷ 12), not below 0",
    lambda refs, places: f"MAX(0,{refs[0]})*1200/(1200+{refs[1]}*{refs[2]})",
)
def WORTH_TODAY(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Sum to come, percent a year, months until it comes: simple interest; a negative sum is worth nothing.

    Divided once, so that nothing is cut off before the rounding: 400.08 at 8 % for 10 months is 375.075, a tie.
    """
    return max(ZERO, values[0]) * 1200 / (1200 + values[1] * values[2])


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the marketable cash value of an item from its row on Proceeds."""
    line = inputs.uses.proceeds.get(inputs.item_id)
    if line is None:
        return without_row(inputs, "NET-08", PROCEEDS)
    currency = inputs.tables.currency
    if not given(currency):
        return without_row(inputs, "NET-09", ASSIGNMENT)
    price = concluded_value(inputs, rounded=True)
    commissions = inputs.uses.commissions
    worked = net_proceeds(ledger, line, commissions=commissions, tables=inputs.tables, price=price, currency=currency)
    return opinion_of(inputs, worked, "value", "value_rounded")


def net_proceeds(
    ledger: Ledger,
    line: Proceeds,
    *,
    commissions: Sequence[CommissionTier],
    tables: JobTables,
    price: Outcome | None = None,
    currency: str,
) -> Worked:
    """Return the marketable cash value of one item.

    `price` is the fair market value concluded in the workbook, used where none is typed. Figures: hammer,
    commission, tax_on_charges, loss_cover, net, value, value_rounded. Costs above the price leave a negative net,
    a value of 0 and a finding.
    """
    cash = money(currency)
    work = Working(ledger, "NET-01", line.item)
    paid = (
        work.keep("price", price) if price is not None and not given(line.price) else work.cell(PROCEEDS, line, "price")
    )
    hammer = _hammer(work, line, paid, tables, currency=currency)
    commission = _commission(work, line, hammer, commissions, currency=currency)
    fees = work.cell(PROCEEDS, line, "taxed_fees", blank=ZERO)
    charges = work.figure("charges", cash, SUM, commission, fees)
    tax = work.figure("tax_on_charges", cash, PERCENT_OF, charges, work.cell(PROCEEDS, line, "charge_tax", blank=ZERO))
    cover = work.figure(
        "loss_cover", cash, PERCENT_OF, hammer, work.cell(PROCEEDS, line, "cover", name="cover_rate", blank=ZERO)
    )
    untaxed = work.cell(PROCEEDS, line, "untaxed_costs", blank=ZERO)
    net = work.figure("net", cash, LESS_OTHERS, hammer, charges, tax, cover, untaxed)
    yearly = work.cell(PROCEEDS, line, "yearly", blank=ZERO)
    months = work.cell(PROCEEDS, line, "months", blank=None if value_or(line.yearly, ZERO) else ZERO)
    value = work.figure("value", cash, WORTH_TODAY, net, yearly, months)
    if isinstance(net, Figure) and net.number <= 0:
        work.find("NET-02", place_of(PROCEEDS, line, "item"), found=f"{net.number:f}")
    rounded_by_scale(work, "value_rounded", value, value, currency)
    return work.done()


def totals(ledger: Ledger, lines: Sequence[Worked], *, currency: str) -> Worked:
    """Return the sum of the values and the sum of the rounded lines, which is not rounded again."""
    work = Working(ledger, "NET-01")
    work.figure("total", money(currency), SUM, *(line["value"] for line in lines))
    work.figure("total_of_rounded", rounded_money(currency), SUM, *(line["value_rounded"] for line in lines))
    return work.done()


def _hammer(work: Working, line: Proceeds, paid: Outcome, tables: JobTables, *, currency: str) -> Outcome:
    """Return the sum the commission is taken of: the hammer price, or the dealer's price on consignment."""
    if value_or(line.route, SaleRoute.AUCTION) is SaleRoute.CONSIGNMENT:
        return work.figure("hammer", money(currency), CARRIED, paid)
    table = _premium_table(work, line, tables)
    if isinstance(table, NoFigure):
        return table
    place = place_of(PROCEEDS, line, "premium_table")
    if table.currency != currency:
        return work.refuse("hammer", "NET-10", place, found=table.currency, table=table.id, currency=currency)
    tax = work.ledger.typed("premium_tax_rate", table.tax, place_of(PREMIUMS, table.tax_row, "tax"))
    work.keep("premium_tax_rate", tax)
    if tables.whole_price:
        return _hammer_of_one_rate(work, table, paid, tax, place, currency=currency)
    hammer = work.figure("hammer", money(currency), HAMMER_IMPLIED, paid, tax, *premium_tiers(work, table))
    if table.ends is not None and isinstance(hammer, Figure) and hammer.number > table.ends:
        end = place_of(PREMIUMS, table.tiers[-1], "up_to")
        return work.refuse("hammer", "NET-14", end, found=f"{table.ends:f}", table=table.id)
    return hammer


def _hammer_of_one_rate(
    work: Working, table: PremiumTable, paid: Outcome, tax: Outcome, place: Place, *, currency: str
) -> Outcome:
    """Return the hammer price where one rate is charged on all of it.

    The price paid jumps where a tier ends, so that it may belong to no hammer price or to two: then there is no figure.
    """
    if isinstance(paid, NoFigure):
        return work.keep("hammer", paid)
    fitting = []
    lower = ZERO
    for number, tier in enumerate(table.tiers, start=1):
        upper = tier.up_to if given(tier.up_to) else None
        if given(tier.rate):
            hammer = HAMMER_IMPLIED_WHOLE.result([paid.number, table.tax, tier.rate], money(currency).places)
            if (number == 1 or hammer > lower) and (upper is None or hammer <= upper):
                fitting.append((number, tier))
        lower = lower if upper is None else upper
    if len(fitting) != 1:
        return work.refuse("hammer", "NET-15", place, found=number_text(paid), table=table.id, count=len(fitting))
    number, tier = fitting[0]
    rate = work.cell(PREMIUMS, tier, "rate", name=f"premium_rate_{number}")
    return work.figure("hammer", money(currency), HAMMER_IMPLIED_WHOLE, paid, tax, rate)


def premium_tiers(work: Working, table: PremiumTable) -> list[Outcome]:
    """Return upper end 1, rate 1, ..., rate of the last tier of a premium table, as typed."""
    figures: list[Outcome] = []
    for number, tier in enumerate(table.tiers, start=1):
        if number < len(table.tiers):
            figures.append(work.cell(PREMIUMS, tier, "up_to", name=f"premium_up_to_{number}"))
        figures.append(work.cell(PREMIUMS, tier, "rate", name=f"premium_rate_{number}"))
    return figures


def _premium_table(work: Working, line: Proceeds, tables: JobTables) -> PremiumTable | NoFigure:
    place = place_of(PROCEEDS, line, "premium_table")
    if not given(line.premium_table):
        lacking = work.lacking(PROCEEDS, line, "premium_table")
        work.keep("hammer", lacking)
        return lacking
    day: date
    if given(line.sale_day):
        day = line.sale_day
    elif given(tables.effective):
        day = tables.effective
    else:
        return work.refuse("hammer", "NET-07", place_of(PROCEEDS, line, "sale_day"))
    table = tables.premiums.in_force(line.premium_table, day)
    if table is None:
        return work.refuse("hammer", "NET-06", place, found=line.premium_table, day=day)
    return table


def _commission(
    work: Working, line: Proceeds, hammer: Outcome, commissions: Sequence[CommissionTier], *, currency: str
) -> Outcome:
    """Return the seller's commission by tiers, each tier rounded, not below the least on one lot."""
    place = place_of(PROCEEDS, line, "commission_table")
    if not given(line.commission_table):
        return work.keep("commission", work.lacking(PROCEEDS, line, "commission_table"))
    tiers = [one for one in commissions if one.table == line.commission_table]
    if not tiers:
        return work.refuse("commission", "NET-04", place, found=line.commission_table)
    for tier in tiers:
        if given(tier.currency) and tier.currency != currency:
            found, table = tier.currency, line.commission_table
            return work.refuse("commission", "NET-10", place, found=found, table=table, currency=currency)
    ends = [one.up_to for one in tiers[:-1]]
    rising = all(given(end) for end in ends) and [end for end in ends if given(end)] == sorted(
        {end for end in ends if given(end)}
    )
    if not rising or given(tiers[-1].up_to):
        return work.refuse("commission", "NET-05", place, found=line.commission_table)
    arguments: list[Outcome] = []
    for number, tier in enumerate(tiers, start=1):
        if number < len(tiers):
            arguments.append(work.cell(COMMISSIONS, tier, "up_to", name=f"commission_up_to_{number}"))
        arguments.append(work.cell(COMMISSIONS, tier, "rate", name=f"commission_rate_{number}"))
    by_tiers = work.figure("commission_by_tiers", money(currency), TIERED, hammer, *arguments)
    least = [
        work.cell(COMMISSIONS, tier, "least", name=f"commission_least_{number}")
        for number, tier in enumerate(tiers, start=1)
        if given(tier.least)
    ]
    return work.figure("commission", money(currency), LARGER, by_tiers, *least)
