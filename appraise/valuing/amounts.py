"""Operations on amounts that several methods share."""

from decimal import Decimal

from appraise.model.operations import Numbers, operation


@operation(
    "less the others",
    "the first of {all}, less the others",
    lambda refs, places: "-".join(refs),
)
def LESS_OTHERS(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """An amount and all that goes off it."""
    return values[0] - sum(values[1:], Decimal(0))


@operation("rise", "{0} − {1}, not below 0", lambda refs, places: f"MAX(0,{refs[0]}-{refs[1]})")
def RISE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """By how much the first lies above the second; nothing if it does not."""
    return max(Decimal(0), values[0] - values[1])


@operation("less fraction", "{0} × (1 − {1})", lambda refs, places: f"{refs[0]}*(1-{refs[1]})")
def LESS_FRACTION(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, fraction of it that goes off."""
    return values[0] * (1 - values[1])
