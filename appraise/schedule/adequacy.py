"""How the limits of the policy stand to the schedule, last year and this.

Only the lines of the schedule are looked at: what else lies under the limit is not known here. The policy's own words
decide what is paid; these figures say where its amounts fall short of the values.
"""

from collections.abc import Sequence

from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.kinds import SHOWN_PERCENT, typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import PERCENT_SHARE, SUM
from appraise.records.claims import POLICY, Policy
from appraise.records.declare import place_of
from appraise.schedule.revaluation import RevaluedLine
from appraise.valuing.amounts import RISE
from appraise.valuing.inputs import each_once
from appraise.valuing.methods.coverage import insurance_to_value
from appraise.valuing.working import Worked, Working, dividable, number_text, positive


@frozen
class Adequacy:
    """The policy against the schedule, before and after.

    Figures of each: limit, limit_shortfall, limit_adequacy_pct; with a limit for one item item_cap and over_item_cap
    (what lies above it, over all lines); with a coinsurance clause those of `coverage.insurance_to_value`.
    over_cap  ids of the lines above the limit for one item now
    """

    before: Worked
    after: Worked
    over_cap: tuple[str, ...]
    findings: tuple[Finding, ...]


def adequacy(
    ledger: Ledger, policy: Policy, lines: Sequence[RevaluedLine], totals: Worked, *, currency: str
) -> Adequacy | None:
    """Return how the limits stand; None for a policy with neither a limit nor a limit for one item."""
    if not (given(policy.limit) or given(policy.item_cap)):
        return None
    old = [(str(one.line.item), one.prior_rounded) for one in lines if one.prior_rounded is not None]
    new = [(str(one.line.item), one.new_rounded) for one in lines if one.new_rounded is not None]
    before = _stand(ledger.under("before"), policy, [one for _, one in old], totals["prior_total"], currency)
    after = _stand(ledger.under("after"), policy, [one for _, one in new], totals["new_total"], currency)
    over = tuple(
        item
        for item, value in new
        if given(policy.item_cap) and isinstance(value, Figure) and value.number > policy.item_cap
    )
    return Adequacy(before, after, over, _findings(policy, after, totals, over))


def _stand(ledger: Ledger, policy: Policy, values: Sequence[Outcome], total: Outcome, currency: str) -> Worked:
    cash = typed_money(currency)
    work = Working(ledger, "POL-01")
    made: dict[str, Outcome] = {}
    if given(policy.limit):
        limit = work.cell(POLICY, policy, "limit", kind=cash)
        work.figure("limit_shortfall", cash, RISE, total, limit)
        if dividable(total):
            work.figure("limit_adequacy_pct", SHOWN_PERCENT, PERCENT_SHARE, limit, total)
        made = dict(insurance_to_value(ledger.under("coinsurance"), policy, total, currency=currency).figures)
    if given(policy.item_cap):
        cap = work.cell(POLICY, policy, "item_cap", kind=cash)
        over = [work.figure(f"over{number}", cash, RISE, value, cap) for number, value in enumerate(values, 1)]
        work.figure("over_item_cap", cash, SUM, *over)
    return Worked({**work.figures, **made}, work.done().findings)


def _findings(policy: Policy, after: Worked, totals: Worked, over: Sequence[str]) -> tuple[Finding, ...]:
    work = Working(Ledger("schedule"), "POL-01")
    place = place_of(POLICY, policy, "limit")
    if _above_zero(after, "limit_shortfall"):
        work.find("YRL-42", place, found=number_text(after["limit"]), total=number_text(totals["new_total"]))
    if over:
        work.find("YRL-43", place_of(POLICY, policy, "item_cap"), found=str(policy.item_cap), lines=", ".join(over))
    if _above_zero(after, "penalty_pct"):
        percent = number_text(after["penalty_pct"])
        work.find("YRL-44", place_of(POLICY, policy, "coinsurance"), found=str(policy.coinsurance), percent=percent)
    return each_once([*after.findings, *work.findings])


def _above_zero(worked: Worked, name: str) -> bool:
    return name in worked.figures and positive(worked[name])
