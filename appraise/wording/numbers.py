"""Numbers, money, percents, days, months and lists as a language writes them (CLDR, through Babel).

Everything printed passes through here. A value is quantised by the method's own rule before it arrives or by
`places`; Babel never rounds. Nothing depends on the machine's locale: each function takes a `Language`.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from functools import cache, lru_cache

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import format_decimal

from appraise.model.frozen import frozen
from appraise.model.kinds import minor_unit
from appraise.model.months import Month
from appraise.model.rounding import round_half_away

#: Formatting is repeated often (weights, factors of 1, the same prices in two grids): 15-27 us a call without it.
_KEPT = 50_000

#: The typographic minus; a hyphen in front of an amount is easily lost in print.
MINUS = "−"


@frozen
class Language:
    """The language of a report: the code of its texts (`en`) and the locale of its numbers and dates (`en_GB`)."""

    code: str
    locale: Locale

    @property
    def tag(self) -> str:
        """The BCP 47 tag, for example `en-US`, as a document states its language."""
        return str(self.locale).replace("_", "-")


@cache
def language(code: str, locale: str = "") -> Language:
    """Return the language of the texts `code`, with numbers and dates as in `locale` if that is the same language.

    A locale of another language is ignored: report language and workbook language are two things. An unknown
    code gives English.

    >>> language("en", "en_GB").tag, language("de", "en_US").tag, language("en").tag
    ('en-GB', 'de-DE', 'en-US')
    """
    spoken = _locale(code) or Locale.parse("en")
    regional = _locale(locale)
    if regional is None or regional.language != spoken.language:
        regional = spoken
    if regional.territory is None:
        regional = _locale(f"{spoken.language}_{_HOME.get(spoken.language, '')}") or regional
    return Language(spoken.language, regional)


#: Territory taken where a bare language code says none.
_HOME = {"en": "US", "de": "DE", "fr": "FR"}


def _locale(code: str) -> Locale | None:
    try:
        return Locale.parse(code.replace("-", "_"))
    except (ValueError, UnknownLocaleError):
        return None


@lru_cache(_KEPT)
def decimal_text(value: Decimal, lang: Language, places: int | None = None, signed: bool = False) -> str:
    """Return a number with exactly `places` decimals (None: those it has, without trailing zeros).

    >>> decimal_text(Decimal("-1234.5"), language("en"), 2)
    '−1,234.50'
    """
    if places is None:
        places = max(0, -int(value.normalize().as_tuple().exponent))
    quantised = round_half_away(value, places)
    pattern = _whole_pattern(lang) + ("." + "0" * places if places else "")
    text = format_decimal(abs(quantised), format=pattern, locale=lang.locale)
    sign = MINUS if quantised < 0 else "+" if signed and quantised > 0 else ""
    return sign + text


@cache
def _whole_pattern(lang: Language) -> str:
    """Return the pattern of whole numbers: how the language groups digits (`#,##0`, in India `#,##,##0`)."""
    return str(lang.locale.decimal_formats[None].pattern).partition(".")[0]


def group_mark(lang: Language) -> str:
    """Return what stands between groups of digits: `1,000`, `1.000`.

    >>> group_mark(language("en")), group_mark(language("de"))
    (',', '.')
    """
    return decimal_text(Decimal(1_000_000), lang, 0)[1:2].strip("0")


def amount_text(amount: Decimal, currency: str, lang: Language, *, signed: bool = False) -> str:
    """Return an amount in the minor unit of its currency, without the currency (for columns headed by it).

    More decimals than the minor unit has are kept if someone typed them.
    """
    places = max(minor_unit(currency), -int(amount.normalize().as_tuple().exponent))
    return decimal_text(amount, lang, places, signed)


def money_text(amount: Decimal, currency: str, lang: Language, *, whole: bool = False, signed: bool = False) -> str:
    """Return an amount with its currency code on the side where the language writes it.

    whole  leave the decimals out if they are all zero (rounded opinions)

    >>> money_text(Decimal("22100.00"), "USD", language("en"), whole=True)
    'USD\\xa022,100'
    """
    is_whole = whole and amount == amount.to_integral_value()
    text = decimal_text(amount, lang, 0, signed) if is_whole else amount_text(amount, currency, lang, signed=signed)
    return f"{currency}\N{NO-BREAK SPACE}{text}" if _code_first(lang) else f"{text}\N{NO-BREAK SPACE}{currency}"


@cache
def _code_first(lang: Language) -> bool:
    return str(lang.locale.currency_formats["standard"].pattern).lstrip("\u200e\u200f").startswith("¤")


def percent_text(percents: Decimal, lang: Language, places: int | None = None, *, signed: bool = False) -> str:
    """Return a number of percents with the percent sign as the language sets it.

    >>> percent_text(Decimal("-8.86"), language("en"), 2), percent_text(Decimal("7.25"), language("de"))
    ('−8.86%', '7,25\\xa0%')
    """
    before, after = _percent_marks(lang)
    return before + decimal_text(percents, lang, places, signed) + after


@cache
def _percent_marks(lang: Language) -> tuple[str, str]:
    pattern = str(lang.locale.percent_formats[None].pattern)
    before, _, rest = pattern.partition("#")
    return before, rest.rpartition("0")[2]


@lru_cache(_KEPT)
def day_text(day: date, lang: Language) -> str:
    """Return a day in full: `January 20, 2025`, `20 January 2025`, `20. Januar 2025`."""
    return format_date(day, "long", locale=lang.locale)


@lru_cache(_KEPT)
def short_day_text(day: date, lang: Language) -> str:
    """Return a day for narrow columns: `Jan 20, 2025`, `20.01.2025`."""
    return format_date(day, "medium", locale=lang.locale)


@lru_cache(_KEPT)
def month_text(month: Month, lang: Language) -> str:
    """Return a month: `April 1959`, `avril 1959`."""
    return format_date(date(month // 12, month % 12 + 1, 1), _pattern("yMMMM", lang), locale=lang.locale)


def territory_text(code: str, lang: Language) -> str:
    """Return the name of a country by its code, with the code of a part of it; a code nobody knows as it is.

    >>> territory_text("US", language("en")), territory_text("US-NY", language("fr"))
    ('United States', 'États-Unis (US-NY)')
    """
    country, _, part = code.strip().upper().partition("-")
    name = lang.locale.territories.get(country)
    if name is None:
        return code
    return f"{name} ({country}-{part})" if part else str(name)


@cache
def month_name(month: int, lang: Language) -> str:
    """Return the name of a month, 1 to 12, standing alone: `April`, `avril`."""
    return str(lang.locale.months["stand-alone"]["wide"][month])


@cache
def _pattern(skeleton: str, lang: Language) -> str:
    return str(lang.locale.datetime_skeletons[skeleton].pattern)


def list_text(words: Sequence[str], lang: Language, *, either: bool = False) -> str:
    """Return words as a list of the language: `a, b, and c`; `either`: `a, b, or c`. No words: the empty text."""
    return format_list(list(words), style="or" if either else "standard", locale=lang.locale) if words else ""
