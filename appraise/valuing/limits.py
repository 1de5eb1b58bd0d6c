"""Limits beyond which the method raises a finding (method rule R22). Each is our default, no source, and a setting."""

from decimal import Decimal

from appraise.model.frozen import frozen


@frozen(kw_only=True)
class Limits:
    """The limits of the findings on comparisons and their reconciliation.

    old_months      a sale more than so many months before the effective date is old
    gross, net      gross above this, net above this either way [percent]
    fewest          fewer comparisons used than this are few
    largest_share   one comparison that carries more of the weight than this [percent]
    widest_spread   high less low, as a percent of the median, above this
    """

    old_months: int = 36
    gross: Decimal = Decimal(40)
    net: Decimal = Decimal(25)
    fewest: int = 3
    largest_share: Decimal = Decimal(50)
    widest_spread: Decimal = Decimal(50)


DEFAULT_LIMITS = Limits()
