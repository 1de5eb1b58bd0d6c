"""Ordinary least squares by the normal equations, in decimals, so that the same input gives the same digits anywhere.

For the small tables an appraiser has: some hundred rows, some dozen columns. Columns that depend on one another make
no solution (None); nothing is dropped quietly.
"""

from collections.abc import Sequence
from decimal import Context, Decimal, localcontext

from appraise.model.frozen import frozen

Row = Sequence[Decimal]

#: Working precision of the statistics: far above the digits that are printed.
DIGITS = Context(prec=50)
#: A pivot this much smaller than its column's largest entry counts as zero.
_TINY = Decimal("1e-30")


@frozen
class Fit:
    """A fitted regression without a constant of its own (give a column of ones for one).

    coefficients    in the order of the columns
    residuals       observed less fitted, row by row
    inverse         inverse of X'X
    squares         sum of the squared residuals
    freedom         rows less columns
    """

    coefficients: tuple[Decimal, ...]
    residuals: tuple[Decimal, ...]
    inverse: tuple[tuple[Decimal, ...], ...]
    squares: Decimal
    freedom: int

    def variance(self) -> Decimal | None:
        """Return the variance of the residuals; None without a degree of freedom."""
        with localcontext(DIGITS):
            return self.squares / self.freedom if self.freedom > 0 else None

    def standard_errors(self) -> tuple[Decimal, ...] | None:
        """Return the classical standard errors (one variance for all rows); None without a degree of freedom."""
        variance = self.variance()
        if variance is None:
            return None
        with localcontext(DIGITS):
            return tuple((variance * self.inverse[at][at]).sqrt() for at in range(len(self.coefficients)))

    def robust_errors(self, rows: Sequence[Row]) -> tuple[Decimal, ...] | None:
        """Return standard errors that allow each row its own variance, with the factor n / (n - k) (called HC1)."""
        if self.freedom <= 0:
            return None
        with localcontext(DIGITS):
            meat = _weighted_products(rows, [residual * residual for residual in self.residuals])
            sandwich = _multiplied(_multiplied(self.inverse, meat), self.inverse)
            factor = Decimal(len(rows)) / self.freedom
            return tuple((factor * sandwich[at][at]).sqrt() for at in range(len(sandwich)))

    def explained(self, observed: Row) -> Decimal:
        """Return R squared around the mean of the observed values (for fits with a column of ones)."""
        with localcontext(DIGITS):
            mean = sum(observed, Decimal(0)) / len(observed)
            return 1 - self.squares / sum(((one - mean) ** 2 for one in observed), Decimal(0))

    def predicted(self, row: Row) -> Decimal:
        """Return the fitted value for a row of the columns."""
        with localcontext(DIGITS):
            return _dot(self.coefficients, row)

    def spread_of_prediction(self, row: Row) -> Decimal | None:
        """Return the standard deviation of a new observation at that row; None without a degree of freedom."""
        variance = self.variance()
        if variance is None:
            return None
        with localcontext(DIGITS):
            leverage = _dot(row, [_dot(line, row) for line in self.inverse])
            return (variance * (1 + leverage)).sqrt()


def least_squares(rows: Sequence[Row], observed: Row) -> Fit | None:
    """Return the least-squares fit of `observed` on the columns of `rows`; None if no single one exists."""
    if not rows or len(rows) < len(rows[0]):
        return None
    with localcontext(DIGITS):
        products = _weighted_products(rows, [Decimal(1)] * len(rows))
        inverse = inverted(products)
        if inverse is None:
            return None
        right = [_dot([row[at] for row in rows], observed) for at in range(len(rows[0]))]
        coefficients = tuple(_dot(line, right) for line in inverse)
        residuals = tuple(y - _dot(coefficients, row) for row, y in zip(rows, observed, strict=True))
        squares = sum((one * one for one in residuals), Decimal(0))
    return Fit(coefficients, residuals, inverse, squares, len(rows) - len(rows[0]))


def inverted(matrix: Sequence[Row]) -> tuple[tuple[Decimal, ...], ...] | None:
    """Return the inverse of a square matrix by elimination with row exchange; None if there is none."""
    size = len(matrix)
    with localcontext(DIGITS):
        scale = max((abs(one) for line in matrix for one in line), default=Decimal(0))
        lines = [[*line, *(Decimal(at == column) for column in range(size))] for at, line in enumerate(matrix)]
        for at in range(size):
            best = max(range(at, size), key=lambda row: abs(lines[row][at]))
            if abs(lines[best][at]) <= scale * _TINY:
                return None
            lines[at], lines[best] = lines[best], lines[at]
            pivot = lines[at][at]
            lines[at] = [one / pivot for one in lines[at]]
            for row in range(size):
                if row != at and lines[row][at]:
                    factor = lines[row][at]
                    lines[row] = [one - factor * other for one, other in zip(lines[row], lines[at], strict=True)]
    return tuple(tuple(line[size:]) for line in lines)


def solved(matrix: Sequence[Row], right: Row) -> tuple[Decimal, ...] | None:
    """Return the solution of a square system of equations; None if there is not exactly one."""
    inverse = inverted(matrix)
    if inverse is None:
        return None
    with localcontext(DIGITS):
        return tuple(_dot(line, right) for line in inverse)


def _weighted_products(rows: Sequence[Row], weights: Row) -> list[list[Decimal]]:
    size = len(rows[0])
    products = [[Decimal(0)] * size for _ in range(size)]
    for row, weight in zip(rows, weights, strict=True):
        for i in range(size):
            if row[i]:
                for j in range(size):
                    products[i][j] += weight * row[i] * row[j]
    return products


def _multiplied(a: Sequence[Row], b: Sequence[Row]) -> list[list[Decimal]]:
    columns = list(zip(*b, strict=True))
    return [[_dot(line, column) for column in columns] for line in a]


def _dot(a: Row, b: Row) -> Decimal:
    return sum((x * y for x, y in zip(a, b, strict=True)), Decimal(0))


def t_quantile(probability: Decimal, freedom: int) -> Decimal:
    """Return the value below which Student's t lies with a probability (above one half), 12 decimals right.

    The probability between -t and t is the finite series of Abramowitz and Stegun, Handbook of Mathematical
    Functions, 26.7.3 and 26.7.4; the quantile is found by halving.

    >>> t_quantile(Decimal("0.975"), 10).quantize(Decimal("0.0001"))
    Decimal('2.2281')
    """
    if not Decimal("0.5") < probability < 1 or freedom < 1:
        raise ValueError(f"no t quantile for {probability} with {freedom} degrees of freedom")
    with localcontext(Context(prec=40)):
        wanted = 2 * probability - 1
        low, high = Decimal(0), Decimal(1)
        while _within(high, freedom) < wanted:
            low, high = high, 2 * high
        while high - low > Decimal("1e-15") * high:
            middle = (low + high) / 2
            low, high = (middle, high) if _within(middle, freedom) < wanted else (low, middle)
        return (low + high) / 2


def _within(t: Decimal, freedom: int) -> Decimal:
    """Return the probability that Student's t lies between -t and t."""
    cosine_squared = 1 / (1 + t * t / freedom)
    cosine = cosine_squared.sqrt()
    sine = t / Decimal(freedom).sqrt() * cosine
    odd = freedom % 2 == 1
    term = total = (cosine if freedom > 1 else Decimal(0)) if odd else Decimal(1)
    for step in range(3 if odd else 2, freedom - 1, 2):
        term *= cosine_squared * (step - 1) / step
        total += term
    if not odd:
        return sine * total
    return 2 / _PI * (arc_tangent(t / Decimal(freedom).sqrt()) + sine * total)


def arc_tangent(x: Decimal) -> Decimal:
    """Return the arc tangent: the argument is halved in angle until the series is short."""
    halvings = 0
    while abs(x) > Decimal("0.1"):
        x = x / (1 + (1 + x * x).sqrt())
        halvings += 1
    total, power, sign = Decimal(0), x, 1
    for odd in range(1, 200, 2):
        total += sign * power / odd
        power *= x * x
        sign = -sign
        if abs(power) < Decimal("1e-45"):
            break
    return total * Decimal(2) ** halvings


_PI = Decimal("3.14159265358979323846264338327950288419716939937511")
