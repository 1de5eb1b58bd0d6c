"""Checks of the opinions: basis, reasons, how they stand to one another and to the subject's history."""

from collections.abc import Iterator
from decimal import Decimal

from appraise.checks.assignment import MARKET_BASED
from appraise.checks.comparability import place, subjects_of
from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import mentions, word_count
from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.records.declare import place_of
from appraise.records.items import HISTORY, ITEMS
from appraise.records.market import OPINIONS, Opinion
from appraise.records.vocabulary import Conclusion, History, Route, Use, ValueType
from appraise.rules.thresholds import NotInForce, threshold
from appraise.valuing.days import add_months


def number(outcome: Outcome | None) -> Decimal | None:
    """Return the number of an outcome; None where there is none."""
    return outcome.value if isinstance(outcome, Figure) and isinstance(outcome.value, Decimal) else None


def values(context: CheckContext, value_type: ValueType) -> dict[str, Decimal]:
    """Return the rounded values of one type by item id, where there are any."""
    found = {}
    for key in context.items:
        result = context.results.get(key)
        for opinion in result.valuations if result is not None else ():
            rounded = number(opinion.rounded)
            if opinion.value_type is value_type and rounded is not None:
                found[key] = rounded
    return found


def _about(opinion: Opinion) -> tuple[str, ...]:
    return (opinion.item,) if given(opinion.item) else ()


@check("OPN-01")
def typed_value_without_basis(context: CheckContext) -> Iterator[Finding]:
    """A typed value has its reason, a short one its source."""
    for where, column, opinion in blanks(context, "opinions"):
        found = str(opinion.typed_value) if given(opinion.typed_value) else ""
        yield finding("OPN-01", where, *_about(opinion), found=found, heading=column.heading)


@check("OPN-02")
def typed_value_without_effect(context: CheckContext) -> Iterator[Finding]:
    """A typed value stands only where the conclusion is typed or the route short."""
    for opinion in context.job.opinions:
        if given(opinion.typed_value) and given(opinion.value_type) and opinion.route is not Route.SHORT:
            terms = context.terms_of.get(opinion.value_type)
            by_terms = terms.conclusion if terms is not None else BLANK
            conclusion = opinion.conclusion if given(opinion.conclusion) else by_terms
            if given(conclusion) and conclusion is not Conclusion.TYPED:
                where = place_of(OPINIONS, opinion, "typed_value")
                found = str(opinion.typed_value)
                yield finding("OPN-02", where, *_about(opinion), found=found, conclusion=conclusion)


@check("OPN-03")
def valued_and_not(context: CheckContext) -> Iterator[Finding]:
    """What is said not to be valued has neither a typed value nor comparisons with weight."""
    for key, opinion in context.opinions_of.items():
        if given(opinion.not_valued) and (given(opinion.typed_value) or key in context.weighted):
            where = place_of(OPINIONS, opinion, "not_valued")
            yield finding("OPN-03", where, key[0], found=opinion.not_valued, type=key[1])


@check("OPN-04")
def opinion_twice(context: CheckContext) -> Iterator[Finding]:
    """Each item and type of value has one row of Opinions."""
    for opinion in context.job.opinions:
        if given(opinion.item) and given(opinion.value_type):
            first = context.opinions_of[opinion.item, opinion.value_type]
            if first is not opinion:
                where = place_of(OPINIONS, opinion, "value_type")
                yield finding("OPN-04", where, opinion.item, found=opinion.value_type, first=first.row)


@check("OPN-05")
def opinion_of_no_stated_type(context: CheckContext) -> Iterator[Finding]:
    """Opinions are of types of value that the report states."""
    for opinion in context.job.opinions:
        if given(opinion.value_type) and context.terms_of and opinion.value_type not in context.terms_of:
            where = place_of(OPINIONS, opinion, "value_type")
            yield finding("OPN-05", where, *_about(opinion), found=opinion.value_type)


@check("OPN-06")
def reconciliation_bare(context: CheckContext) -> Iterator[Finding]:
    """A reconciliation gives a reason."""
    least = context.settings.reason_words
    for opinion in context.job.opinions:
        stated = opinion.reconciliation
        if given(stated) and word_count(stated) < least:
            where = place_of(OPINIONS, opinion, "reconciliation")
            yield finding("OPN-06", where, *_about(opinion), found=stated, least=least)


@check("OPN-08")
def short_route_above_limit(context: CheckContext) -> Iterator[Finding]:
    """The short route serves small values."""
    limit = context.settings.short_value
    for opinion in context.job.opinions:
        if opinion.route is Route.SHORT and given(opinion.typed_value) and opinion.typed_value > limit:
            where = place_of(OPINIONS, opinion, "route")
            yield finding("OPN-08", where, *_about(opinion), found=str(opinion.typed_value), limit=limit)


@check("OPN-09")
def rounding_too_fine(context: CheckContext) -> Iterator[Finding]:
    """A value is not rounded more finely than its range allows."""
    for key, result in context.results.items():
        for opinion in result.valuations:
            low, high = number(opinion.figures.get("low")), number(opinion.figures.get("high"))
            rounded = number(opinion.rounded)
            if key not in context.items or low is None or high is None or not rounded:
                continue
            step = _last_digit(rounded)
            if high - low > context.settings.range_steps * step:
                where = place_of(ITEMS, context.items[key], "id")
                ends = {"low": f"{low:f}", "high": f"{high:f}"}
                yield finding("OPN-09", where, key, found=f"{rounded:f}", step=f"{step:f}", **ends)


@check("OPN-10")
def replacement_below_market(context: CheckContext) -> Iterator[Finding]:
    """Replacing an item at retail does not cost less than its fair market value."""
    market, retail = values(context, ValueType.FAIR_MARKET), values(context, ValueType.RETAIL_REPLACEMENT)
    for key, value in retail.items():
        if key in market and value < market[key]:
            where = place_of(ITEMS, context.items[key], "id")
            yield finding("OPN-10", where, key, found=f"{value:f}", market=f"{market[key]:f}")


@check("OPN-11")
def one_ratio_for_all(context: CheckContext) -> Iterator[Finding]:
    """Two types of value are found each by its own evidence, not one as a share of the other."""
    types = list(context.terms_of)
    for position, first in enumerate(types):
        for second in types[position + 1 :]:
            one, other = values(context, first), values(context, second)
            ratios = {round(other[key] / one[key], 3) for key in one if key in other and one[key]}
            count = sum(1 for key in one if key in other)
            if len(ratios) == 1 and count >= context.settings.common_ratio_items:
                item = context.items[next(key for key in one if key in other)]
                where = place_of(ITEMS, item, "id")
                types_named = {"first": first, "second": second}
                yield finding("OPN-11", where, str(item.id), found=str(ratios.pop()), count=count, **types_named)


@check("OPN-12")
def far_from_own_price(context: CheckContext) -> Iterator[Finding]:
    """A value far from a recent price of the subject itself is explained."""
    effective = context.job.assignment.effective_date
    for key, lines in context.history_of.items():
        result = context.results.get(key)
        known = [number(one.rounded) for one in result.valuations] if result is not None else []
        value = next((one for one in known if one), None)
        for line in lines:
            dealt = line.kind in (History.ACQUIRED, History.SALE, History.OFFER, History.CONTRACT)
            if not dealt or value is None or not given(line.price) or not given(line.day) or not given(effective):
                continue
            own_currency = line.currency in (BLANK, context.job.assignment.currency)
            recent = add_months(line.day, context.settings.history_months) >= effective
            away = abs(100 * (value / line.price - 1)) if line.price else Decimal(0)
            if recent and own_currency and away > context.settings.history_percent and line.remark is BLANK:
                where = place_of(HISTORY, line, "remark")
                yield finding("OPN-12", where, key, found=str(line.price), value=f"{value:f}", day=line.day)


@check("OPN-13")
def market_not_told(context: CheckContext) -> Iterator[Finding]:
    """The market of each family is told where a value rests on a market."""
    told = {note.family for note in context.job.market_notes}
    if not any(value_type in MARKET_BASED for value_type in context.terms_of):
        return
    missing = set()
    for key, item in context.items.items():
        if given(item.family) and item.family not in told and item.family not in missing:
            missing.add(item.family)
            yield finding("OPN-13", place_of(ITEMS, item, "family"), key, found=item.family)


@check("OPN-14")
def flooding_discount(context: CheckContext) -> Iterator[Finding]:
    """In the United Kingdom nothing is taken off because all is sold at once."""
    if context.country == "GB":
        for line in context.job.comparisons:
            for key in ("level", "other", "lump"):
                word = mentions(getattr(line, f"{key}_reason"), "quantity", "blockage", "flood", "bulk", "all at once")
                if word and given(getattr(line, key)) and getattr(line, key) < 0:
                    yield finding("OPN-14", place(line, f"{key}_reason"), *subjects_of(line), found=word)


@check("OPN-15")
def selling_costs_deducted(context: CheckContext) -> Iterator[Finding]:
    """The seller's costs are not taken out of fair market value."""
    for line in context.job.comparisons:
        if line.value_type is ValueType.FAIR_MARKET:
            for key in ("level", "other", "lump"):
                word = mentions(
                    getattr(line, f"{key}_reason"), "commission", "selling cost", "cost of sale", "costs of sale"
                )
                if word and given(getattr(line, key)) and getattr(line, key) < 0:
                    yield finding("OPN-15", place(line, f"{key}_reason"), *subjects_of(line), found=word)


@check("OPN-07", Use.ESTATE)
def grouped_above_limit(context: CheckContext) -> Iterator[Finding]:
    """Only small articles are grouped on one line."""
    day = context.job.assignment.effective_date
    if context.country != "US" or not given(day):
        return
    try:
        limit = threshold("us-estate-group", day)
    except NotInForce:
        return
    for key, value in values(context, ValueType.FAIR_MARKET).items():
        item = context.items[key]
        if given(item.quantity) and item.quantity > 1 and not given(item.set_id):
            each = value / item.quantity
            if limit.reached(each):
                where = place_of(ITEMS, item, "quantity")
                yield finding("OPN-07", where, key, found=str(item.quantity), each=f"{each:.2f}", limit=limit.figure)


def _last_digit(value: Decimal) -> Decimal:
    """Return the place of the last digit that is not zero: 24,200 is told to the hundred."""
    return Decimal(1).scaleb(int(value.normalize().as_tuple().exponent))
