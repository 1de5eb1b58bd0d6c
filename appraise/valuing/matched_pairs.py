"""The effect of one feature on the price, from pairs of sales alike in all else, with an interval.

A comparable that is better than the subject is adjusted downwards, a poorer one upwards; the two percents are not the
negatives of one another. The interval is Student's: mean ± t × standard deviation ÷ root of the number of pairs.
Pairs count alike here; weights are for the reconciliation of one opinion, not for the error of a mean (0: left out).
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal, localcontext

from appraise.model.figure import Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import COUNT, PERCENT, Kind, money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import DIFFERENCE, PERCENT_ABOVE, Numbers, operation
from appraise.model.rounding import round_half_away
from appraise.records.declare import place_of
from appraise.records.losses import PAIRED_SALES, PairedSale
from appraise.valuing.least_squares import DIGITS, t_quantile
from appraise.valuing.working import Worked, Working, names_of

#: Fewer pairs than this make an interval that says little: our default, no source.
FEW_PAIRS = 5
#: Of the intervals, in percent: common practice, no source.
CONFIDENCE = 95
#: What is measured: money between the two, percent off a comparable that has the feature, percent on one without.
MEASURES = ("amount", "downward", "upward")


@operation("mean", "({sum}) ÷ number", lambda refs, places: f"AVERAGE({','.join(refs)})")
def MEAN(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """One value or more, all alike."""
    return sum(values, Decimal(0)) / len(values)


def _half_formula(refs: Sequence[str]) -> str:
    listed = ",".join(refs)
    return f"TINV({100 - CONFIDENCE}/100,{len(refs) - 1})*STDEV({listed})/SQRT({len(refs)})"


@operation(
    "interval low",
    f"mean of {{all}}, less t × standard deviation ÷ √number (Student, {CONFIDENCE} %)",
    lambda refs, places: f"AVERAGE({','.join(refs)})-{_half_formula(refs)}",
)
def INTERVAL_LOW(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Two values or more: the low end of Student's interval of their mean."""
    return MEAN.compute(values, None) - half_width(values)


@operation(
    "interval high",
    f"mean of {{all}}, plus t × standard deviation ÷ √number (Student, {CONFIDENCE} %)",
    lambda refs, places: f"AVERAGE({','.join(refs)})+{_half_formula(refs)}",
)
def INTERVAL_HIGH(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Two values or more: the high end of Student's interval of their mean."""
    return MEAN.compute(values, None) + half_width(values)


def half_width(values: Numbers) -> Decimal:
    """Return half the width of Student's interval of the mean of two values or more, unrounded."""
    count = len(values)
    with localcontext(DIGITS):
        mean = sum(values, Decimal(0)) / count
        variance = sum(((one - mean) ** 2 for one in values), Decimal(0)) / (count - 1)
        return t_quantile((1 + Decimal(CONFIDENCE) / 100) / 2, count - 1) * (variance / count).sqrt()


@frozen
class FeatureEffect:
    """What one feature does to the price: the pairs that differ in it, and their figures.

    Figures of a pair carry its name: NAME_better, NAME_poorer, NAME_amount, NAME_downward, NAME_upward. Of all pairs
    that count: pairs, and for each of `MEASURES` a mean, and low and high where there are two pairs or more.
    """

    element: str
    pairs: tuple[tuple[PairedSale, str], ...]
    worked: Worked


def feature_effects(ledger: Ledger, rows: Iterable[PairedSale], *, currency: str) -> tuple[FeatureEffect, ...]:
    """Return the effect of each feature that pairs serving no single item differ in, in the order first met."""
    by_element: dict[str, list[PairedSale]] = {}
    named: dict[str, str] = {}
    for row in rows:
        if given(row.element) and not given(row.item):
            key = " ".join(row.element.split()).casefold()
            named.setdefault(key, " ".join(row.element.split()))
            by_element.setdefault(key, []).append(row)
    return tuple(
        _effect(ledger.under(f"feature{number}"), named[key], pairs, currency)
        for number, (key, pairs) in enumerate(by_element.items(), start=1)
    )


def _effect(ledger: Ledger, element: str, rows: Sequence[PairedSale], currency: str) -> FeatureEffect:
    work = Working(ledger, "LOS-01")
    cash = money(currency)
    names = names_of(rows, "id", taken=MEASURES)
    found: dict[str, list[Outcome]] = {measure: [] for measure in MEASURES}
    for row, name in zip(rows, names, strict=True):
        if row.weight == 0 or not _usable(work, row, name):
            continue
        better = work.cell(PAIRED_SALES, row, "better", name=f"{name}_better")
        poorer = work.cell(PAIRED_SALES, row, "poorer", name=f"{name}_poorer")
        found["amount"].append(work.figure(f"{name}_amount", cash, DIFFERENCE, better, poorer))
        found["downward"].append(work.figure(f"{name}_downward", PERCENT, PERCENT_ABOVE, poorer, better))
        found["upward"].append(work.figure(f"{name}_upward", PERCENT, PERCENT_ABOVE, better, poorer))
    count = len(found["amount"])
    work.note("pairs", Decimal(count), kind=COUNT)
    for measure, values in found.items():
        _summed_up(work, measure, cash if measure == "amount" else PERCENT, values)
    if 0 < count < FEW_PAIRS:
        work.find("LOS-21", place_of(PAIRED_SALES, rows[0], "element"), found=element, pairs=count, few=FEW_PAIRS)
    return FeatureEffect(element, tuple(zip(rows, names, strict=True)), work.done())


def _usable(work: Working, row: PairedSale, name: str) -> bool:
    """Say whether both prices of a pair are above zero; what keeps it out is found."""
    for key in ("better", "poorer"):
        price = getattr(row, key)
        if not given(price):
            work.keep(f"{name}_amount", work.lacking(PAIRED_SALES, row, key))
            return False
        if price <= 0:
            work.refuse(f"{name}_amount", "LOS-07", place_of(PAIRED_SALES, row, key), found=str(price))
            return False
    return True


def _summed_up(work: Working, measure: str, kind: Kind, values: Sequence[Outcome]) -> None:
    if not values:
        return
    work.figure(f"{measure}_mean", kind, MEAN, *values)
    if len(values) > 1:
        work.figure(f"{measure}_low", kind, INTERVAL_LOW, *values)
        work.figure(f"{measure}_high", kind, INTERVAL_HIGH, *values)


def percent_of_log_effect(coefficient: Decimal) -> Decimal:
    """Return the percent by which a price with a feature lies above one without, from a log regression's coefficient.

    Exact, 100 × (e^b − 1), not the coefficient itself; going the other way give −b. 3 decimals.

    >>> percent_of_log_effect(Decimal("0.0538")), percent_of_log_effect(Decimal("-0.0538"))
    (Decimal('5.527'), Decimal('-5.238'))
    """
    with localcontext(DIGITS):
        return round_half_away(100 * (coefficient.exp() - 1), 3)
