"""Operations of the sales comparison method, with their formulas: see `model.operations` for the general ones."""

from collections.abc import Sequence
from decimal import Decimal
from math import prod

from appraise.model.operations import Numbers, operation
from appraise.model.rounding import round_to_step

HUNDRED = Decimal(100)


@operation("carried", "{0} as it stands", lambda refs, places: refs[0])
def CARRIED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """The argument, rounded as its new kind asks."""
    return values[0]


@operation(
    "interpolated",
    "{0} + ({1} − {0}) × {2} ÷ {3} months",
    lambda refs, places: f"{refs[0]}+({refs[1]}-{refs[0]})*{refs[2]}/{refs[3]}",
)
def INTERPOLATED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Index point before, point after, whole months from the first to the month, months between the points."""
    before, after, months, span = values
    return before + (after - before) * months / span


def _multiplied_away_formula(refs: Sequence[str], places: int | None) -> str:
    return f"MAX({refs[0]},{'*'.join(['100', *(f'(1-{one}/100)' for one in refs[1:])])})"


@operation(
    "deductions multiplied",
    "100{less}, not below {0}",
    _multiplied_away_formula,
)
def DEDUCTIONS_MULTIPLIED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Floor, deduction1, deduction2, ... in percent."""
    return max(values[0], HUNDRED * prod((1 - one / HUNDRED for one in values[1:]), start=Decimal(1)))


def _added_away_formula(refs: Sequence[str], places: int | None) -> str:
    return f"MAX({refs[0]},{'-'.join(['100', *refs[1:]])})"


@operation("deductions added", "100{minus}, not below {0}", _added_away_formula)
def DEDUCTIONS_ADDED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Floor, deduction1, deduction2, ... in percent."""
    return max(values[0], HUNDRED - sum(values[1:], Decimal(0)))


def _multiplied_formula(refs: Sequence[str], places: int | None) -> str:
    return "*".join(f"(1+{one}/100)" for one in refs) or "1"


@operation("percents multiplied", "{factors}", _multiplied_formula)
def PERCENTS_MULTIPLIED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Percents of either sign; the factor of all of them one after the other."""
    return prod((1 + one / HUNDRED for one in values), start=Decimal(1))


def _added_formula(refs: Sequence[str], places: int | None) -> str:
    return f"1+({'+'.join(refs)})/100" if refs else "1"


@operation("percents added", "1 + ({sum}) %", _added_formula)
def PERCENTS_ADDED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Percents of either sign, all taken of the same price; the factor of their sum."""
    return 1 + sum(values, Decimal(0)) / HUNDRED


def _gross_formula(refs: Sequence[str], places: int | None) -> str:
    return "+".join([*(f"ABS({one})" for one in refs[2:]), f"100*ABS({refs[0]})/{refs[1]}"])


@operation("gross adjustment", "the sum without signs of {rest} and of 100 × {0} ÷ {1}", _gross_formula)
def GROSS(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Lump sum, time-adjusted price, percent1, percent2, ..."""
    lump, price = values[:2]
    return sum((abs(one) for one in values[2:]), Decimal(0)) + HUNDRED * abs(lump) / price


#: Increments of the rounding scale S1: for values below the first figure the second; above all of them the last.
SCALE_S1 = (
    (Decimal(1_000), Decimal(10)),
    (Decimal(10_000), Decimal(50)),
    (Decimal(50_000), Decimal(100)),
    (Decimal(250_000), Decimal(500)),
)
LARGEST_INCREMENT = Decimal(1_000)


def increment(value: Decimal) -> Decimal:
    """Return the increment of scale S1 for a value before rounding (method rule R2).

    >>> increment(Decimal("999.99")), increment(Decimal(1000))
    (Decimal('10'), Decimal('50'))
    """
    return next((step for below, step in SCALE_S1 if abs(value) < below), LARGEST_INCREMENT)


def _scale_formula(refs: Sequence[str], places: int | None) -> str:
    step = str(LARGEST_INCREMENT)
    for below, smaller in reversed(SCALE_S1):
        step = f"IF(ABS({refs[1]})<{below},{smaller},{step})"
    return f"ROUND(ROUND({refs[0]}/{step},8),0)*{step}"


@operation("rounded by scale", "{0} to the nearest increment of the rounding scale for a value of {1}", _scale_formula)
def BY_SCALE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, the value whose size chooses the increment (for the value itself: the value twice)."""
    return round_to_step(values[0], increment(values[1]))


def _hammer_formula(refs: Sequence[str], places: int | None) -> str:
    paid, tax, *tiers = refs
    lower, below = "0", "0"
    pieces: list[tuple[str, str]] = []
    for upper, rate in zip(tiers[:-1:2], tiers[1:-1:2], strict=True):
        slope = f"(1+{rate}/100*(1+{tax}/100))"
        reached = f"({below}+({upper}-{lower})*{slope})"
        pieces.append((reached, f"{lower}+({paid}-{below})/{slope}"))
        lower, below = upper, reached
    formula = f"{lower}+({paid}-{below})/(1+{tiers[-1]}/100*(1+{tax}/100))"
    for reached, piece in reversed(pieces):
        formula = f"IF({paid}<={reached},{piece},{formula})"
    return formula


@operation(
    "hammer implied by tiers",
    "the hammer price whose price with the premium by tiers, and {1} % tax on it, is {0}",
    _hammer_formula,
)
def HAMMER_IMPLIED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """All-in price, tax on the premium in percent, upper1, rate1, ..., rate of the last tier (method rule R4).

    Within a tier of rate r the all-in price grows by 1 + r x (1 + tax) for each unit of hammer; nothing is rounded
    on the way.
    """
    paid, tax, *tiers = values
    lower = below = Decimal(0)
    for upper, rate in zip(tiers[:-1:2], tiers[1:-1:2], strict=True):
        slope = _slope(rate, tax)
        reached = below + (upper - lower) * slope
        if paid <= reached:
            return lower + (paid - below) / slope
        lower, below = upper, reached
    return lower + (paid - below) / _slope(tiers[-1], tax)


@operation(
    "hammer implied by one rate",
    "{0} ÷ (1 + {2} % × (1 + {1} %))",
    lambda refs, places: f"{refs[0]}/(1+{refs[2]}/100*(1+{refs[1]}/100))",
)
def HAMMER_IMPLIED_WHOLE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """All-in price, tax on the premium, the one rate charged on the whole hammer price."""
    paid, tax, rate = values
    return paid / _slope(rate, tax)


def _slope(rate: Decimal, tax: Decimal) -> Decimal:
    return 1 + rate / HUNDRED * (1 + tax / HUNDRED)


@operation("spread", "100 × ({0} − {1}) ÷ {2}", lambda refs, places: f"100*({refs[0]}-{refs[1]})/{refs[2]}")
def SPREAD(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Highest, lowest, median: the range as a percent of the median."""
    high, low, median = values
    return HUNDRED * (high - low) / median
