"""A price index from objects sold twice, by regression.

Geometric index: Bailey, Muth and Nourse, A Regression Method for Real Estate Price Index Construction, Journal of the
American Statistical Association 58 (1963). Arithmetic index: Shiller, Arithmetic Repeat Sales Price Estimators,
Journal of Housing Economics 1 (1991). The first period sold in is the base, 100; it has no column, and the regression
has no constant. Periods that no chain of pairs ties to the base have no index: all is refused and they are named.
Nothing is said of a period before the first or after the last one sold in.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal, localcontext

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given
from appraise.model.months import Month, month_text
from appraise.model.place import Place
from appraise.model.rounding import round_half_away
from appraise.records.declare import filled, place_of
from appraise.records.learning import REPEAT_SALES, RepeatSale
from appraise.records.tables import IndexPoint
from appraise.records.vocabulary import Market
from appraise.valuing.least_squares import DIGITS, least_squares, solved

HUNDRED = Decimal(100)
#: Fewer pairs than this on a period make its figure rest on single objects: our default, no source.
FEW_PAIRS = 5


@frozen
class ResalePair:
    """One object sold in an earlier and in a later period (numbers that count up), both prices above zero."""

    earlier: int
    later: int
    earlier_price: Decimal
    later_price: Decimal


@frozen
class IndexedPeriod:
    """One period of the index.

    figure    the base is 100 [4 decimals]
    error     standard error of the figure, by the delta method [4 decimals]; None for the base, or without a
              degree of freedom, or for the arithmetic index
    pairs     sales in this period, first or second, that the figure rests on
    """

    period: int
    figure: Decimal
    error: Decimal | None
    pairs: int


@frozen
class RepeatSalesIndex:
    """An index by period in ascending order; `gaps` are the periods inside without a sale."""

    periods: tuple[IndexedPeriod, ...]
    pairs: int
    gaps: tuple[int, ...]

    def figure(self, period: int) -> Decimal | None:
        """Return the figure of a period that was sold in; None for any other: nothing is filled in or drawn on."""
        return next((one.figure for one in self.periods if one.period == period), None)


@frozen
class Unconnected:
    """No index: these groups of periods do not hang together; the first holds the base."""

    groups: tuple[tuple[int, ...], ...]


def geometric_index(pairs: Sequence[ResalePair], *, robust: bool = False) -> RepeatSalesIndex | Unconnected | None:
    """Return the index of Bailey, Muth and Nourse: least squares of the logarithms of the price relatives.

    Standard errors are the classical ones; `robust`: each pair its own variance, factor n / (n - k) (HC1). None
    without a pair.
    """
    periods = sorted({one.earlier for one in pairs} | {one.later for one in pairs})
    groups = connected(pairs)
    if not pairs or len(groups) > 1:
        return Unconnected(groups) if pairs else None
    rows = [_log_row(pair, periods) for pair in pairs]
    with localcontext(DIGITS):
        observed = [(pair.later_price / pair.earlier_price).ln() for pair in pairs]
    fit = least_squares(rows, observed)
    if fit is None:
        raise ArithmeticError("periods that hang together always have an index")
    errors = fit.robust_errors(rows) if robust else fit.standard_errors()
    with localcontext(DIGITS):
        figures = [HUNDRED, *(HUNDRED * one.exp() for one in fit.coefficients)]
        spread: list[Decimal | None] = [None] * len(figures)
        if errors is not None:
            spread = [None, *(figure * error for figure, error in zip(figures[1:], errors, strict=True))]
    return _index(pairs, periods, figures, spread)


def arithmetic_index(pairs: Sequence[ResalePair]) -> RepeatSalesIndex | Unconnected | None:
    """Return the index of Shiller: what a holding of all the objects was worth, by instrumental variables.

    None without a pair, or where the prices allow no single solution.
    """
    periods = sorted({one.earlier for one in pairs} | {one.later for one in pairs})
    groups = connected(pairs)
    if not pairs or len(groups) > 1:
        return Unconnected(groups) if pairs else None
    columns = periods[1:]
    instruments = [_log_row(pair, periods) for pair in pairs]
    prices = [_price_row(pair, periods) for pair in pairs]
    base = [pair.earlier_price if pair.earlier == periods[0] else Decimal(0) for pair in pairs]
    with localcontext(DIGITS):
        matrix = [
            [_sum(z[i] * x[j] for z, x in zip(instruments, prices, strict=True)) for j in range(len(columns))]
            for i in range(len(columns))
        ]
        right = [_sum(z[i] * y for z, y in zip(instruments, base, strict=True)) for i in range(len(columns))]
        solution = solved(matrix, right)
        if solution is None or any(one <= 0 for one in solution):
            return None
        figures = [HUNDRED, *(HUNDRED / one for one in solution)]
    return _index(pairs, periods, figures, [None] * len(figures))


def connected(pairs: Iterable[ResalePair]) -> tuple[tuple[int, ...], ...]:
    """Return the groups of periods tied to one another by chains of pairs, each ascending, by first period."""
    groups: list[set[int]] = []
    for pair in pairs:
        touched = [group for group in groups if pair.earlier in group or pair.later in group]
        groups = [group for group in groups if group not in touched]
        groups.append({pair.earlier, pair.later}.union(*touched))
    return tuple(sorted(tuple(sorted(group)) for group in groups))


def resale_pairs(rows: Iterable[RepeatSale], *, months: int = 12) -> tuple[list[ResalePair], list[Finding]]:
    """Return the pairs of one index from the sheet Repeat sales, and what keeps a row from being used.

    months  length of a period: 12 a year, 3 a quarter, 1 a month; it must divide 12
    """
    if months < 1 or 12 % months:
        raise ValueError(f"{months} months do not divide a year")
    pairs: list[ResalePair] = []
    findings: list[Finding] = []
    for row in rows:
        lacking = [key for key in ("first_month", "first_price", "second_month", "second_price") if _lacks(row, key)]
        findings += [
            _at(row, "YRL-01", key, sheet=REPEAT_SALES.name, heading=REPEAT_SALES.column(key).heading)
            for key in lacking
        ]
        if lacking:
            continue
        pair = _pair(row, months, findings)
        if pair is not None:
            pairs.append(pair)
    return pairs, findings


def period_text(period: int, *, months: int = 12) -> str:
    """Return the first month of a period, or the year where a period is a year.

    >>> period_text(2019), period_text(8077, months=3)
    ('2019', '2019-04')
    """
    return str(period) if months == 12 else month_text(period * months)


def index_rows(
    index: RepeatSalesIndex, name: str, *, months: int = 12, market: Market | Missing
) -> tuple[IndexPoint, ...]:
    """Return the index as rows for the sheet Indexes of the library; nothing is carried on beyond the last.

    market  the level the prices were paid at; blank: the appraiser types it
    A figure of a period of several months stands at its middle month, the later of two (July for a year): common
    practice, no source. The source of each row says the number of pairs and the standard error.
    """
    rows = []
    for one in index.periods:
        error = "base" if one.error is None else f"standard error {one.error}"
        rows.append(
            filled(
                IndexPoint,
                index=name,
                month=month_text(one.period * months + months // 2),
                figure=one.figure,
                carry_last=False,
                market=market,
                source=f"own repeat sales, {index.pairs} pairs, {one.pairs} with a sale in this period; {error}",
            )
        )
    return tuple(rows)


def unconnected_finding(place: Place, index: str, groups: Sequence[Sequence[int]], *, months: int = 12) -> Finding:
    """Return the finding that names the groups of periods that do not hang together."""
    named = "; ".join(", ".join(period_text(one, months=months) for one in group) for group in groups)
    return finding("YRL-21", place, index, found=named, index=index)


def _pair(row: RepeatSale, months: int, findings: list[Finding]) -> ResalePair | None:
    first, second = _month(row.first_month), _month(row.second_month)
    for key, month in (("first_month", first), ("second_month", second)):
        if month is None:
            findings.append(_at(row, "YRL-22", key, found=getattr(row, key)))
    if first is None or second is None:
        return None
    for key in ("first_price", "second_price"):
        if getattr(row, key) <= 0:
            findings.append(_at(row, "YRL-23", key, found=str(getattr(row, key))))
            return None
    if row.changed is not False:
        findings.append(_at(row, "YRL-24", "changed", found="yes" if row.changed is True else ""))
        return None
    if first // months >= second // months:
        findings.append(_at(row, "YRL-25", "second_month", found=str(row.second_month)))
        return None
    assert given(row.first_price) and given(row.second_price)
    return ResalePair(first // months, second // months, row.first_price, row.second_price)


def _lacks(row: RepeatSale, key: str) -> bool:
    return isinstance(getattr(row, key), Missing)


def _month(text: str | Missing) -> Month | None:
    if not given(text):
        return None
    year, dash, month = text.partition("-")
    if not (dash and year.isdecimal() and month.isdecimal() and 1 <= int(month) <= 12):
        return None
    return 12 * int(year) + int(month) - 1


def _at(row: RepeatSale, code: str, key: str, *, found: str = "", **details: object) -> Finding:
    subjects = (row.id,) if given(row.id) else ()
    return finding(code, place_of(REPEAT_SALES, row, key), *subjects, found=found, **details)


def _log_row(pair: ResalePair, periods: Sequence[int]) -> list[Decimal]:
    return [Decimal((one == pair.later) - (one == pair.earlier)) for one in periods[1:]]


def _price_row(pair: ResalePair, periods: Sequence[int]) -> list[Decimal]:
    return [
        pair.later_price if one == pair.later else -pair.earlier_price if one == pair.earlier else Decimal(0)
        for one in periods[1:]
    ]


def _index(
    pairs: Sequence[ResalePair], periods: Sequence[int], figures: Sequence[Decimal], errors: Sequence[Decimal | None]
) -> RepeatSalesIndex:
    counts = [sum(1 for one in pairs if period in (one.earlier, one.later)) for period in periods]
    made = tuple(
        IndexedPeriod(period, round_half_away(figure, 4), None if error is None else round_half_away(error, 4), count)
        for period, figure, error, count in zip(periods, figures, errors, counts, strict=True)
    )
    gaps = tuple(one for one in range(periods[0], periods[-1]) if one not in periods)
    return RepeatSalesIndex(made, len(pairs), gaps)


def _sum(values: Iterable[Decimal]) -> Decimal:
    return sum(values, Decimal(0))
