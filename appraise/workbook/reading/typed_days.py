"""Days typed as text: year-month-day, or day, month and year where only one reading is possible."""

import re
import unicodedata
from datetime import date
from functools import cache

_ISO = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})")
_FIGURES = re.compile(r"([0-9]{1,2})([./-]) ?([0-9]{1,2})\2 ?([0-9]{4})")
_DAY_NAME_YEAR = re.compile(r"([0-9]{1,2})(?:\.|st|nd|rd|th)? ([^\W\d]+)\.?,? ([0-9]{4})")
_NAME_DAY_YEAR = re.compile(r"([^\W\d]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})")


def day_readings(text: str, locale: str) -> tuple[date, ...]:
    """Return the days `text` can be: none, one, or two (03/04/2024 is 3 April or 4 March).

    Figures with full stops between them are day, month, year. Names of months are those of English and of `locale`.

    >>> day_readings("03/04/2024", "en_US")
    (datetime.date(2024, 3, 4), datetime.date(2024, 4, 3))
    """
    if found := _ISO.fullmatch(text):
        return _days((found[1], found[2], found[3]))
    if found := _FIGURES.fullmatch(text):
        first, sign, second, year = found.groups()
        if sign == ".":
            return _days((year, second, first))
        return _days((year, first, second), (year, second, first))
    if found := _DAY_NAME_YEAR.fullmatch(text):
        return _days((found[3], _month(found[2], locale), found[1]))
    if found := _NAME_DAY_YEAR.fullmatch(text):
        return _days((found[3], _month(found[1], locale), found[2]))
    return ()


def _days(*parts: tuple[str, str, str]) -> tuple[date, ...]:
    found = set()
    for year, month, day in parts:
        try:
            found.add(date(int(year), int(month), int(day)))
        except ValueError:
            continue
    return tuple(sorted(found))


def _month(name: str, locale: str) -> str:
    return _months(locale).get(_folded(name), "0")


@cache
def _months(locale: str) -> dict[str, str]:
    from babel.core import Locale, UnknownLocaleError

    names: dict[str, str] = {}
    for one in ("en", locale.replace("-", "_")):
        try:
            months = Locale.parse(one).months["format"]
        except (UnknownLocaleError, ValueError, TypeError):
            continue
        for width in ("wide", "abbreviated"):
            names.update({_folded(name): str(number) for number, name in months[width].items()})
    return names


def _folded(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name.casefold())
    return "".join(letter for letter in letters if letter.isalpha() and not unicodedata.combining(letter))
