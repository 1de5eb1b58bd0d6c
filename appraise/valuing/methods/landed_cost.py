"""Landed cost of one foreign quotation (method rule R14, part B): what it costs delivered, duty and tax paid.

Duty, fees and import tax are typed by the appraiser from the rules of the day; none is built in. The fee is not in
the base of the import tax. All lines are rounded.
"""

from collections.abc import Sequence

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, given
from appraise.model.operations import LARGER, PERCENT_OF, SMALLER, SUM
from appraise.records.declare import place_of
from appraise.records.market import COSTS, SALES, Cost, Sale
from appraise.records.vocabulary import CostKind
from appraise.valuing.exchange import Exchange, in_report_currency
from appraise.valuing.lookup.rates import RateTable
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working

#: Costs of a border, of which a foreign quotation usually has some.
BORDER = (CostKind.DUTY, CostKind.ENTRY_FEE, CostKind.IMPORT_TAX)


def landed_cost(ledger: Ledger, quotation: Sale, *, costs: Sequence[Cost], rates: RateTable, currency: str) -> Worked:
    """Return what a quotation costs landed, to the cent.

    `costs` are the rows of Costs that name the quotation. A kind that is not typed costs nothing and makes no figure;
    of two rows of one kind both count. Figures: price, freight, transit_insurance, cif, duty, entry_fee, import_tax,
    set_up, setup_tax, other, total.
    """
    work = Working(ledger, "NET-01", quotation.id)
    exchange = Exchange(rates, currency, quotation.day, place_of(SALES, quotation, "day"), "NET-11", "NET-12")
    kinds = {kind: [one for one in costs if one.kind is kind] for kind in CostKind}
    price = _price(work, quotation, exchange)
    freight = _amounts(work, "freight", kinds[CostKind.FREIGHT], exchange)
    insurance = _charges(work, "transit_insurance", kinds[CostKind.TRANSIT_INSURANCE], [price], exchange)
    cif = work.figure("cif", money(currency), SUM, price, *freight, *insurance)
    duty = _charges(work, "duty", kinds[CostKind.DUTY], [cif], exchange)
    fee = _charges(work, "entry_fee", kinds[CostKind.ENTRY_FEE], [cif], exchange)
    import_tax = _charges(work, "import_tax", kinds[CostKind.IMPORT_TAX], [cif, *duty], exchange)
    set_up = _amounts(work, "set_up", kinds[CostKind.SET_UP], exchange)
    taxed = any(one.taxable is True for one in kinds[CostKind.SET_UP])
    setup_tax = _charges(work, "setup_tax", kinds[CostKind.SALES_TAX] if taxed else [], set_up, exchange)
    other = _amounts(work, "other", kinds[CostKind.OTHER], exchange)
    work.figure("total", money(currency), SUM, cif, *duty, *fee, *import_tax, *set_up, *setup_tax, *other)
    if quotation.currency != currency and not any(kinds[kind] for kind in BORDER):
        work.find("NET-13", place_of(SALES, quotation, "currency"), found=str(quotation.currency))
    return work.done()


def _price(work: Working, quotation: Sale, exchange: Exchange) -> Outcome:
    if not given(quotation.currency):
        return work.keep("price", work.lacking(SALES, quotation, "currency"))
    if quotation.currency == exchange.report:
        return work.cell(SALES, quotation, "price")
    foreign = work.cell(SALES, quotation, "price", name="price_foreign")
    return in_report_currency(work, "price", foreign, currency=quotation.currency, exchange=exchange)


def _amounts(work: Working, name: str, costs: Sequence[Cost], exchange: Exchange) -> list[Outcome]:
    """Return the typed amounts of a kind of cost, each in report currency."""
    amounts = []
    for number, cost in enumerate(costs, start=1):
        one = name if number == 1 else f"{name}{number}"
        if cost.currency in (BLANK, exchange.report):
            amounts.append(work.cell(COSTS, cost, "amount", name=one))
        elif not given(cost.currency):
            amounts.append(work.keep(one, work.lacking(COSTS, cost, "currency")))
        else:
            foreign = work.cell(COSTS, cost, "amount", name=f"{one}_foreign")
            amounts.append(in_report_currency(work, one, foreign, currency=cost.currency, exchange=exchange))
    return amounts


def _charges(
    work: Working, name: str, costs: Sequence[Cost], bases: Sequence[Outcome], exchange: Exchange
) -> list[Outcome]:
    """Return the charges of a kind: a typed amount, or a percent of the base within its least and most."""
    cash = money(exchange.report)
    charges = []
    for number, cost in enumerate(costs, start=1):
        one = name if number == 1 else f"{name}{number}"
        if given(cost.amount) and not given(cost.percent):
            charges += _amounts(work, one, [cost], exchange)
            continue
        base = bases[0] if len(bases) == 1 else work.figure(f"{one}_base", cash, SUM, *bases)
        rate = work.cell(COSTS, cost, "percent", name=f"{one}_rate")
        charge = work.figure(f"{one}_by_rate", cash, PERCENT_OF, base, rate)
        if cost.least is not BLANK:
            least = work.cell(COSTS, cost, "least", name=f"{one}_least")
            charge = work.figure(f"{one}_not_below", cash, LARGER, charge, least)
        if cost.most is not BLANK:
            most = work.cell(COSTS, cost, "most", name=f"{one}_most")
            charge = work.figure(f"{one}_not_above", cash, SMALLER, charge, most)
        charges.append(work.figure(one, cash, CARRIED, charge))
    return charges
