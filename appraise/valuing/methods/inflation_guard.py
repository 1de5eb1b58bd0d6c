"""A limit raised day by day by an inflation guard.

Linear in days from the first day of the policy year, 365 to the year, never compounded (from memory of usual
endorsements). It keeps a limit from lagging; it is no revaluation.
"""

from datetime import date
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import COUNT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.model.operations import Numbers, operation
from appraise.records.claims import POLICY, Policy
from appraise.records.declare import place_of
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working


@operation(
    "raised by days",
    "{0} × (1 + {1} % × {2} ÷ 365)",
    lambda refs, places: f"{refs[0]}*(36500+{refs[1]}*{refs[2]})/36500",
)
def RAISED_BY_DAYS(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Limit, percent a year, days since the policy year began; not compounded within the year."""
    return values[0] * (36500 + values[1] * values[2]) / 36500


def guarded_limit(ledger: Ledger, policy: Policy, day: date, *, currency: str) -> Worked:
    """Return the limit on a day with the policy's inflation guard: figures days and limit_then."""
    work = Working(ledger, "POL-01")
    limit = work.cell(POLICY, policy, "limit")
    if policy.inflation_guard is Missing.BLANK:
        work.figure("limit_then", money(currency), CARRIED, limit)
        return work.done()
    yearly = work.cell(POLICY, policy, "inflation_guard")
    place = place_of(POLICY, policy, "starts")
    days: Outcome
    if not given(policy.starts):
        days = work.keep("days", work.lacking(POLICY, policy, "starts"))
    elif day < policy.starts or (given(policy.ends) and day > policy.ends):
        days = work.refuse("days", "POL-07", place, found=day.isoformat())
    else:
        days = work.note("days", Decimal((day - policy.starts).days), place, kind=COUNT)
    work.figure("limit_then", money(currency), RAISED_BY_DAYS, limit, yearly, days)
    return work.done()
