"""Rounding as the method says it: ties away from zero, once, in decimal arithmetic."""

from decimal import ROUND_HALF_UP, Context, Decimal, localcontext
from functools import cache

#: Working precision: products of five percents of an eleven-digit amount stay exact (method rule R1 asks for 28).
EXACT = Context(prec=60)


def round_half_away(value: Decimal, places: int) -> Decimal:
    """Return `value` rounded to `places` decimals, ties away from zero.

    >>> round_half_away(Decimal("0.005"), 2), round_half_away(Decimal("-0.005"), 2)
    (Decimal('0.01'), Decimal('-0.01'))
    """
    rounded = value.quantize(_unit(places), ROUND_HALF_UP, EXACT)
    return rounded if rounded else abs(rounded)


@cache
def _unit(places: int) -> Decimal:
    return Decimal(1).scaleb(-places)


def round_to_step(value: Decimal, step: Decimal) -> Decimal:
    """Return the multiple of `step` nearest to `value`, ties away from zero.

    >>> round_to_step(Decimal("5525"), Decimal(50))
    Decimal('5550')
    """
    with localcontext(EXACT):
        return round_half_away(value / step, 0) * step
