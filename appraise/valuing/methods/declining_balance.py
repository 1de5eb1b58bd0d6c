"""Depreciation by declining balance with a switch to straight line, as US tax tables have it.

IRS Publication 946, table A-1: half a year in the first year and the rest in the last; each year the larger of the
declining rate on what is left and what is left over the years left. A tax schedule, not a measure of what an
instrument is worth; an adjuster may have it in his file, and the difference can then be shown.
"""

from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.operations import DIFFERENCE, LARGER, Numbers, operation
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working

HALF = Decimal("0.5")


@operation(
    "declining rate", "{0} × {1} % ÷ {2} × {3}", lambda refs, places: f"{refs[0]}*{refs[1]}*{refs[3]}/(100*{refs[2]})"
)
def DECLINING_RATE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """What is left, percent of the straight-line rate (200 is double), life in years, part of the year."""
    return values[0] * values[1] * values[3] / (100 * values[2])


@operation("even rest", "{0} ÷ {1} × {2}", lambda refs, places: f"{refs[0]}*{refs[2]}/{refs[1]}")
def EVEN_REST(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """What is left, years left, part of the year."""
    return values[0] * values[2] / values[1]


def declining_balance(
    ledger: Ledger, cost: Outcome, *, life: int, percent: Decimal = Decimal(200), currency: str
) -> Worked:
    """Return the depreciation of each year (figures year1, year2, ...), to the cent; the last takes what is left.

    life     years, at least 2
    percent  of the straight-line rate: 200 is double
    """
    cash = money(currency)
    work = Working(ledger, "LOS-01")
    rate, years = work.ledger.typed("percent", percent), work.ledger.typed("life", Decimal(life))
    left = cost
    passed = Decimal(0)
    for year in range(1, life + 1):
        part = HALF if year == 1 else Decimal(1)
        share = work.note(f"part{year}", part)
        remaining = work.note(f"remaining{year}", Decimal(life) - passed)
        declining = work.figure(f"declining{year}", cash, DECLINING_RATE, left, rate, years, share)
        even = work.figure(f"even{year}", cash, EVEN_REST, left, remaining, share)
        taken = work.figure(f"year{year}", cash, LARGER, declining, even)
        left = work.figure(f"left{year}", cash, DIFFERENCE, left, taken)
        passed += part
    work.figure(f"year{life + 1}", cash, CARRIED, left)
    return work.done()
