"""What a policy covers: blanket limit, limit for one item, coinsurance (method rule R20, second part).

Coinsurance: payment = loss × (limit carried ÷ limit required), the fraction never above 1, then less the deductible;
that is the order of the commercial form. Other forms take the deductible first: a typed option. The ratio bites on
every partial loss, and the value it is taken of is that at the time of the loss.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import FACTOR, SHOWN_PERCENT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given, value_or
from appraise.model.operations import (
    DIFFERENCE,
    PERCENT_OF,
    PERCENT_SHARE,
    PRODUCT,
    SMALLER,
    SUM,
    Numbers,
    operation,
)
from appraise.records.claims import COVERS, POLICY, Cover, Policy
from appraise.records.declare import place_of
from appraise.records.vocabulary import DeductibleOrder
from appraise.valuing.amounts import RISE
from appraise.valuing.working import Worked, Working, dividable, number_text, positive

ZERO = Decimal(0)


@operation("ratio up to 1", "{0} ÷ {1}, not above 1", lambda refs, places: f"MIN(1,{refs[0]}/{refs[1]})")
def RATIO(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Limit carried, limit required."""
    return min(Decimal(1), values[0] / values[1])


@operation(
    "share up to the whole",
    "{0} × {1} ÷ {2}, not above {0}",
    lambda refs, places: f"{refs[0]}*MIN(1,{refs[1]}/{refs[2]})",
)
def SHARE_UP_TO_WHOLE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Loss, limit carried, limit required: the ratio is not rounded."""
    return min(values[0], values[0] * values[1] / values[2])


@operation("percent not paid", "100 × (1 − {0})", lambda refs, places: f"100*(1-{refs[0]})")
def UNPAID_PERCENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Coinsurance ratio."""
    return 100 * (1 - values[0])


@frozen
class InsuredItem:
    """One item under the policy: its row on Cover and the value on the policy's basis."""

    name: str
    cover: Cover
    value: Outcome


def blanket_limit(ledger: Ledger, policy: Policy, items: Sequence[InsuredItem], *, currency: str) -> Worked:
    """Return how a blanket limit and a limit for one item stand to the values. A set counts as one item.

    Figures: total_value, limit_shortfall, limit_adequacy_pct; with a limit for one item also over_item_cap,
    capped_sum; effective_cover.
    """
    cash = money(currency)
    work = Working(ledger, "POL-01")
    total = work.figure("total_value", cash, SUM, *(one.value for one in items))
    limit = work.cell(POLICY, policy, "limit")
    work.figure("limit_shortfall", cash, RISE, total, limit)
    if dividable(total):
        work.figure("limit_adequacy_pct", SHOWN_PERCENT, PERCENT_SHARE, limit, total)
    covered = total
    if policy.item_cap is not Missing.BLANK:
        cap = work.cell(POLICY, policy, "item_cap")
        over = [work.figure(f"{one.name}_over_cap", cash, RISE, one.value, cap) for one in items]
        work.figure("over_item_cap", cash, SUM, *over)
        capped = [work.figure(f"{one.name}_capped", cash, SMALLER, one.value, cap) for one in items]
        covered = work.figure("capped_sum", cash, SUM, *capped)
        for one, excess in zip(items, over, strict=True):
            if positive(excess):
                work.find("POL-03", place_of(COVERS, one.cover, "value"), found=number_text(one.value), item=one.name)
    if positive(work.figures["limit_shortfall"]):
        work.find("POL-02", place_of(POLICY, policy, "limit"), found=number_text(limit), total=number_text(total))
    work.figure("effective_cover", cash, SMALLER, limit, covered)
    return work.done()


def insured_item(ledger: Ledger, cover: Cover, *, name: str = "", concluded: Outcome | None = None) -> InsuredItem:
    """Return one item with its value now: as typed on Cover, else as concluded in the workbook.

    name  in the ids of figures; blank: the item's id
    """
    work = Working(ledger, "POL-01", cover.item)
    name = name or (cover.item if given(cover.item) else f"row{cover.row}")
    if not given(cover.value) and concluded is not None:
        return InsuredItem(name, cover, concluded)
    return InsuredItem(name, cover, work.cell(COVERS, cover, "value", name=f"{name}_value"))


def insurance_to_value(
    ledger: Ledger, policy: Policy, value: Outcome, *, currency: str, limit: Outcome | None = None
) -> Worked:
    """Return how far the limit carried meets the coinsurance clause, before any loss.

    value  of everything under the limit, on the policy's basis; call it for last year's total and for this year's

    Figures: required, insured_to_value_pct, coinsurance_shortfall, ratio, penalty_pct (the part of every partial loss
    that would not be paid). Without a coinsurance clause nothing is made.
    """
    work = Working(ledger, "POL-01")
    if policy.coinsurance is Missing.BLANK:
        return work.done()
    carried = limit if limit is not None else work.cell(POLICY, policy, "limit", name="limit_carried")
    share = work.cell(POLICY, policy, "coinsurance")
    required = work.figure("required", money(currency), PERCENT_OF, value, share)
    work.figure("coinsurance_shortfall", money(currency), RISE, required, carried)
    if dividable(required):
        work.figure("insured_to_value_pct", SHOWN_PERCENT, PERCENT_SHARE, carried, required)
        ratio = work.figure("ratio", FACTOR, RATIO, carried, required)
        work.figure("penalty_pct", SHOWN_PERCENT, UNPAID_PERCENT, ratio)
    return work.done()


def coinsurance(
    ledger: Ledger,
    policy: Policy,
    *,
    loss: Outcome,
    value: Outcome,
    loss_day: date | Missing,
    currency: str,
    limit: Outcome | None = None,
) -> Worked:
    """Return what is paid of a loss, to the cent.

    loss   on the policy's basis
    value  of everything under the limit at the time of the loss, on the same basis
    limit  carried then, if an inflation guard has raised it; else the one typed

    Figures: required, ratio, after_ratio, after_deductible, payment, coinsurance_penalty. Without a coinsurance
    percent, or while an agreed value is in force, the ratio is 1.
    """
    cash = money(currency)
    work = Working(ledger, "POL-01")
    carried = limit if limit is not None else work.cell(POLICY, policy, "limit", name="limit_carried")
    deductible = work.cell(POLICY, policy, "deductible", blank=ZERO)
    caps = [carried]
    if policy.item_cap is not Missing.BLANK:
        caps.append(work.cell(POLICY, policy, "item_cap", name="item_cap_carried"))
    ratio = _ratio(work, policy, carried, value, loss_day, currency=currency)
    less = work.figure("loss_less_deductible", cash, RISE, loss, deductible)
    if value_or(policy.deductible_order, DeductibleOrder.AFTER_RATIO) is DeductibleOrder.AFTER_RATIO:
        after_ratio = _after_ratio(work, policy, loss, ratio, carried, currency=currency)
        paid = work.figure("after_deductible", cash, RISE, after_ratio, deductible)
    else:
        paid = _after_ratio(work, policy, less, ratio, carried, currency=currency)
    payment = work.figure("payment", cash, SMALLER, paid, *caps)
    without = work.figure("payment_without_ratio", cash, SMALLER, less, *caps)
    penalty = work.figure("coinsurance_penalty", cash, DIFFERENCE, without, payment)
    if positive(penalty):
        work.find("POL-04", place_of(POLICY, policy, "coinsurance"), found=number_text(penalty))
    return work.done()


def _after_ratio(
    work: Working, policy: Policy, loss: Outcome, ratio: Outcome, carried: Outcome, *, currency: str
) -> Outcome:
    """Return the part of a loss that the limit carried earns: by the ratio as printed, or by the exact fraction."""
    required = work.figures.get("required")
    if policy.exact_ratio is True and required is not None and dividable(required):
        return work.figure("after_ratio", money(currency), SHARE_UP_TO_WHOLE, loss, carried, required)
    return work.figure("after_ratio", money(currency), PRODUCT, loss, ratio)


def _ratio(
    work: Working, policy: Policy, carried: Outcome, value: Outcome, loss_day: date | Missing, *, currency: str
) -> Outcome:
    """Return the share of a loss that the limit carried earns."""
    if policy.coinsurance is Missing.BLANK:
        return work.note("ratio", Decimal(1), kind=FACTOR)
    if given(policy.agreed_until):
        place = place_of(POLICY, policy, "agreed_until")
        if not given(loss_day):
            return work.refuse("ratio", "POL-05", place, found=policy.agreed_until.isoformat())
        if loss_day <= policy.agreed_until:
            return work.note("ratio", Decimal(1), place, kind=FACTOR)
        work.find("POL-06", place, found=policy.agreed_until.isoformat())
    share = work.cell(POLICY, policy, "coinsurance")
    required = work.figure("required", money(currency), PERCENT_OF, value, share)
    if not dividable(required):
        return work.note("ratio", Decimal(1), kind=FACTOR)
    return work.figure("ratio", FACTOR, RATIO, carried, required)
