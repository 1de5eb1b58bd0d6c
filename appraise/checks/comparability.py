"""Checks of the comparisons: whether a sale serves the item, and whether it was brought to it rightly."""

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal

from appraise.checks.context import CheckContext, sides_of
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.sales import object_key
from appraise.checks.text import mentions, same_name
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.model.place import Place
from appraise.records.declare import place_of
from appraise.records.items import ITEMS, Item
from appraise.records.market import COMPARISONS, OPINIONS, SALES, Comparison, Sale
from appraise.records.vocabulary import Compare, FinishClass, Market, PriceKind, Route, ValueType

#: Finishes that buyers take for one another. A French polish is of its own, and "no finish" compares with any.
FINISH_GROUPS: dict[FinishClass, str] = {
    FinishClass.ORIGINAL: "original",
    FinishClass.TOUCHED_IN: "original",
    FinishClass.OVERSPRAYED: "refinished",
    FinishClass.FACTORY_REFINISH: "refinished",
    FinishClass.REFINISH_SAME: "refinished",
    FinishClass.REFINISH_OTHER: "refinished",
    FinishClass.STRIPPED: "refinished",
    FinishClass.FRENCH_POLISHED: "French polished",
}


def finish_group(record: Item | Sale) -> str:
    """Return the group of a finish, "" where it is not given or there is none."""
    return FINISH_GROUPS.get(record.finish_class, "") if given(record.finish_class) else ""


def subjects_of(line: Comparison) -> tuple[str, ...]:
    """Return item and line as findings name them."""
    return tuple(str(one) for one in (line.item, line.id) if given(one))


def place(line: Comparison, key: str) -> Place:
    """Return the place of one value of a comparison."""
    return place_of(COMPARISONS, line, key)


@check("CPR-01")
def step_without_reason(context: CheckContext) -> Iterator[Finding]:
    """Each percent and each lump sum has its reason."""
    for where, column, line in blanks(context, "comparisons"):
        typed = getattr(line, column.key.removesuffix("_reason"))
        yield finding("CPR-01", where, *subjects_of(line), found=str(typed), heading=column.heading)


@check("CPR-02")
def finish_unlike_all(context: CheckContext) -> Iterator[Finding]:
    """Some comparison with weight has a finish of the subject's class."""
    for (key, value_type), pairs in context.weighted.items():
        item = context.items.get(key)
        if item is None or not finish_group(item):
            continue
        groups = {finish_group(sale) for _line, sale in pairs} - {""}
        if groups and finish_group(item) not in groups:
            where = place_of(ITEMS, item, "finish_class")
            found = str(item.finish_class)
            yield finding("CPR-02", where, key, found=found, others=", ".join(sorted(groups)), type=value_type)


@check("CPR-03")
def market_mixed(context: CheckContext) -> Iterator[Finding]:
    """A sale of another market than the value's is brought to it by an explicit level."""
    for line, _item, sale in context.lines:
        market = _market(context, line)
        mixed = market is not None and given(sale.market) and sale.market is not market
        if mixed and line.level is BLANK and _adjusts(context, line):
            yield finding("CPR-03", place(line, "level"), *subjects_of(line), found=str(sale.market), market=market)


@check("CPR-04")
def level_without_cause(context: CheckContext) -> Iterator[Finding]:
    """No level is taken off a sale of the value's own market."""
    for line, _item, sale in context.lines:
        market = _market(context, line)
        if market is not None and sale.market is market and given(line.level) and line.level != 0:
            found = str(line.level)
            yield finding("CPR-04", place(line, "level"), *subjects_of(line), found=found, market=market)


@check("CPR-05")
def condition_sign(context: CheckContext) -> Iterator[Finding]:
    """A typed condition percent has the sign that the grades ask for: comparison better, minus."""
    for line, item, sale in context.lines:
        if given(line.condition) and given(item.grade) and given(sale.grade):
            better = sale.grade - item.grade
            if line.condition * better > 0:
                where = place(line, "condition")
                found = str(line.condition)
                yield finding("CPR-05", where, *subjects_of(line), found=found, subject=item.grade, grade=sale.grade)


@check("CPR-06")
def stated_sign(context: CheckContext) -> Iterator[Finding]:
    """A percent has the sign that the words better and poorer ask for."""
    for line, _item, _sale in context.lines:
        for key in ("condition", "configuration", "provenance"):
            percent, stated = getattr(line, key), getattr(line, f"by_{key}")
            if given(percent) and given(stated):
                wrong = (stated is Compare.BETTER and percent > 0) or (stated is Compare.POORER and percent < 0)
                if wrong:
                    yield finding(
                        "CPR-06", place(line, key), *subjects_of(line), found=str(percent), stated=stated, element=key
                    )


@check("CPR-07")
def not_bracketed(context: CheckContext) -> Iterator[Finding]:
    """The subject lies between its comparisons: one is better, one is poorer."""
    for key, result in context.results.items():
        sides_of_all = result.sides or tuple(map(sides_of, result.valuations))
        for opinion, sides in zip(result.valuations, sides_of_all, strict=True):
            one_sided = len(sides) > 1 and set(sides) in ({-1}, {1}) and opinion.route is Route.ADJUSTED
            if one_sided and key in context.items:
                where = place_of(ITEMS, context.items[key], "id")
                found = "better" if sides[0] < 0 else "poorer"
                yield finding("CPR-07", where, key, found=found, type=opinion.value_type, count=len(sides))


@check("CPR-08")
def one_sale_for_unlike_items(context: CheckContext) -> Iterator[Finding]:
    """One sale does not serve two unlike items."""
    served: dict[str, list[tuple[Comparison, Item]]] = defaultdict(list)
    for line, item, sale in context.lines:
        for _other_line, other in served[str(sale.id)]:
            if other.id != item.id and _unlike(item, other):
                about = (str(sale.id), str(other.id), str(item.id))
                yield finding("CPR-08", place(line, "sale"), *about, found=str(sale.id))
                break
        served[str(sale.id)].append((line, item))


@check("CPR-09")
def one_sale_twice_for_one_item(context: CheckContext) -> Iterator[Finding]:
    """One sale is used once for one item and type of value."""
    for pairs in context.weighted.values():
        seen: dict[str, Comparison] = {}
        for line, sale in pairs:
            other = seen.setdefault(str(sale.id), line)
            if other is not line:
                about = (*subjects_of(other), *subjects_of(line)[1:])
                yield finding("CPR-09", place(line, "sale"), *about, found=str(sale.id))


@check("CPR-10")
def one_object_twice(context: CheckContext) -> Iterator[Finding]:
    """Two sales of one object do not stand as two objects."""
    for pairs in context.weighted.values():
        seen: dict[tuple[str, str], tuple[Comparison, Sale]] = {}
        for line, sale in pairs:
            own = object_key(sale)
            if own is None:
                continue
            other_line, other = seen.setdefault(own, (line, sale))
            if other.id != sale.id and sale.day != other.day:
                about = (*subjects_of(other_line), *subjects_of(line)[1:])
                yield finding("CPR-10", place(line, "sale"), *about, found=str(sale.id), other=other.id)


@check("CPR-11")
def another_model(context: CheckContext) -> Iterator[Finding]:
    """A sale of another maker or model is brought to the subject by a configuration step."""
    for line, item, sale in context.lines:
        unlike = not same_name(sale.maker, item.maker) or not same_name(sale.model, item.model)
        stated = all(given(one) for one in (sale.maker, sale.model, item.maker, item.model))
        if stated and unlike and line.configuration is BLANK and line.by_configuration is BLANK:
            found = f"{sale.maker} {sale.model}"
            yield finding(
                "CPR-11",
                place(line, "configuration"),
                *subjects_of(line),
                found=found,
                model=f"{item.maker} {item.model}",
            )


@check("CPR-12")
def grade_far_away(context: CheckContext) -> Iterator[Finding]:
    """A comparison is not many grades away from the subject."""
    limit = context.settings.grade_distance
    for line, item, sale in context.lines:
        if given(item.grade) and given(sale.grade) and abs(sale.grade - item.grade) > limit:
            where = place_of(SALES, sale, "grade")
            found = str(sale.grade)
            yield finding("CPR-12", where, *subjects_of(line), found=found, grade=item.grade, limit=limit)


@check("CPR-13")
def condition_two_ways(context: CheckContext) -> Iterator[Finding]:
    """The comparisons of one item are brought to its condition in one way, by the scale or typed."""
    for (key, _value_type), pairs in context.weighted.items():
        item = context.items.get(key)
        if item is None or not given(item.scale):
            continue
        typed = [line for line, _sale in pairs if given(line.condition)]
        if typed and len(typed) < len(pairs):
            found = str(typed[0].condition)
            yield finding("CPR-13", place(typed[0], "condition"), *subjects_of(typed[0]), found=found, scale=item.scale)


#: Things that are easily charged in two steps: the words that give them away, by the thing's name.
CHARGED_ONCE = {
    "refinish": ("refinish", "refin"),
    "case": ("case",),
    "frets": ("fret", "refret"),
    "crack": ("crack",),
    "neck": ("neck reset", "reneck"),
    "pickup": ("pickup", "rewound"),
    "tuners": ("tuner",),
    "bridge": ("bridge",),
    "wear": ("wear", "worn"),
}
REASONED = ("condition", "deductions", "configuration", "provenance", "other", "lump")


@check("CPR-14")
def charged_twice(context: CheckContext) -> Iterator[Finding]:
    """One thing is charged in one step of a comparison."""
    for line, _item, _sale in context.lines:
        charged = [key for key in REASONED if given(getattr(line, key))]
        if len(charged) < 2:
            continue
        for thing, stems in CHARGED_ONCE.items():
            steps = [
                COMPARISONS.column(key).heading for key in charged if mentions(getattr(line, f"{key}_reason"), *stems)
            ]
            if len(steps) > 1:
                yield finding("CPR-14", place(line, ""), *subjects_of(line), found=thing, steps=" and ".join(steps))


@check("CPR-15")
def year_charged_twice(context: CheckContext) -> Iterator[Finding]:
    """The year is charged by the model period or by the configuration step, not by both."""
    periods = [(one.maker, one.model) for one in context.job.model_periods]
    for line, item, _sale in context.lines:
        has_period = any(same_name(item.maker, maker) and same_name(item.model, model) for maker, model in periods)
        word = mentions(line.configuration_reason, "year", "period", "earlier", "later", "pre-", "golden", "vintage")
        if has_period and word and given(line.configuration) and line.configuration != 0:
            yield finding("CPR-15", place(line, "configuration_reason"), *subjects_of(line), found=word)


@check("CPR-16")
def asking_taken_as_paid(context: CheckContext) -> Iterator[Finding]:
    """An asking price that carries weight in a fair market value has a discount, if only 0."""
    for line, _item, sale in context.lines:
        if sale.kind is PriceKind.ASKING and line.value_type is ValueType.FAIR_MARKET and line.discount is BLANK:
            yield finding("CPR-16", place(line, "discount"), *subjects_of(line), sale=sale.id)


@check("CPR-17")
def discount_from_a_paid_price(context: CheckContext) -> Iterator[Finding]:
    """Only an asking price is discounted to the price that may be expected."""
    for line, _item, sale in context.lines:
        if given(line.discount) and line.discount != 0 and given(sale.kind) and sale.kind is not PriceKind.ASKING:
            found = str(line.discount)
            yield finding("CPR-17", place(line, "discount"), *subjects_of(line), found=found, kind=sale.kind)


@check("CPR-18")
def discount_beyond_evidence(context: CheckContext) -> Iterator[Finding]:
    """A discount is no larger than objects in this file show that were first asked for and then sold."""
    discounted = [
        (line, line.discount)
        for line, _item, sale in context.lines
        if sale.kind is PriceKind.ASKING and given(line.discount) and line.discount > 0
    ]
    observed = _discounts_observed(context) if discounted else []
    for line, discount in discounted:
        if observed and discount > max(observed):
            most = f"{max(observed):.1f}"
            yield finding("CPR-18", place(line, "discount"), *subjects_of(line), found=str(discount), most=most)


def _discounts_observed(context: CheckContext) -> list[Decimal]:
    """Percents from asked to sold of the objects that have both prices in this file."""
    paid = (PriceKind.DEALER_SOLD, PriceKind.PRIVATE_SOLD)
    sold = {object_key(one): one for one in context.sales.values() if one.kind in paid and given(one.price)}
    sold.pop(None, None)
    observed = []
    for asked in context.sales.values():
        later = sold.get(object_key(asked)) if asked.kind is PriceKind.ASKING else None
        if later is None or asked.currency != later.currency:
            continue
        if given(asked.price) and given(later.price) and asked.price > 0:
            observed.append(100 * (1 - later.price / asked.price))
    return observed


@check("CPR-19")
def value_type_not_stated(context: CheckContext) -> Iterator[Finding]:
    """Comparisons serve a type of value that the report states."""
    for line in context.job.comparisons:
        if given(line.value_type) and context.terms_of and line.value_type not in context.terms_of:
            yield finding("CPR-19", place(line, "value_type"), *subjects_of(line), found=line.value_type)


@check("CPR-20")
def index_of_another_market(context: CheckContext) -> Iterator[Finding]:
    """A price index measures the level of the market that the value is defined in."""
    measured = {point.index: point for point in context.job.indexes if given(point.index) and given(point.market)}
    for (key, value_type), _pairs in context.weighted.items():
        item, terms = context.items.get(key), context.terms_of.get(value_type)
        if item is None or terms is None or not given(item.index) or not given(terms.market):
            continue
        point = measured.get(item.index)
        if point is not None and point.market is not terms.market:
            where = place_of(ITEMS, item, "index")
            yield finding("CPR-20", where, key, found=item.index, market=point.market, wanted=terms.market)


@check("CPR-21")
def buyer_in_the_trade(context: CheckContext) -> Iterator[Finding]:
    """A price paid by a dealer for resale carries no weight in a fair market value."""
    for line, _item, sale in context.lines:
        word = mentions(sale.buyer, "dealer", "trade", "resale", "reseller")
        if word and line.value_type is ValueType.FAIR_MARKET:
            yield finding("CPR-21", place_of(SALES, sale, "buyer"), *subjects_of(line), found=str(sale.buyer))


@check("CPR-22")
def forced_seller(context: CheckContext) -> Iterator[Finding]:
    """A forced sale carries no weight in a fair market value."""
    for line, _item, sale in context.lines:
        word = mentions(sale.seller, "liquidat", "bankrupt", "insolven", "distress", "foreclos", "seiz", "forced")
        if word and line.value_type is ValueType.FAIR_MARKET:
            yield finding("CPR-22", place_of(SALES, sale, "seller"), *subjects_of(line), found=str(sale.seller))


@check("CPR-23")
def element_judged_with_percent(context: CheckContext) -> Iterator[Finding]:
    """The relative route compares in words; percents typed beside it have no effect."""
    for line, _item, _sale in context.lines:
        if given(line.item) and given(line.value_type):
            opinion = context.opinions_of.get((line.item, line.value_type))
            typed = [key for key in ("condition", "configuration", "provenance", "other") if given(getattr(line, key))]
            if opinion is not None and opinion.route is Route.RELATIVE and typed:
                found = str(getattr(line, typed[0]))
                route = OPINIONS.column("route").heading
                yield finding("CPR-23", place(line, typed[0]), *subjects_of(line), found=found, route=route)


def _market(context: CheckContext, line: Comparison) -> Market | None:
    """The market that the value of a comparison is defined in."""
    terms = context.terms_of.get(line.value_type) if given(line.value_type) else None
    return terms.market if terms is not None and given(terms.market) else None


def _adjusts(context: CheckContext, line: Comparison) -> bool:
    return (
        given(line.item) and given(line.value_type) and context.route(line.item, line.value_type) is not Route.RELATIVE
    )


def _unlike(one: Item, other: Item) -> bool:
    named = all(given(name) for name in (one.maker, one.model, other.maker, other.model))
    apart = not same_name(one.maker, other.maker) or not same_name(one.model, other.model)
    finishes = {finish_group(one), finish_group(other)} - {""}
    return (named and apart) or len(finishes) > 1
