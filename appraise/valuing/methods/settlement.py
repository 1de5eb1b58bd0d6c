"""What a policy's valuation clause pays for one item.

An agreed value is a sum fixed between insurer and insured and paid in full on total loss; a stated amount is only a
ceiling, and what is paid is the least of it and the other measures. The two never share a column.
"""

from collections.abc import Sequence
from datetime import date

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.model.operations import PERCENT_OF, SMALLER
from appraise.model.place import Place
from appraise.records.claims import COVERS, POLICY, Cover, Policy
from appraise.records.declare import place_of
from appraise.records.vocabulary import SettlementBasis
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working


def item_limit(ledger: Ledger, policy: Policy, cover: Cover, loss: Outcome, *, currency: str) -> Worked:
    """Return what a scheduled item's loss is held to: margin clause, limit for one item, blanket limit, the loss."""
    cash = money(currency)
    work = Working(ledger, "POL-01", cover.item)
    limits = [loss]
    if given(policy.margin):
        scheduled = work.cell(COVERS, cover, "scheduled")
        margin = work.cell(POLICY, policy, "margin")
        limits.append(work.figure("margin_limit", cash, PERCENT_OF, scheduled, margin))
    for key in ("item_cap", "limit"):
        if given(getattr(policy, key)):
            limits.append(work.cell(POLICY, policy, key))
    work.figure("item_payment", cash, SMALLER, *limits)
    return work.done()


def settlement(
    ledger: Ledger,
    policy: Policy,
    cover: Cover,
    *,
    actual_cash: Outcome | None = None,
    market: Outcome | None = None,
    repair: Outcome | None = None,
    replace: Outcome | None = None,
    limit: Outcome | None = None,
    loss_day: date | Missing = Missing.BLANK,
    currency: str,
) -> Worked:
    """Return what the policy's clause pays for the total loss of one item: figure settlement.

    Agreed value: the sum agreed, without depreciation, while it is in force. Stated amount: the least of it and
    whatever of actual cash value, repair and replacement is given. Least of several: the same without it.
    """
    work = Working(ledger, "POL-01", cover.item)
    measures = {"actual_cash": actual_cash, "repair": repair, "replace": replace, "limit": limit}
    for name, measure in {**measures, "market": market}.items():
        if measure is not None:
            work.keep(name, measure)
    known = [one for one in measures.values() if one is not None]
    place = place_of(POLICY, policy, "basis")
    basis = policy.basis
    if basis is SettlementBasis.AGREED_VALUE and _agreement_over(policy, loss_day):
        work.refuse("settlement", "POL-06", place_of(POLICY, policy, "agreed_until"), found=str(policy.agreed_until))
    elif basis is SettlementBasis.AGREED_VALUE:
        work.figure("settlement", money(currency), CARRIED, work.cell(COVERS, cover, "agreed"))
    elif basis is SettlementBasis.STATED_AMOUNT:
        _least(work, place, [work.cell(COVERS, cover, "stated"), *known], needed=2, currency=currency)
    elif basis is SettlementBasis.LEAST_OF:
        _least(work, place, known, needed=2, currency=currency)
    elif basis is SettlementBasis.ACTUAL_CASH:
        _one(work, place, actual_cash, limit, currency=currency)
    elif basis is SettlementBasis.REPLACEMENT_COST:
        _one(work, place, replace, limit, currency=currency)
    elif basis is SettlementBasis.MARKET_VALUE:
        _one(work, place, market, limit, currency=currency)
    else:
        work.keep("settlement", work.lacking(POLICY, policy, "basis"))
    return work.done()


def _agreement_over(policy: Policy, loss_day: date | Missing) -> bool:
    return given(policy.agreed_until) and given(loss_day) and loss_day > policy.agreed_until


def _least(work: Working, place: Place, measures: Sequence[Outcome], *, needed: int, currency: str) -> None:
    if len(measures) < needed:
        work.refuse("settlement", "POL-08", place, found=str(len(measures)))
        return
    work.figure("settlement", money(currency), SMALLER, *measures)


def _one(work: Working, place: Place, measure: Outcome | None, limit: Outcome | None, *, currency: str) -> None:
    if measure is None:
        work.refuse("settlement", "POL-08", place, found="0")
        return
    work.figure("settlement", money(currency), SMALLER, measure, *([limit] if limit is not None else []))
