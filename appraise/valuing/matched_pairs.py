"""The effect of one feature on the price, from pairs of sales alike in all else, with an interval.

A comparable that is better than the subject is adjusted downwards, a poorer one upwards; the two percents are not the
negatives of one another. The interval is Student's: mean ± t × standard deviation ÷ root of the number of pairs.
Pairs count alike here; weights are for the reconciliation of one opinion, not for the error of a mean.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.model.rounding import round_half_away
from appraise.records.declare import place_of
from appraise.records.losses import PAIRED_SALES, PairedSale
from appraise.valuing.least_squares import DIGITS, t_quantile

#: Fewer pairs than this make an interval that says little: our default, no source.
FEW_PAIRS = 5


@dataclass(frozen=True, slots=True)
class Estimate:
    """A mean over pairs: number of pairs, mean, and the ends of its interval (None with a single pair)."""

    pairs: int
    mean: Decimal
    low: Decimal | None
    high: Decimal | None


@dataclass(frozen=True, slots=True)
class FeatureEffect:
    """What one feature does to the price.

    amount    better price less poorer [currency of the pairs, 2 decimals]
    downward  percent to take off a comparable that has what the subject lacks (negative) [2 decimals]
    upward    percent to put on a comparable that lacks what the subject has (positive) [2 decimals]
    """

    amount: Estimate
    downward: Estimate
    upward: Estimate


def feature_effect(
    pairs: Sequence[tuple[Decimal, Decimal]], *, confidence: Decimal = Decimal(95)
) -> FeatureEffect | None:
    """Return the effect from (better price, poorer price) pairs, both above zero; None without a pair.

    confidence  of the intervals, in percent
    """
    if not pairs:
        return None
    with localcontext(DIGITS):
        amounts = [better - poorer for better, poorer in pairs]
        down = [100 * (poorer / better - 1) for better, poorer in pairs]
        up = [100 * (better / poorer - 1) for better, poorer in pairs]
    return FeatureEffect(*(estimate(values, confidence=confidence) for values in (amounts, down, up)))


def estimate(values: Sequence[Decimal], *, confidence: Decimal = Decimal(95)) -> Estimate:
    """Return mean and Student interval of values, rounded to 2 decimals at the end; at least one value."""
    with localcontext(DIGITS):
        count = len(values)
        mean = sum(values, Decimal(0)) / count
        if count == 1:
            return Estimate(1, round_half_away(mean, 2), None, None)
        variance = sum(((one - mean) ** 2 for one in values), Decimal(0)) / (count - 1)
        half = t_quantile((1 + confidence / 100) / 2, count - 1) * (variance / count).sqrt()
        low, high = mean - half, mean + half
    return Estimate(count, round_half_away(mean, 2), round_half_away(low, 2), round_half_away(high, 2))


def usable_pairs(rows: Iterable[PairedSale]) -> tuple[list[tuple[Decimal, Decimal]], list[Finding]]:
    """Return the price pairs of rows of one element with a weight above zero, and what keeps a row out."""
    pairs: list[tuple[Decimal, Decimal]] = []
    findings: list[Finding] = []
    for row in rows:
        subjects = (row.id,) if given(row.id) else ()
        if not (given(row.better) and given(row.poorer)):
            key = "poorer" if given(row.better) else "better"
            heading = PAIRED_SALES.column(key).heading
            place = place_of(PAIRED_SALES, row, key)
            findings.append(finding("LOS-01", place, *subjects, sheet=PAIRED_SALES.name, heading=heading))
        elif row.better <= 0 or row.poorer <= 0:
            key = "better" if row.better <= 0 else "poorer"
            place = place_of(PAIRED_SALES, row, key)
            findings.append(finding("LOS-07", place, *subjects, found=str(getattr(row, key))))
        elif row.weight != 0:
            pairs.append((row.better, row.poorer))
    return pairs, findings


def percent_of_log_effect(coefficient: Decimal) -> Decimal:
    """Return the percent by which a price with a feature lies above one without, from a log regression's coefficient.

    Exact, 100 × (e^b − 1), not the coefficient itself; going the other way give −b. 3 decimals.

    >>> percent_of_log_effect(Decimal("0.0538")), percent_of_log_effect(Decimal("-0.0538"))
    (Decimal('5.527'), Decimal('-5.238'))
    """
    with localcontext(DIGITS):
        return round_half_away(100 * (coefficient.exp() - 1), 3)
