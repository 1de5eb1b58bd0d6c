"""Checks of the assignment and of the terms of value."""

import re
from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import mentions, says_nothing, word_count
from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT, VALUE_TERMS
from appraise.records.declare import place_of
from appraise.records.tables import CLAUSES
from appraise.records.vocabulary import FeeBasis, Market, PriceBasis, ReportOption, Use, ValueType
from appraise.rules.uses import use_rules

#: Types of value that suppose a sale in a market; liquidation states its time as a premise, contracts state none.
MARKET_BASED = (
    ValueType.FAIR_MARKET,
    ValueType.RETAIL_REPLACEMENT,
    ValueType.COMPARABLE_REPLACEMENT,
    ValueType.MARKETABLE_CASH,
)
#: Slot of the official wording that the certification of an appraisal of a contribution quotes.
DECLARATION = "declaration.donation"
APPROACHES = ("sales_comparison", "cost_approach", "income_approach")


def _line(context: CheckContext, key: str) -> Place:
    return place_of(ASSIGNMENT, context.job.assignment, key)


@check("ASG-01")
def dates_of_the_use(context: CheckContext) -> Iterator[Finding]:
    """The day by law or contract that the use rests on is given."""
    for place, column, _record in blanks(context, "assignment"):
        yield finding("ASG-01", place, use=context.use, heading=column.heading)


@check("ASG-02", *(use for use in Use if use is not Use.DONATION))
def fee_by_value(context: CheckContext) -> Iterator[Finding]:
    """The fee is measured by neither the value nor the outcome."""
    fee = context.job.assignment.fee_basis
    if fee in (FeeBasis.PERCENT, FeeBasis.OUTCOME):
        yield finding("ASG-02", _line(context, "fee_basis"), found=fee)


@check("ASG-03", Use.DONATION)
def fee_by_value_of_a_gift(context: CheckContext) -> Iterator[Finding]:
    """The fee for appraising a contribution does not depend on the value to any extent."""
    fee = context.job.assignment.fee_basis
    if fee in (FeeBasis.PERCENT, FeeBasis.OUTCOME):
        yield finding("ASG-03", _line(context, "fee_basis"), found=fee)


@check("ASG-04")
def value_type_refused(context: CheckContext) -> Iterator[Finding]:
    """No type of value is stated that contradicts the use."""
    if given(context.use):
        refused = use_rules(context.use).refuses
        for terms in context.job.value_terms:
            if given(terms.value_type) and terms.value_type in refused:
                place = place_of(VALUE_TERMS, terms, "value_type")
                reason = refused[terms.value_type]
                yield finding("ASG-04", place, found=terms.value_type, use=context.use, reason=reason)


@check("ASG-05")
def value_type_doubtful(context: CheckContext) -> Iterator[Finding]:
    """A type of value that is unusual for the use is explained."""
    if given(context.use):
        doubtful = use_rules(context.use).warns
        for terms in context.job.value_terms:
            if given(terms.value_type) and terms.value_type in doubtful:
                place = place_of(VALUE_TERMS, terms, "value_type")
                reason = doubtful[terms.value_type]
                yield finding("ASG-05", place, found=terms.value_type, use=context.use, reason=reason)


@check("ASG-06")
def no_value_type(context: CheckContext) -> Iterator[Finding]:
    """At least one type of value is stated."""
    if not context.job.value_terms:
        yield finding("ASG-06", Place(VALUE_TERMS.name))


@check("ASG-07")
def value_type_twice(context: CheckContext) -> Iterator[Finding]:
    """Each type of value has one line of terms."""
    seen = set()
    for terms in context.job.value_terms:
        if given(terms.value_type):
            if terms.value_type in seen:
                yield finding("ASG-07", place_of(VALUE_TERMS, terms, "value_type"), found=terms.value_type)
            seen.add(terms.value_type)


@check("ASG-08", Use.ESTATE, Use.GIFT, Use.DONATION)
def price_basis_of_the_law(context: CheckContext) -> Iterator[Finding]:
    """The buyer's premium is in the fair market value where the tax law counts it, and out of it where it does not."""
    expected = {"US": PriceBasis.ALL_IN, "GB": PriceBasis.HAMMER}.get(context.country)
    for terms in context.job.value_terms:
        stated = terms.price_basis
        if expected and terms.value_type is ValueType.FAIR_MARKET and given(stated) and stated is not expected:
            place = place_of(VALUE_TERMS, terms, "price_basis")
            yield finding("ASG-08", place, found=stated, expected=expected, country=context.country)


@check("ASG-09", Use.ESTATE, Use.GIFT, Use.DONATION, Use.EXPERT)
def restricted_report(context: CheckContext) -> Iterator[Finding]:
    """A tax authority or a court is not given the restricted report."""
    if context.job.assignment.report_option is ReportOption.RESTRICTED:
        yield finding("ASG-09", _line(context, "report_option"), found=ReportOption.RESTRICTED, use=context.use)


@check("ASG-10")
def users_without_bounds(context: CheckContext) -> Iterator[Finding]:
    """The intended users are named or described, not everyone."""
    users = context.job.assignment.intended_users
    open_end = mentions(users, "anyone", "anybody", "everyone", "whom it may concern", "public", "others")
    if open_end or says_nothing(users):
        yield finding("ASG-10", _line(context, "intended_users"), found=str(users), word=open_end or users)


@check("ASG-11", Use.YEARLY)
def prior_services_denied(context: CheckContext) -> Iterator[Finding]:
    """A yearly reappraisal discloses last year's as a prior service."""
    if says_nothing(context.job.assignment.prior_services):
        yield finding("ASG-11", _line(context, "prior_services"), found=str(context.job.assignment.prior_services))


@check("ASG-12")
def approach_left_out(context: CheckContext) -> Iterator[Finding]:
    """An approach that is not used has its reason."""
    for terms in context.job.value_terms:
        for key in APPROACHES:
            stated = getattr(terms, key)
            if given(stated) and not _used(stated) and word_count(re.sub(r"(?i)\bnot used\b", "", stated)) < 3:
                heading = VALUE_TERMS.column(key).heading
                yield finding("ASG-12", place_of(VALUE_TERMS, terms, key), found=stated, approach=heading)


@check("ASG-13")
def no_approach(context: CheckContext) -> Iterator[Finding]:
    """At least one approach to value is used."""
    for terms in context.job.value_terms:
        stated = [getattr(terms, key) for key in APPROACHES]
        if all(given(one) and not _used(one) for one in stated):
            yield finding("ASG-13", place_of(VALUE_TERMS, terms, "sales_comparison"), found=stated[0])


@check("ASG-14")
def comparison_against_the_terms(context: CheckContext) -> Iterator[Finding]:
    """Sales comparison is used exactly where the terms say so."""
    compared = {value_type for _item, value_type in context.weighted}
    by_others = {one.value_type for one in context.job.opinions if given(one.typed_value)}
    for terms in context.job.value_terms:
        if given(terms.value_type) and given(terms.sales_comparison):
            is_used = _used(terms.sales_comparison)
            has = terms.value_type in compared
            if is_used != has and not (is_used and (terms.value_type in by_others or not context.job.items)):
                behind = "comparisons with weight" if has else "no comparison with weight"
                place = place_of(VALUE_TERMS, terms, "sales_comparison")
                yield finding("ASG-14", place, found=terms.sales_comparison, behind=behind, type=terms.value_type)


@check("ASG-15")
def exposure_time(context: CheckContext) -> Iterator[Finding]:
    """A value that supposes a sale states its exposure time."""
    for terms in context.job.value_terms:
        stated = terms.exposure_time
        timed = mentions(stated, "day", "week", "month", "year", "season", "premise", "immediate")
        if terms.value_type in MARKET_BASED and given(stated) and not timed:
            place = place_of(VALUE_TERMS, terms, "exposure_time")
            yield finding("ASG-15", place, found=stated, type=terms.value_type)


@check("ASG-16")
def trade_market(context: CheckContext) -> Iterator[Finding]:
    """Fair market value is not looked for in the trade between dealers."""
    for terms in context.job.value_terms:
        if terms.value_type is ValueType.FAIR_MARKET and terms.market is Market.TRADE:
            yield finding("ASG-16", place_of(VALUE_TERMS, terms, "market"), found=terms.market)


@check("ASG-17")
def replacement_market(context: CheckContext) -> Iterator[Finding]:
    """Retail replacement value is looked for at retail."""
    for terms in context.job.value_terms:
        elsewhere = given(terms.market) and terms.market is not Market.DEALER_RETAIL
        if terms.value_type is ValueType.RETAIL_REPLACEMENT and elsewhere:
            yield finding("ASG-17", place_of(VALUE_TERMS, terms, "market"), found=str(terms.market))


@check("ASG-18")
def replaced_issue(context: CheckContext) -> Iterator[Finding]:
    """A later issue says which one it replaces, and only a later issue does."""
    number, replaces = context.job.assignment.issue_number, context.job.assignment.replaces_issue
    later = given(number) and number > 1
    if later != given(replaces):
        shown = str(number) if given(number) else ""
        yield finding("ASG-18", _line(context, "replaces_issue"), found=str(replaces) if given(replaces) else shown)


@check("ASG-19")
def official_wording_complete(context: CheckContext) -> Iterator[Finding]:
    """An official wording has citation, edition, day checked and initials."""
    for place, column, clause in blanks(context, "clauses"):
        yield finding("ASG-19", place, *([clause.key] if given(clause.key) else []), heading=column.heading)


@check("ASG-20", Use.DONATION)
def declaration_missing(context: CheckContext) -> Iterator[Finding]:
    """An appraisal of a contribution carries the declaration that the law prescribes, word for word."""
    held = [one for one in context.job.clauses if one.key == DECLARATION and given(one.official)]
    if context.country == "US" and not held:
        yield finding("ASG-20", Place(CLAUSES.name), DECLARATION)


@check("ASG-21")
def jurisdiction_code(context: CheckContext) -> Iterator[Finding]:
    """The jurisdiction begins with a country in two letters, by which the rules are kept."""
    stated = context.job.assignment.jurisdiction
    if given(stated) and not re.fullmatch(r"[A-Za-z]{2}(\s*-.*)?", stated.strip()):
        yield finding("ASG-21", _line(context, "jurisdiction"), found=stated)


def _used(stated: str) -> bool:
    return stated.strip().lower().startswith("used")
