"""All that is worked out for a job as a whole, from the opinions of its items: one object, empty where nothing stands.

It only joins what `of_job` works out; a job without the sheets of a use gives an empty result and no finding.
"""

from collections.abc import Iterable, Mapping
from dataclasses import field

from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.kinds import TYPED, money, typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import PERCENT_OF, QUOTIENT, SUM
from appraise.records.claims import Policy
from appraise.records.declare import filled, place_of
from appraise.records.transfers import SHARES, TRANSFER, Share
from appraise.records.vocabulary import SettlementBasis, Use, ValueType
from appraise.rules.thresholds import NotInForce, threshold
from appraise.valuing.inputs import each_once
from appraise.valuing.job import JobRows
from appraise.valuing.matched_pairs import FeatureEffect, feature_effects
from appraise.valuing.methods import settlement
from appraise.valuing.of_job import (
    AlternateSchedule,
    CoverOfJob,
    alternate_schedule,
    cover_of_job,
    landed_costs,
    liquidation_of_job,
    proceeds_totals,
)
from appraise.valuing.result import Valuation
from appraise.valuing.working import Worked, names_of

Valued = Mapping[tuple[str, ValueType], Valuation]

#: Types of value that an agreed value or a stated amount may rest on, the first that is stated counts.
SUPPORTING = (
    ValueType.RETAIL_REPLACEMENT,
    ValueType.COMPARABLE_REPLACEMENT,
    ValueType.REPLACEMENT_COST_NEW,
    ValueType.ACTUAL_CASH,
    ValueType.FAIR_MARKET,
)
#: The type of value on which a policy pays; a policy that pays an agreed or stated sum is measured by what supports it.
BASIS = {
    SettlementBasis.REPLACEMENT_COST: SUPPORTING[:3],
    SettlementBasis.ACTUAL_CASH: (ValueType.ACTUAL_CASH,),
    SettlementBasis.MARKET_VALUE: (ValueType.FAIR_MARKET,),
}


@frozen
class Portion:
    """One line of Recipients with what it is worth at fair market value."""

    line: Share
    value: Outcome


@frozen
class Band:
    """An opinion, and the correct values at which US tax law would call it substantially and grossly misstated."""

    opinion: Outcome
    substantial: Outcome
    gross: Outcome


NO_BANDS: Mapping[str, Band] = {}
#: The rules whose limits a claimed value is divided by: donations are overstated, estates and gifts understated.
MISSTATED = {
    Use.DONATION: "us-overstatement",
    Use.ESTATE: "us-understatement",
    Use.GIFT: "us-understatement",
}


@frozen
class UseResults:
    """What the uses ask for beside the opinions of the items; None and empty where nothing was typed.

    settlements  what the policy's clause pays of each total loss, by item id (insurance claims)
    liquidation  the lots in the order typed, and the totals of the sale
    proceeds     totals of the marketable cash values
    landed       landed costs of foreign quotations, by sale id
    effects      what one feature does to the price, from paired sales that serve no single item
    portions     what each recipient gets, line by line, and the totals by recipient in the order first met
    similar      fair market values with similar items given elsewhere added (contributions)
    bands        by item id, for reports under US tax law
    """

    alternate: AlternateSchedule | None = None
    cover: CoverOfJob | None = None
    settlements: tuple[tuple[str, Worked], ...] = ()
    liquidation: tuple[tuple[Worked, ...], Worked] | None = None
    proceeds: Worked | None = None
    landed: tuple[tuple[str, Worked], ...] = ()
    effects: tuple[FeatureEffect, ...] = ()
    portions: tuple[Portion, ...] = ()
    by_recipient: Mapping[str, Outcome] | None = None
    similar: Outcome | None = None
    bands: Mapping[str, Band] = field(default_factory=lambda: NO_BANDS)
    findings: tuple[Finding, ...] = ()


def use_results(ledger: Ledger, rows: JobRows, valued: Valued) -> UseResults:
    """Return what the uses of a job ask for.

    ledger  its scope is that of the job as a whole
    valued  every opinion of every item, by item id and type of value; what is expressly not valued is left out
    """
    left_out = {key for key, one in rows.opinions.items() if given(one.not_valued)}
    valued = {key: one for key, one in valued.items() if key not in left_out}
    market = {item: one for (item, kind), one in valued.items() if kind is ValueType.FAIR_MARKET}
    before = {item: one.value for item, one in market.items()}
    rounded = {item: one.rounded for item, one in market.items()}
    alternate = alternate_schedule(ledger.under("alternate"), rows, before)
    cover = _cover(ledger.under("cover"), rows, valued)
    liquidation = liquidation_of_job(ledger.under("liquidation"), rows, rounded)
    net = [one for (_item, kind), one in valued.items() if kind is ValueType.MARKETABLE_CASH]
    lines = [Worked({"value": one.value, "value_rounded": one.rounded}) for one in net]
    proceeds = proceeds_totals(ledger.under("proceeds"), rows, lines)
    portions = tuple(_portions(ledger.under("recipients"), rows, rounded))
    settlements = tuple(_settlements(ledger.under("clause"), rows, valued))
    landed = landed_costs(ledger.under("quotations"), rows)
    currency = rows.tables.currency
    effects = (
        feature_effects(ledger.under("pairs"), rows.job.paired_sales, currency=currency) if given(currency) else ()
    )
    alone = [one for _name, one in (*settlements, *landed)] + [one.worked for one in effects]
    found: list[Finding] = []
    for part in (alternate, cover, proceeds, *(liquidation[0] if liquidation else ()), *alone):
        found += part.findings if part is not None else ()
    found += liquidation[1].findings if liquidation else ()
    return UseResults(
        alternate=alternate,
        cover=cover,
        settlements=settlements,
        liquidation=liquidation,
        proceeds=proceeds,
        landed=landed,
        effects=effects,
        portions=portions,
        by_recipient=_by_recipient(ledger.under("recipients"), rows, portions) if portions else None,
        similar=_similar(ledger.under("similar"), rows, rounded.values()),
        bands=_bands(ledger.under("bands"), rows, rounded),
        findings=each_once(found),
    )


def _bands(ledger: Ledger, rows: JobRows, rounded: Mapping[str, Outcome]) -> Mapping[str, Band]:
    """Return the band around each opinion of a report under US tax law; empty for others, and where no rule holds."""
    a, currency = rows.job.assignment, rows.tables.currency
    rule = MISSTATED.get(a.use) if given(a.use) else None
    us = given(a.jurisdiction) and a.jurisdiction.split("-")[0].strip().upper() == "US"
    if rule is None or not us or not given(a.effective_date) or not given(currency):
        return NO_BANDS
    try:
        limits = [threshold(f"{rule}-{kind}", a.effective_date).figure for kind in ("substantial", "gross")]
    except NotInForce:
        return NO_BANDS
    substantial, gross = (
        ledger.note(name, limit, kind=TYPED) for name, limit in zip(("substantial", "gross"), limits, strict=True)
    )
    cash = money(currency)
    return {
        item: Band(
            value,
            ledger.figure(f"{name}_substantial", cash, QUOTIENT, value, substantial),
            ledger.figure(f"{name}_gross", cash, QUOTIENT, value, gross),
        )
        for number, (item, value) in enumerate(rounded.items(), start=1)
        for name in [f"item{number}"]
        if isinstance(value, Figure) and value.number > 0
    }


def supporting_value(valued: Valued, item: str) -> tuple[ValueType, Outcome] | None:
    """Return the value that a sum of the contract for an item rests on, with its type; None where none is stated."""
    for kind in SUPPORTING:
        if (item, kind) in valued:
            return kind, valued[item, kind].rounded
    return None


def _cover(ledger: Ledger, rows: JobRows, valued: Valued) -> CoverOfJob | None:
    job = rows.job
    if job.policy == filled(Policy) and not job.sets:
        return None
    basis = job.policy.basis
    kinds = BASIS.get(basis, SUPPORTING) if given(basis) else SUPPORTING
    values: dict[str, Outcome] = {}
    for kind in reversed(kinds):
        values |= {item: one.rounded for (item, found), one in valued.items() if found is kind}
    losses = {item: one.value for (item, kind), one in valued.items() if kind is ValueType.DIMINUTION}
    return cover_of_job(ledger, rows, values, losses)


def _settlements(ledger: Ledger, rows: JobRows, valued: Valued) -> Iterable[tuple[str, Worked]]:
    """Yield what the policy's valuation clause pays of each item that is a total loss, held to the policy's limits."""
    policy, currency = rows.job.policy, rows.tables.currency
    if rows.job.assignment.use is not Use.CLAIM or not given(policy.basis) or not given(currency):
        return
    for cover, name in zip(rows.job.covers, names_of(rows.job.covers, "item"), strict=True):
        if not given(cover.item):
            continue
        of_item = {kind: valued[cover.item, kind] for kind in ValueType if (cover.item, kind) in valued}
        hurt = of_item.get(ValueType.DIMINUTION)
        total = hurt.figures.get("total_loss") if hurt is not None else None
        if hurt is None or not isinstance(total, Figure) or total.value != "yes":
            continue
        known = {kind: one.rounded for kind, one in of_item.items()}
        scope = ledger.under(name)
        paid = settlement.settlement(
            scope,
            policy,
            cover,
            actual_cash=known.get(ValueType.ACTUAL_CASH),
            market=known.get(ValueType.FAIR_MARKET),
            repair=hurt.figures.get("repair_total"),
            replace=next((known[kind] for kind in SUPPORTING[:3] if kind in known), None),
            loss_day=rows.job.assignment.loss_date,
            currency=currency,
        )
        held = settlement.item_limit(scope, policy, cover, paid["settlement"], currency=currency)
        yield name, Worked({**paid.figures, **held.figures}, (*paid.findings, *held.findings))


def _portions(ledger: Ledger, rows: JobRows, rounded: Mapping[str, Outcome]) -> Iterable[Portion]:
    """Yield each line of Recipients with its part of the value; a part of an item is rounded to the cent."""
    currency = rows.tables.currency
    if not given(currency):
        return
    for line, name in zip(rows.job.shares, names_of(rows.job.shares, "row"), strict=True):
        value = rounded.get(line.item) if given(line.item) else None
        if value is None:
            continue
        if given(line.share) and line.share != 100:
            share = ledger.typed(f"{name}_share", line.share, place_of(SHARES, line, "share"))
            value = ledger.figure(f"{name}_part", money(currency), PERCENT_OF, value, share)
        yield Portion(line, value)


def _by_recipient(ledger: Ledger, rows: JobRows, portions: Iterable[Portion]) -> Mapping[str, Outcome]:
    currency = rows.tables.currency
    assert given(currency)
    found: dict[str, list[Outcome]] = {}
    for one in portions:
        found.setdefault(str(one.line.recipient), []).append(one.value)
    return {
        recipient: ledger.figure(f"recipient{number}", money(currency), SUM, *parts)
        for number, (recipient, parts) in enumerate(found.items(), start=1)
    }


def _similar(ledger: Ledger, rows: JobRows, rounded: Iterable[Outcome]) -> Outcome | None:
    """Return the sum that the limits of the law are measured by; None where no similar items are told."""
    currency, transfer = rows.tables.currency, rows.job.transfer
    values = [one for one in rounded if isinstance(one, Figure)]
    if not given(currency) or not given(transfer.similar_sum) or not values:
        return None
    typed = ledger.typed("elsewhere", transfer.similar_sum, place_of(TRANSFER, transfer, "similar_sum"))
    return ledger.figure("with_similar", typed_money(currency), SUM, *values, typed)
