"""Checks of insurance schedules and claims: costs of replacement, the policy's terms, what is covered."""

from collections.abc import Iterator
from typing import Any

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import plain
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.model.place import Place
from appraise.records.claims import COVERS, POLICY
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.market import COSTS, Cost
from appraise.records.vocabulary import CostKind, Family, SettlementBasis, Use, ValueType

REPLACEMENT = (ValueType.RETAIL_REPLACEMENT, ValueType.COMPARABLE_REPLACEMENT, ValueType.REPLACEMENT_COST_NEW)
SHEETS_OF_A_LOSS = ("depreciation", "value_facts", "losses", "repairs", "policy")
#: Families whose old examples rise in price with age.
COLLECTED = frozenset(Family) - {Family.OTHER, Family.TUBE_AMPLIFIER}


@check("INS-01")
def columns_of_a_loss(context: CheckContext) -> Iterator[Finding]:
    """What a line of a loss or of the policy asks for under its condition is given."""
    for place, column, record in blanks(context, *SHEETS_OF_A_LOSS):
        yield finding("INS-01", place, *_about(record), heading=column.heading, condition=column.required)


@check("INS-02", Use.INSURANCE)
def costs_not_told(context: CheckContext) -> Iterator[Finding]:
    """A replacement value says what tax and costs come to, if only that there are none."""
    if any(value_type in REPLACEMENT for value_type in context.terms_of) and not context.job.costs:
        yield finding("INS-02", Place(COSTS.name))


@check("INS-03")
def costs_without_replacement(context: CheckContext) -> Iterator[Finding]:
    """Tax and costs of replacement belong to a replacement value only."""
    if context.job.costs and context.terms_of and not any(one in REPLACEMENT for one in context.terms_of):
        yield finding("INS-03", Place(COSTS.name), found=", ".join(context.terms_of))


@check("INS-04")
def cost_of_unknown_item(context: CheckContext) -> Iterator[Finding]:
    """A cost is of an item on the schedule, or of all."""
    for cost in context.job.costs:
        if given(cost.item) and cost.item.strip().lower() != "all" and cost.item not in context.items:
            yield finding("INS-04", place_of(COSTS, cost, "item"), found=cost.item)


@check("INS-05")
def tax_twice(context: CheckContext) -> Iterator[Finding]:
    """Sales tax is charged once on one item."""
    first: dict[tuple[str, str], Cost] = {}
    for cost in context.job.costs:
        if cost.kind is CostKind.SALES_TAX and given(cost.item):
            other = first.setdefault((plain(cost.item), plain(cost.quotation)), cost)
            if other is not cost:
                yield finding("INS-05", place_of(COSTS, cost, "kind"), found=cost.item, first=other.row)


@check("INS-06")
def agreed_value_unsupported(context: CheckContext) -> Iterator[Finding]:
    """An agreed value is supported by a replacement value."""
    agreed = context.terms_of.get(ValueType.AGREED)
    if agreed is not None and not any(one in REPLACEMENT for one in context.terms_of):
        yield finding("INS-06", Place("Value types", agreed.row, "value_type"), found=ValueType.AGREED)


@check("INS-07")
def agreed_and_stated(context: CheckContext) -> Iterator[Finding]:
    """One item has an agreed value or a stated amount, not both."""
    for cover in context.job.covers:
        if given(cover.agreed) and given(cover.stated):
            place = place_of(COVERS, cover, "stated")
            yield finding("INS-07", place, *_about(cover), found=str(cover.stated), agreed=cover.agreed)


@check("INS-08")
def cover_against_policy(context: CheckContext) -> Iterator[Finding]:
    """What the cover of an item is called agrees with what the policy pays."""
    basis = context.job.policy.basis
    for cover in context.job.covers:
        against = (given(cover.agreed) and basis is SettlementBasis.STATED_AMOUNT) or (
            given(cover.stated) and basis is SettlementBasis.AGREED_VALUE
        )
        if against:
            key = "agreed" if given(cover.agreed) else "stated"
            found = str(getattr(cover, key))
            heading = COVERS.column(key).heading
            yield finding(
                "INS-08", place_of(COVERS, cover, key), *_about(cover), found=found, heading=heading, basis=basis
            )


@check("INS-09")
def outside_policy_year(context: CheckContext) -> Iterator[Finding]:
    """The day valued lies in the policy year."""
    policy = context.job.policy
    job = context.job.assignment
    day = job.loss_date if context.use is Use.CLAIM and given(job.loss_date) else job.effective_date
    before = given(policy.starts) and given(day) and day < policy.starts
    after = given(policy.ends) and given(day) and day > policy.ends
    if before or after:
        key = "starts" if before else "ends"
        yield finding("INS-09", place_of(POLICY, policy, key), found=str(getattr(policy, key)), day=day)


@check("INS-10", Use.INSURANCE, Use.YEARLY)
def location_open(context: CheckContext) -> Iterator[Finding]:
    """The schedule says where each item is kept."""
    for key, item in context.items.items():
        if item.location is BLANK:
            yield finding("INS-10", place_of(ITEMS, item, "location"), key)


@check("INS-11")
def depreciated_collectable(context: CheckContext) -> Iterator[Finding]:
    """Cost new less depreciation is not taken of what rises in price with age."""
    for record in context.job.depreciation:
        item = context.items.get(record.item) if given(record.item) else None
        made = context.results[str(item.id)].made if item is not None and str(item.id) in context.results else None
        effective = context.job.assignment.effective_date
        old = made is not None and made and made.last is not None and given(effective)
        if item is not None and old and made is not None and given(effective) and item.family in COLLECTED:
            years = effective.year - (made.last or 0) // 12
            if years > context.settings.collected_years:
                place = Place("Depreciation", record.row, "item")
                yield finding("INS-11", place, str(item.id), found=str(years), family=item.family)


@check("INS-12")
def charge_bounds_reversed(context: CheckContext) -> Iterator[Finding]:
    """The smallest charge of a cost is not above its largest."""
    for cost in context.job.costs:
        if given(cost.least) and given(cost.most) and cost.least > cost.most:
            yield finding("INS-12", place_of(COSTS, cost, "least"), found=str(cost.least), most=cost.most)


def _about(record: Any) -> tuple[str, ...]:
    item = getattr(record, "item", None)
    return (item,) if isinstance(item, str) else ()
