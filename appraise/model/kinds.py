"""The kinds of figure and the decimals each is rounded to when it is born (method rule R1)."""

from functools import cache

from appraise.model.frozen import frozen


@frozen
class Kind:
    """Kind of a figure: its name, its decimals (None = as typed) and its currency (only money has one)."""

    name: str
    places: int | None
    currency: str = ""


#: As typed: nothing is rounded.
TYPED = Kind("typed", None)
FACTOR = Kind("factor", 6)
INDEX = Kind("index", 4)
#: Percents that are used again: condition, originality, paired sale, net, gross.
PERCENT = Kind("percent", 2)
#: Percents that are only shown: spread, depreciation, change, adequacy.
SHOWN_PERCENT = Kind("shown percent", 1)
#: Whole numbers: months, units, weights counted.
COUNT = Kind("count", 0)
#: Sums of typed weights: exact.
WEIGHT = Kind("weight", None)
TEXT = Kind("text", None)
DAY = Kind("day", None)


@cache
def minor_unit(currency: str) -> int:
    """Return the decimals of a currency by CLDR (ISO 4217 minor units): 2 for USD, 0 for JPY, 3 for KWD."""
    from babel.numbers import get_currency_precision

    return get_currency_precision(currency)


@cache
def money(currency: str) -> Kind:
    """Return the kind of an amount of money in `currency` (three-letter code), rounded to its minor unit."""
    return Kind("money", minor_unit(currency), currency)


@cache
def typed_money(currency: str) -> Kind:
    """Return the kind of a typed amount in `currency`: kept as typed, never rounded."""
    return Kind("money", None, currency)
