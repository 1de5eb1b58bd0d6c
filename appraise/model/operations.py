"""The closed list of operations by which figures are made.

Each operation is declared once, with its Decimal function, its spreadsheet formula and its sentence; the proof
workbook and the explanations are derived from this list. A module that needs an operation of its own adds it
here, in the file of its topic; two operations with one name are an error at import.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal, getcontext, setcontext
from math import prod
from typing import TypeVar

from appraise.model.frozen import frozen
from appraise.model.rounding import EXACT, round_half_away

T = TypeVar("T")

Numbers = Sequence[Decimal]
#: From the argument values and the decimals of the result (None = exact) to the unrounded result.
Compute = Callable[[Numbers, int | None], Decimal]
#: From the cell references of the arguments and the decimals of the result to the formula, unrounded, without "=".
Formula = Callable[[Sequence[str], int | None], str]


@frozen
class Operation:
    """One operation: name, sentence, Decimal function, spreadsheet formula.

    The sentence holds {0}, {1} for single arguments and, where their number varies, {all}, {sum}, {product},
    {pairs}, {tiers}, {running}, {values}; `words` fills it.
    """

    name: str
    sentence: str
    compute: Compute
    formula: Formula

    def result(self, values: Numbers, places: int | None) -> Decimal:
        """Return the result rounded once to `places` decimals (None: exact)."""
        # As `localcontext` does, but without copying the context: figures are made by the hundred thousand.
        before = getcontext()
        setcontext(EXACT)
        try:
            exact = self.compute(values, places)
        finally:
            setcontext(before)
        return exact if places is None else round_half_away(exact, places)

    def words(self, arguments: Sequence[str]) -> str:
        """Return the sentence with the arguments, given as they are to be printed."""
        joined = {name: join(arguments) for name, join in _JOINED.items() if f"{{{name}}}" in self.sentence}
        return self.sentence.format(*arguments, **joined)

    def rounded_formula(self, references: Sequence[str], places: int | None) -> str:
        """Return the spreadsheet formula with its rounding.

        Spreadsheets compute in binary: an exact product is rounded to 8 decimals first, so that a tie is a tie; a
        figure of more than 2 decimals to 6 more than it has, or what lies just below a tie would be taken for one.
        """
        inner = self.formula(references, places)
        return inner if places is None else f"ROUND(ROUND({inner},{max(8, places + 6)}),{places})"


#: How the arguments are joined in a sentence, by the name of the placeholder.
_JOINED: dict[str, Callable[[Sequence[str]], str]] = {
    "all": ", ".join,
    "sum": " + ".join,
    "product": " × ".join,
    "pairs": lambda texts: " + ".join(f"{a} × {b}" for a, b in zip(texts[::2], texts[1::2], strict=True)),
    "tiers": lambda texts: _tier_words(texts[1:]),
    "running": lambda texts: ", ".join(texts[1::2]),
    "less": lambda texts: "".join(f" × (1 − {text} %)" for text in texts[1:]),
    "minus": lambda texts: "".join(f" − {text}" for text in texts[1:]),
    "factors": lambda texts: " × ".join(f"(1 + {text} %)" for text in texts) or "1",
    "rest": lambda texts: ", ".join(texts[2:]) or "nothing",
    "values": lambda texts: ", ".join(texts[2::2]),
}


def _tier_words(texts: Sequence[str]) -> str:
    words = [f"{rate} % up to {upper}" for upper, rate in zip(texts[:-1:2], texts[1:-1:2], strict=True)]
    return ", ".join([*words, f"{texts[-1]} % above" if words else f"{texts[-1]} %"])


OPERATIONS: dict[str, Operation] = {}


def operation(name: str, sentence: str, formula: Formula) -> Callable[[Compute], Operation]:
    """Declare an operation by decorating its Decimal function."""

    def declare(compute: Compute) -> Operation:
        if name in OPERATIONS:
            raise ValueError(f"operation {name} is declared twice")
        OPERATIONS[name] = Operation(name, sentence, compute, formula)
        return OPERATIONS[name]

    return declare


@operation("typed", "as typed", lambda refs, places: refs[0])
def TYPED_IN(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return values[0]


def _summed(refs: Sequence[str]) -> str:
    """Return a SUM over any number of cells (a function takes 255 arguments at most)."""
    if len(refs) <= 200:
        return f"SUM({','.join(refs)})"
    return f"SUM({','.join(_summed(refs[start : start + 200]) for start in range(0, len(refs), 200))})"


@operation("sum", "{sum}", lambda refs, places: _summed(refs))
def SUM(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return sum(values, Decimal(0))


@operation("difference", "{0} − {1}", lambda refs, places: f"{refs[0]}-{refs[1]}")
def DIFFERENCE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return values[0] - values[1]


@operation("product", "{product}", lambda refs, places: "*".join(refs))
def PRODUCT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return prod(values, start=Decimal(1))


@operation("quotient", "{0} ÷ {1}", lambda refs, places: f"{refs[0]}/{refs[1]}")
def QUOTIENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return values[0] / values[1]


@operation("larger", "the largest of {all}", lambda refs, places: f"MAX({','.join(refs)})")
def LARGER(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return max(values)


@operation("smaller", "the smallest of {all}", lambda refs, places: f"MIN({','.join(refs)})")
def SMALLER(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return min(values)


@operation("one minus", "1 − {0}", lambda refs, places: f"1-{refs[0]}")
def ONE_MINUS(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return 1 - values[0]


@operation("percent of", "{1} % of {0}", lambda refs, places: f"{refs[0]}*{refs[1]}/100")
def PERCENT_OF(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, percent."""
    return values[0] * values[1] / 100


@operation("plus percent", "{0} × (1 + {1} %)", lambda refs, places: f"{refs[0]}*(1+{refs[1]}/100)")
def PLUS_PERCENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, percent of either sign."""
    return values[0] * (1 + values[1] / 100)


@operation("less percent", "{0} × (1 − {1} %)", lambda refs, places: f"{refs[0]}*(1-{refs[1]}/100)")
def LESS_PERCENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, percent taken off it."""
    return values[0] * (1 - values[1] / 100)


@operation("without percent", "{0} ÷ (1 + {1} %)", lambda refs, places: f"{refs[0]}/(1+{refs[1]}/100)")
def WITHOUT_PERCENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount that contains a percent (a tax), the percent."""
    return values[0] / (1 + values[1] / 100)


@operation("percent above", "100 × ({0} ÷ {1} − 1)", lambda refs, places: f"100*({refs[0]}/{refs[1]}-1)")
def PERCENT_ABOVE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """By how many percent the first lies above the second (negative: below)."""
    return 100 * (values[0] / values[1] - 1)


@operation("percent below", "100 × (1 − {0} ÷ {1})", lambda refs, places: f"100*(1-{refs[0]}/{refs[1]})")
def PERCENT_BELOW(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """By how many percent the first lies below the second."""
    return 100 * (1 - values[0] / values[1])


@operation("percent share", "100 × {0} ÷ {1}", lambda refs, places: f"100*{refs[0]}/{refs[1]}")
def PERCENT_SHARE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return 100 * values[0] / values[1]


@operation("converted, multiplied", "{0} × rate {1}", lambda refs, places: f"{refs[0]}*{refs[1]}")
def CONVERTED_TIMES(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Foreign amount, rate in report currency per foreign unit."""
    return values[0] * values[1]


@operation("converted, divided", "{0} ÷ rate {1}", lambda refs, places: f"{refs[0]}/{refs[1]}")
def CONVERTED_OVER(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Foreign amount, rate in foreign units per report unit; the rate is never inverted first."""
    return values[0] / values[1]


def _tiers(values: Sequence[T]) -> list[tuple[T | None, T | None, T]]:
    """Return (lower end, upper end, rate) of tiers typed as upper1, rate1, upper2, rate2, ..., rate of the last."""
    uppers: list[T | None] = [*values[:-1:2], None]
    rates = [*values[1:-1:2], values[-1]]
    return list(zip([None, *uppers[:-1]], uppers, rates, strict=True))


def _in_tier(amount: Decimal, lower: Decimal | None, upper: Decimal | None) -> Decimal:
    part = (amount if upper is None else min(amount, upper)) - (lower or Decimal(0))
    return max(Decimal(0), part)


def _tier_formula(refs: Sequence[str], places: int | None) -> str:
    amount = refs[0]
    parts = []
    for lower, upper, rate in _tiers(refs[1:]):
        reach = amount if upper is None else f"MIN({amount},{upper})"
        product = f"MAX(0,{reach}-{lower or '0'})*{rate}/100"
        parts.append(product if places is None else f"ROUND(ROUND({product},8),{places})")
    return "+".join(parts)


@operation("tiered percent", "each tier's rate on its part of {0}, tier by tier: {tiers}", _tier_formula)
def TIERED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, upper1, rate1, upper2, rate2, ..., rate of the last tier; each tier's product is rounded, then added.

    An amount exactly on an upper end belongs wholly to that tier and those below. Rates are percents.
    """
    products = (_in_tier(values[0], lower, upper) * rate / 100 for lower, upper, rate in _tiers(values[1:]))
    return sum((p if places is None else round_half_away(p, places) for p in products), Decimal(0))


def _whole_formula(refs: Sequence[str], places: int | None) -> str:
    tiers = _tiers(refs[1:])
    rate = tiers[-1][2]
    for _, upper, tier_rate in reversed(tiers[:-1]):
        rate = f"IF({refs[0]}<={upper},{tier_rate},{rate})"
    return f"{refs[0]}*{rate}/100"


@operation(
    "percent of the tier reached", "the rate of the tier in which {0} lies, on all of it: {tiers}", _whole_formula
)
def TIER_REACHED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Arguments as TIERED; the one rate of the tier in which the amount lies is charged on the whole amount."""
    for _, upper, rate in _tiers(values[1:]):
        if upper is None or values[0] <= upper:
            return values[0] * rate / 100
    raise ValueError("the last tier has no end")


def _mean_formula(refs: Sequence[str], places: int | None) -> str:
    products = [f"{weight}*{value}" for weight, value in zip(refs[::2], refs[1::2], strict=True)]
    return f"{_summed(products)}/{_summed(refs[::2])}"


@operation("weighted mean", "({pairs}) ÷ the sum of the weights", _mean_formula)
def WEIGHTED_MEAN(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Weight1, value1, weight2, value2, ...; the sum of the weights is not zero."""
    weights, amounts = values[::2], values[1::2]
    return sum((w * x for w, x in zip(weights, amounts, strict=True)), Decimal(0)) / sum(weights, Decimal(0))


def _median_formula(refs: Sequence[str], places: int | None) -> str:
    total, running, amounts = refs[0], refs[1::2], ",".join(refs[2::2])
    below = "+".join(f"(ROUND(2*{one}-{total},8)<0)" for one in running)
    not_above = "+".join(f"(ROUND(2*{one}-{total},8)<=0)" for one in running)
    return f"(CHOOSE(1+{below},{amounts})+CHOOSE(1+{not_above},{amounts}))/2"


@operation(
    "weighted median",
    "the first of {values} at which the running weight ({running}) exceeds half of {0}; "
    "the mean of two where it is exactly half",
    _median_formula,
)
def WEIGHTED_MEDIAN(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Total weight, running weight1, value1, running weight2, value2, ...; values ascending, weights above zero.

    The median is the first value at which the running weight exceeds half the total; where it is exactly half at
    some line, the mean of that line's value and the next one's.
    """
    total, running, amounts = values[0], values[1::2], values[2::2]
    lower = next(x for s, x in zip(running, amounts, strict=True) if 2 * s >= total)
    upper = next(x for s, x in zip(running, amounts, strict=True) if 2 * s > total)
    return (lower + upper) / 2
