"""What US tax law calls a valuation misstatement, and what it costs: for the reader to see, not tax advice.

Donations are overstated, estates and gifts understated. Limits, rates and the days they hold are rule data; a day on
which nothing holds raises `NotInForce`. Whether a penalty is due at all is for counsel: defences are left out.
"""

from datetime import date
from decimal import Decimal, localcontext
from enum import StrEnum

from appraise.model.frozen import frozen
from appraise.model.rounding import EXACT, round_half_away
from appraise.rules.thresholds import threshold


class Misstatement(StrEnum):
    """How far a claimed value lies from the correct one."""

    NONE = "none"
    SUBSTANTIAL = "substantial"
    GROSS = "gross"


def overstatement(*, claimed: Decimal, correct: Decimal, day: date) -> Misstatement:
    """Return the class of a value claimed for donated property; "150 percent or more" includes the edge.

    Both amounts in one currency, `correct` above zero. `day`: the return was filed (from 2006-08-18 the newer text).
    """
    with localcontext(EXACT):
        ratio = claimed / correct
    if threshold("us-overstatement-gross", day).reached(ratio):
        return Misstatement.GROSS
    return (
        Misstatement.SUBSTANTIAL if threshold("us-overstatement-substantial", day).reached(ratio) else Misstatement.NONE
    )


def understatement(*, claimed: Decimal, correct: Decimal, day: date) -> Misstatement:
    """Return the class of a value claimed for an estate or a gift; "65 percent or less" includes the edge."""
    with localcontext(EXACT):
        ratio = claimed / correct
    if ratio <= threshold("us-understatement-gross", day).figure:
        return Misstatement.GROSS
    return (
        Misstatement.SUBSTANTIAL
        if ratio <= threshold("us-understatement-substantial", day).figure
        else Misstatement.NONE
    )


def penalty_rate(kind: Misstatement, *, underpayment: Decimal, day: date) -> Decimal:
    """Return the percent of the underpayment that a misstatement costs; 0 unless the underpayment exceeds its limit."""
    if kind is Misstatement.NONE or not threshold("us-misstatement-underpayment", day).reached(underpayment):
        return Decimal(0)
    return threshold(f"us-misstatement-{kind.value}-rate", day).figure


def penalty(kind: Misstatement, *, underpayment: Decimal, day: date) -> Decimal:
    """Return the penalty in dollars, to the cent."""
    return round_half_away(underpayment * penalty_rate(kind, underpayment=underpayment, day=day) / 100, 2)


def appraiser_penalty(*, underpayment: Decimal, fee: Decimal, day: date) -> Decimal:
    """Return what a misstatement can cost its appraiser, to the cent.

    The larger of a share of the underpayment and the least penalty, but not above a share of the income from the
    appraisal (`fee`).
    """
    share = underpayment * threshold("us-appraiser-penalty-share", day).figure / 100
    least = threshold("us-appraiser-penalty-least", day).figure
    cap = fee * threshold("us-appraiser-penalty-fee-share", day).figure / 100
    return round_half_away(min(max(share, least), cap), 2)


@frozen
class Band:
    """The correct values at which an opinion would be substantially and grossly wrong [currency of the opinion, cents].

    For a donation trouble begins at or below them, for an estate or gift at or above.
    """

    substantial: Decimal
    gross: Decimal


def band_of_donation(opinion: Decimal, *, day: date) -> Band:
    """Return how low the correct value may lie before an opinion for a donation is a misstatement."""
    return _band(opinion, "us-overstatement", day)


def band_of_estate(opinion: Decimal, *, day: date) -> Band:
    """Return how high the correct value may lie before an opinion for an estate or gift is a misstatement."""
    return _band(opinion, "us-understatement", day)


def _band(opinion: Decimal, rule: str, day: date) -> Band:
    with localcontext(EXACT):
        limits = [opinion / threshold(f"{rule}-{kind}", day).figure for kind in ("substantial", "gross")]
    return Band(*(round_half_away(one, 2) for one in limits))
