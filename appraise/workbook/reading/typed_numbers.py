"""Numbers typed as text, read by the signs of one language and country, strictly."""

import re
from decimal import Decimal
from functools import cache
from typing import Any

from appraise.model.frozen import frozen


@frozen
class NumberSigns:
    """How a country writes numbers: sign between groups, decimal sign, whether groups above the first are of two."""

    group: str
    decimal: str
    pairs: bool = False

    def example(self) -> str:
        """Return a number written this way."""
        return f"1{self.group}234{self.decimal}56"


#: What is tried where the workbook does not say how numbers are typed.
_ANY = (NumberSigns(",", "."), NumberSigns(".", ","), NumberSigns(" ", ","), NumberSigns("'", "."))


@cache
def is_locale(locale: str) -> bool:
    """Return whether a locale such as `en_US` or `de-CH` is known (CLDR); its data stay unread."""
    return _found(locale) is not None


@cache
def signs_of(locale: str) -> NumberSigns | None:
    """Return how numbers are written in a locale such as `en_US` or `de-CH` (CLDR); None for an unknown locale."""
    found = _found(locale)
    if found is None:
        return None
    symbols = found.number_symbols["latn"]
    grouping = found.decimal_formats[None].grouping
    return NumberSigns(_plain(symbols["group"]), _plain(symbols["decimal"]), grouping == (3, 2))


def _found(locale: str) -> Any:
    from babel.core import Locale, UnknownLocaleError

    try:
        return Locale.parse(locale.strip().replace("-", "_"))
    except (UnknownLocaleError, ValueError, TypeError):
        return None


def readings(text: str, signs: NumberSigns | None) -> tuple[Decimal, ...]:
    """Return the numbers `text` can be: none, one, or several where `signs` is unknown.

    >>> readings("1.234,56", NumberSigns(".", ","))
    (Decimal('1234.56'),)
    >>> readings("1.234", None)
    (Decimal('1.234'), Decimal('1234'))
    """
    plain = _plain(text)
    tried = _ANY if signs is None else (signs,)
    found = {number for one in tried if (number := _strictly(plain, one)) is not None}
    return tuple(sorted(found))


def _plain(text: str) -> str:
    text = re.sub("[\u00a0\u202f\u2009]", " ", text).replace("\u2019", "'").replace("\u2212", "-")
    return text if text == " " else text.strip()


def _strictly(text: str, signs: NumberSigns) -> Decimal | None:
    found = _pattern(signs).fullmatch(text)
    if found is None:
        return None
    sign, whole, part = found["sign"], found["whole"].replace(signs.group, ""), found["part"]
    return Decimal(f"{sign}{whole}.{part}" if part else sign + whole)


@cache
def _pattern(signs: NumberSigns) -> re.Pattern[str]:
    group, decimal = re.escape(signs.group), re.escape(signs.decimal)
    grouped = rf"[0-9]{{1,2}}(?:{group}[0-9]{{2}})*{group}[0-9]{{3}}" if signs.pairs else ""
    threes = rf"[0-9]{{1,3}}(?:{group}[0-9]{{3}})+"
    wholes = "|".join(one for one in (grouped, threes, "[0-9]+") if one)
    return re.compile(rf"(?P<sign>[+-]?)(?P<whole>{wholes})(?:{decimal}(?P<part>[0-9]+))?")
