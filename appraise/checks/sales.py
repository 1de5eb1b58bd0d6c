"""Checks of the sales: one price once, the subject's own sale, what a price is, whether it was verified."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.text import mentions, plain, plain_serial, says_nothing
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.records.declare import place_of
from appraise.records.items import Item
from appraise.records.market import SALES, Sale
from appraise.records.vocabulary import History, Market, PriceKind
from appraise.valuing.days import month_of

#: The level of the market a kind of price is made at; private and asking prices are made at several.
MADE_AT = {
    PriceKind.HAMMER: Market.AUCTION,
    PriceKind.ALL_IN: Market.AUCTION,
    PriceKind.UNSOLD: Market.AUCTION,
    PriceKind.DEALER_SOLD: Market.DEALER_RETAIL,
    PriceKind.PRIVATE_SOLD: Market.PRIVATE,
    PriceKind.TRADE: Market.TRADE,
}


def object_key(record: Sale | Item) -> tuple[str, str] | None:
    """Return what tells one object from another, maker and serial as compared; None where a serial is not stated."""
    if says_nothing(record.serial) or not plain_serial(record.serial) or not plain(record.maker):
        return None
    return plain(record.maker), plain_serial(record.serial)


def same_object(one: Sale | Item, other: Sale | Item) -> bool:
    """Say whether two records are of one object by maker and serial."""
    return object_key(one) is not None and object_key(one) == object_key(other)


def items_by_object(context: CheckContext) -> dict[tuple[str, str], list[Item]]:
    """Return the items with a serial by maker and serial."""
    found: dict[tuple[str, str], list[Item]] = defaultdict(list)
    for item in context.items.values():
        key = object_key(item)
        if key is not None:
            found[key].append(item)
    return found


@check("SAL-01")
def one_sale_twice(context: CheckContext) -> Iterator[Finding]:
    """One price of one object is one record, whichever sources report it."""
    limit = timedelta(days=context.settings.resale_days)
    by_object: dict[tuple[str, str], list[Sale]] = defaultdict(list)
    by_price: dict[tuple[object, ...], list[Sale]] = defaultdict(list)
    nameless: set[tuple[object, ...]] = set()
    for sale in context.sales.values():
        own, maker, model = object_key(sale), plain(sale.maker), plain(sale.model)
        if own is not None:
            # By serial whatever the price: one source gives the hammer price, the other the price with the premium.
            by_object[own].append(sale)
        if maker and model and given(sale.price):
            key = (maker, model, sale.currency, sale.price)
            by_price[key].append(sale)
            if own is None:
                nameless.add(key)
    pairs = [pair for group in by_object.values() for pair in _near(group, limit)]
    pairs += [pair for key, group in by_price.items() if key in nameless for pair in _near(group, limit)]
    for one, other in pairs:
        if object_key(one) is None or object_key(other) is None or same_object(one, other):
            place = place_of(SALES, other, "id")
            yield finding("SAL-01", place, str(one.id), str(other.id), found=str(other.id), day=one.day)


def _near(sales: list[Sale], limit: timedelta) -> Iterator[tuple[Sale, Sale]]:
    """Yield the pairs of sales within so many days of one another, the earlier first."""
    dated = sorted(((sale.day, sale.row, sale) for sale in sales if given(sale.day)), key=lambda one: one[:2])
    for position, (day, _row, sale) in enumerate(dated):
        for other_day, _other_row, other in reversed(dated[:position]):
            if day - other_day > limit:
                break
            yield other, sale


@check("SAL-02")
def subject_not_marked(context: CheckContext) -> Iterator[Finding]:
    """A sale of the subject itself is marked as such."""
    subjects = items_by_object(context)
    for sale in context.sales.values():
        if sale.is_subject is not True:
            for item in subjects.get(object_key(sale) or ("", ""), ()):
                place = place_of(SALES, sale, "is_subject")
                yield finding("SAL-02", place, str(item.id), str(sale.id), found=str(item.serial))


@check("SAL-03")
def subject_sale_not_in_history(context: CheckContext) -> Iterator[Finding]:
    """The subject's own earlier sale stands in its history."""
    subjects = items_by_object(context)
    compared: dict[str, dict[str, None]] = defaultdict(dict)
    for line in context.job.comparisons:
        if given(line.sale) and given(line.item) and line.item in context.items:
            compared[line.sale][line.item] = None
    for key, sale in context.sales.items():
        if sale.is_subject is not True or not given(sale.day):
            continue
        own = object_key(sale)
        items = list(compared[key]) if own is None else [str(one.id) for one in subjects.get(own, ())]
        for item in items:
            told = (one for one in context.history_of.get(item, ()) if one.kind is not History.NONE_KNOWN)
            if not any(line.day == sale.day or line.price == sale.price for line in told):
                place = place_of(SALES, sale, "day")
                yield finding("SAL-03", place, item, key, found=sale.day.isoformat())


@check("SAL-04")
def weight_on_unverified(context: CheckContext) -> Iterator[Finding]:
    """A sale that carries weight was verified."""
    for line, _item, sale in context.lines:
        unsure = given(sale.verified) and (says_nothing(sale.verified) or mentions(sale.verified, "not", "unverified"))
        if unsure:
            place = place_of(SALES, sale, "verified")
            yield finding("SAL-04", place, str(line.item), str(sale.id), found=str(sale.verified), line=line.id)


@check("SAL-05")
def weight_on_related_parties(context: CheckContext) -> Iterator[Finding]:
    """A sale between related parties carries no weight unanswered."""
    for line, _item, sale in context.lines:
        if sale.related is True:
            place = place_of(SALES, sale, "related")
            yield finding("SAL-05", place, str(line.item), str(sale.id), found="yes", line=line.id)


@check("SAL-06")
def price_against_market(context: CheckContext) -> Iterator[Finding]:
    """The kind of a price agrees with the market it was made in."""
    for sale in context.sales.values():
        if given(sale.kind) and given(sale.market):
            expected = MADE_AT.get(sale.kind)
            if expected is not None and sale.market is not expected:
                place = place_of(SALES, sale, "market")
                yield finding("SAL-06", place, str(sale.id), found=sale.market, kind=sale.kind, expected=expected)


@check("SAL-07")
def tax_in_the_price(context: CheckContext) -> Iterator[Finding]:
    """A price described as with sales tax says how much."""
    for sale in context.sales.values():
        word = mentions(sale.description, "incl. tax", "including tax", "incl. vat", "including vat", "with tax", "vat")
        if word and sale.tax_included is BLANK:
            yield finding("SAL-07", place_of(SALES, sale, "tax_included"), str(sale.id), found=word)


@check("SAL-08")
def estimates_reversed(context: CheckContext) -> Iterator[Finding]:
    """The low estimate is not above the high one."""
    for sale in context.sales.values():
        low, high = sale.estimate_low, sale.estimate_high
        if given(low) and given(high) and low > high:
            yield finding("SAL-08", place_of(SALES, sale, "estimate_low"), str(sale.id), found=str(low), high=high)


@check("SAL-09")
def asking_price_not_saved(context: CheckContext) -> Iterator[Finding]:
    """The page of an asking price that carries weight is saved."""
    for line, _item, sale in context.lines:
        if sale.kind is PriceKind.ASKING and sale.evidence_file is BLANK:
            yield finding("SAL-09", place_of(SALES, sale, "evidence_file"), str(line.item), str(sale.id))


@check("SAL-10")
def sale_after_report(context: CheckContext) -> Iterator[Finding]:
    """No sale is dated after the report."""
    report = context.job.assignment.report_date
    for sale in context.sales.values():
        if given(report) and given(sale.day) and sale.day > report:
            place = place_of(SALES, sale, "day")
            yield finding("SAL-10", place, str(sale.id), found=sale.day.isoformat(), report=report)


@check("SAL-11")
def sold_before_made(context: CheckContext) -> Iterator[Finding]:
    """Nothing is sold before it is made."""
    for key, months in context.made.items():
        sale = context.sales.get(key)
        first = months.first if months else None
        if sale is not None and given(sale.day) and first is not None and month_of(sale.day) < first:
            place = place_of(SALES, sale, "day")
            yield finding("SAL-11", place, key, found=sale.day.isoformat(), made=months.edtf())


@check("SAL-12")
def seen_before_sold(context: CheckContext) -> Iterator[Finding]:
    """A published result was not seen before the sale."""
    for sale in context.sales.values():
        if given(sale.accessed) and given(sale.day) and sale.accessed < sale.day:
            place = place_of(SALES, sale, "accessed")
            yield finding("SAL-12", place, str(sale.id), found=sale.accessed.isoformat(), day=sale.day)


@check("SAL-13")
def estimate_taken_for_price(context: CheckContext) -> Iterator[Finding]:
    """A price that equals an estimate to the cent is looked at again."""
    for line, _item, sale in context.lines:
        if given(sale.price) and sale.price in (sale.estimate_low, sale.estimate_high):
            place = place_of(SALES, sale, "price")
            yield finding("SAL-13", place, str(line.item), str(sale.id), found=str(sale.price))
