"""How the appraiser's values stood to the prices later paid: ratio statistics of value to price.

Definitions of the IAAO Standard on Ratio Studies (2013): ratio = value ÷ price; COD = 100 × mean absolute deviation
from the median ÷ median; PRD = mean ratio ÷ weighted mean; PRB = slope of (ratio − median) ÷ median on the logarithm
to base 2 of half of (value ÷ median + price). The interval of the median goes by ranks, exactly (sign test). For the
appraiser's own eyes, never part of a client's report unless asked. A retail value stands above an auction price by
the nature of the two markets: figures are drawn up by type of value and kind of price apart.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal, localcontext
from fractions import Fraction
from math import comb

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.learning import LATER_SALES, LaterSale
from appraise.records.vocabulary import Family, PriceKind, ValueType
from appraise.valuing.least_squares import DIGITS, least_squares, t_quantile

#: Samples smaller than this are called small: our default, no source.
SMALL_SAMPLE = 10


@frozen
class RatioStatistics:
    """Statistics of value to price, unrounded; round where they are printed.

    sales          number of sales
    median, mean   of the ratios; `weighted` is sum of values ÷ sum of prices
    weighted_low, weighted_high   95 percent interval of the weighted mean (Student); None with one sale
    cod, prd       see the module; `prb` with its standard error, None where it cannot be fitted
    deviation, variation          standard deviation with n − 1; that as a percent of the mean
    median_low, median_high       interval of the median by ranks; None with fewer than 6 sales (at 95 percent)
    """

    sales: int
    median: Decimal
    mean: Decimal
    weighted: Decimal
    weighted_low: Decimal | None
    weighted_high: Decimal | None
    cod: Decimal
    prd: Decimal
    prb: Decimal | None
    prb_error: Decimal | None
    deviation: Decimal | None
    variation: Decimal | None
    median_low: Decimal | None
    median_high: Decimal | None


@frozen
class Group:
    """The sales of one type of value, kind of price and family (None: all families)."""

    value_type: ValueType
    price_kind: PriceKind
    family: Family | None
    statistics: RatioStatistics


def ratio_statistics(pairs: Sequence[tuple[Decimal, Decimal]]) -> RatioStatistics | None:
    """Return the statistics of (value, price) pairs, all above zero; None without a pair."""
    if not pairs:
        return None
    with localcontext(DIGITS):
        count = len(pairs)
        ratios = sorted(value / price for value, price in pairs)
        middle = median(ratios)
        mean = _sum(ratios) / count
        weighted = _sum(value for value, _ in pairs) / _sum(price for _, price in pairs)
        cod = 100 * _sum(abs(one - middle) for one in ratios) / count / middle
        deviation = (_sum((one - mean) ** 2 for one in ratios) / (count - 1)).sqrt() if count > 1 else None
        low, high = _weighted_interval(pairs, weighted)
        ranks = median_ranks(count)
        prb, error = _price_related_bias(pairs, middle)
        return RatioStatistics(
            sales=count,
            median=middle,
            mean=mean,
            weighted=weighted,
            weighted_low=low,
            weighted_high=high,
            cod=cod,
            prd=mean / weighted,
            prb=prb,
            prb_error=error,
            deviation=deviation,
            variation=None if deviation is None else 100 * deviation / mean,
            median_low=None if ranks is None else ratios[ranks[0] - 1],
            median_high=None if ranks is None else ratios[ranks[1] - 1],
        )


def median(ascending: Sequence[Decimal]) -> Decimal:
    """Return the middle of sorted values, or the mean of the two in the middle."""
    half = len(ascending) // 2
    return ascending[half] if len(ascending) % 2 else (ascending[half - 1] + ascending[half]) / 2


def median_ranks(count: int, *, confidence: int = 95) -> tuple[int, int] | None:
    """Return the ranks, from 1, between which the median lies with at least `confidence` percent; None if none do.

    Exact binomial (sign test), the narrowest symmetric pair. The normal approximation can be a rank off.

    >>> median_ranks(5), median_ranks(17), median_ranks(36)
    (None, (5, 13), (12, 25))
    """
    best = None
    tail = Fraction(0)
    for lower in range(1, (count + 1) // 2 + 1):
        tail += Fraction(comb(count, lower - 1), 2**count)
        if 1 - 2 * tail >= Fraction(confidence, 100):
            best = (lower, count + 1 - lower)
    return best


def coverage_of_ranks(count: int, lower: int) -> Fraction:
    """Return the exact probability that the median lies between rank `lower` and its mirror rank."""
    return 1 - 2 * Fraction(sum(comb(count, below) for below in range(lower)), 2**count)


def track_record(rows: Iterable[LaterSale]) -> tuple[list[Group], list[Finding]]:
    """Return the statistics by type of value and kind of price, over all families and by family, with cautions."""
    findings: list[Finding] = []
    grouped: dict[tuple[ValueType, PriceKind, Family | None], list[tuple[Decimal, Decimal]]] = {}
    for row in rows:
        usable = _usable(row, findings)
        if usable is None:
            continue
        value_type, kind, family, pair = usable
        grouped.setdefault((value_type, kind, None), []).append(pair)
        grouped.setdefault((value_type, kind, family), []).append(pair)
    groups = []
    for key in sorted(grouped, key=lambda key: (key[0].value, key[1].value, key[2].value if key[2] else "")):
        statistics = ratio_statistics(grouped[key])
        if statistics is not None:
            groups.append(Group(*key, statistics))
    return groups, findings


def _usable(
    row: LaterSale, findings: list[Finding]
) -> tuple[ValueType, PriceKind, Family, tuple[Decimal, Decimal]] | None:
    subjects = (row.item,) if given(row.item) else ()
    for key in ("value_type", "price_kind", "family", "value", "price"):
        if not given(getattr(row, key)):
            heading = LATER_SALES.column(key).heading
            place = place_of(LATER_SALES, row, key)
            findings.append(finding("YRL-01", place, *subjects, sheet=LATER_SALES.name, heading=heading))
            return None
    for key in ("value", "price"):
        if getattr(row, key) <= 0:
            place = place_of(LATER_SALES, row, key)
            findings.append(finding("YRL-26", place, *subjects, found=str(getattr(row, key))))
            return None
    if row.price_kind in (PriceKind.ASKING, PriceKind.UNSOLD):
        place = place_of(LATER_SALES, row, "price_kind")
        findings.append(finding("YRL-27", place, *subjects, found=str(row.price_kind)))
        return None
    if given(row.day) and given(row.value_day) and row.day < row.value_day:
        place = place_of(LATER_SALES, row, "day")
        findings.append(finding("YRL-28", place, *subjects, found=row.day.isoformat(), valued=row.value_day))
    retail = row.value_type in (ValueType.RETAIL_REPLACEMENT, ValueType.REPLACEMENT_COST_NEW)
    if retail and row.price_kind in (PriceKind.HAMMER, PriceKind.ALL_IN):
        place = place_of(LATER_SALES, row, "price_kind")
        findings.append(finding("YRL-29", place, *subjects, found=str(row.price_kind), value_type=row.value_type))
    assert given(row.value_type) and given(row.price_kind) and given(row.family)
    assert given(row.value) and given(row.price)
    return row.value_type, row.price_kind, row.family, (row.value, row.price)


def _weighted_interval(
    pairs: Sequence[tuple[Decimal, Decimal]], weighted: Decimal
) -> tuple[Decimal | None, Decimal | None]:
    """Return the 95 percent interval of the weighted mean (a ratio of sums), None with one sale."""
    count = len(pairs)
    if count < 2:
        return None, None
    squares = _sum((value - weighted * price) ** 2 for value, price in pairs)
    mean_price = _sum(price for _, price in pairs) / count
    error = (squares / (count * (count - 1))).sqrt() / mean_price
    half = t_quantile(Decimal("0.975"), count - 1) * error
    return weighted - half, weighted + half


def _price_related_bias(
    pairs: Sequence[tuple[Decimal, Decimal]], middle: Decimal
) -> tuple[Decimal | None, Decimal | None]:
    """Return PRB and its standard error; None where the sales do not differ in size."""
    two = Decimal(2).ln()
    rows = [(Decimal(1), ((value / middle + price) / 2).ln() / two) for value, price in pairs]
    fit = least_squares(rows, [(value / price - middle) / middle for value, price in pairs])
    if fit is None:
        return None, None
    errors = fit.standard_errors()
    return fit.coefficients[1], None if errors is None else errors[1]


def _sum(values: Iterable[Decimal]) -> Decimal:
    return sum(values, Decimal(0))
