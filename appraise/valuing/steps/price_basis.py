"""Step a: the price on the footing of the value, in the currency of the sale (method rules R3, R4, R5).

In order: sales tax taken out where the record says that it is in; then the buyer's premium added, left, or undone,
as the price basis of the value asks; an asking price less the discount typed for it.
"""

from appraise.model.figure import Outcome
from appraise.model.kinds import Kind, money, typed_money
from appraise.model.missing import BLANK, given
from appraise.model.operations import LESS_PERCENT, WITHOUT_PERCENT
from appraise.records.assignment import VALUE_TERMS
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS, SALES
from appraise.records.vocabulary import PremiumTax, PriceBasis, PriceKind
from appraise.valuing.operations import CARRIED
from appraise.valuing.steps.implied_hammer import implied_hammer
from appraise.valuing.steps.line import Line
from appraise.valuing.steps.premium import premium_added, premium_table


def price_basis(line: Line) -> Outcome:
    """Return the price on the footing of the value (figure `basis`)."""
    sale, work = line.sale, line.work
    for key in ("kind", "currency"):
        if not given(getattr(sale, key)):
            return work.keep("basis", work.lacking(SALES, sale, key))
    if sale.kind is PriceKind.UNSOLD:
        return work.refuse("basis", "CMP-21", place_of(SALES, sale, "kind"), found=PriceKind.UNSOLD.value)
    currency = str(sale.currency)
    price = work.cell(SALES, sale, "price", kind=typed_money(currency))
    if given(sale.price) and sale.price <= 0:
        return work.refuse("basis", "CMP-22", place_of(SALES, sale, "price"), found=str(sale.price))
    price = _without_tax(line, price, money(currency))
    if sale.kind in (PriceKind.HAMMER, PriceKind.ALL_IN):
        return _auction_basis(line, price, money(currency))
    if sale.kind is PriceKind.ASKING and line.comparison.discount not in (BLANK, 0):
        return _discounted(line, price, money(currency))
    return work.figure("basis", money(currency), CARRIED, price)


def _without_tax(line: Line, price: Outcome, kind: Kind) -> Outcome:
    """Return the price without the sales tax that the record says is in it (figure `net_of_tax`)."""
    if line.sale.tax_included is BLANK or line.sale.tax_included == 0:
        return price
    if given(line.sale.tax_included) and line.sale.tax_included < 0:
        place = place_of(SALES, line.sale, "tax_included")
        return line.work.refuse("net_of_tax", "CMP-23", place, found=str(line.sale.tax_included))
    rate = line.work.cell(SALES, line.sale, "tax_included")
    return line.work.figure("net_of_tax", kind, WITHOUT_PERCENT, price, rate)


def _discounted(line: Line, price: Outcome, kind: Kind) -> Outcome:
    """Return the price to be expected of an asking price."""
    if given(line.comparison.discount) and not 0 < line.comparison.discount < 100:
        place = place_of(COMPARISONS, line.comparison, "discount")
        return line.work.refuse("basis", "CMP-24", place, found=str(line.comparison.discount))
    discount = line.typed_percent("discount", "discount")
    return line.work.figure("basis", kind, LESS_PERCENT, price, discount)


def _auction_basis(line: Line, price: Outcome, kind: Kind) -> Outcome:
    """Return a hammer or all-in price on the price basis of the value."""
    terms, work = line.inputs.terms, line.work
    if not given(terms.price_basis):
        return work.keep("basis", work.lacking(VALUE_TERMS, terms, "price_basis"))
    published, wanted = line.sale.kind, terms.price_basis
    if wanted is PriceBasis.HAMMER:
        return (
            work.figure("basis", kind, CARRIED, price)
            if published is PriceKind.HAMMER
            else work.figure("basis", kind, CARRIED, implied_hammer(line, price, kind))
        )
    if published is PriceKind.HAMMER:
        return premium_added(line, price, kind)
    if _tax_must_leave(line):
        return premium_added(line, implied_hammer(line, price, kind), kind)
    return work.figure("basis", kind, CARRIED, price)


def _tax_must_leave(line: Line) -> bool:
    """Say whether an all-in price holds a tax on the premium that the value leaves out."""
    if line.inputs.terms.premium_tax not in (PremiumTax.OUT, PremiumTax.REFUNDABLE):
        return False
    if not given(line.sale.premium_table):
        line.work.find("CMP-11", place_of(SALES, line.sale, "premium_table"))
        return False
    table = premium_table(line, quiet=True)
    return table is None or table.tax != 0
