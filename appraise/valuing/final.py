"""Final rounding: once, by the scale S1 (method rule R2).

Opinions of value are rounded so. Prices actually paid, claim settlements and actual cash value of a loss are not.
Totals are sums of rounded lines and are never rounded again.
"""

from appraise.model.figure import Outcome
from appraise.model.kinds import Kind
from appraise.valuing.operations import BY_SCALE
from appraise.valuing.working import Working


def rounded_money(currency: str) -> Kind:
    """Return the kind of a rounded opinion: whole units of the currency, since every increment is whole."""
    return Kind("money", 0, currency)


def rounded_by_scale(work: Working, name: str, amount: Outcome, value: Outcome, currency: str) -> Outcome:
    """Return an amount rounded by the increment that belongs to `value`, the value before rounding."""
    return work.figure(name, rounded_money(currency), BY_SCALE, amount, value)
