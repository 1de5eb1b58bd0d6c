"""One stretch of time in words - a year, a month, `mid 1959`, `1950s`, `winter 1959`, `week 12 of 1962` - as months.

The list is closed. `read_period` gives None for anything else; `wordings` turns that into a refusal.
"""

import re
from calendar import isleap, monthrange
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from appraise.dating.settings import Settings, Width
from appraise.model.frozen import frozen
from appraise.model.months import NO_MONTHS, Month, Months, month_number


@frozen
class Period:
    """A stretch of time that may be vaguely named.

    outer       months it may mean at its widest; `core` at its narrowest (empty: none for certain)
    start, end  first and last month in which it may begin, and in which it may end
    question    what must be asked, "" if nothing; `options` the wordings that answer it
    uses        keys of the conventions it rests on
    """

    outer: Months
    core: Months
    start: tuple[Month, Month]
    end: tuple[Month, Month]
    question: str = ""
    options: tuple[str, ...] = ()
    uses: frozenset[str] = frozenset()


Handler = Callable[[re.Match[str], Settings], Period | None]

#: English names, for the wordings we propose (`calendar.month_name` depends on the machine's language).
MONTH_NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_YEAR = r"(?P<year>[12]\d{3})"
_OF = r"(?:of )?(?:the )?"
_DECADE = r"(?P<decade>[12]\d{2})0'?s"


def read_period(text: str, settings: Settings) -> Period | None:
    """Return the months a wording names, None if it is not on the list. `text` is normalised, in lower case."""
    for pattern, handler in _FORMS:
        match = pattern.fullmatch(text)
        if match:
            return handler(match, settings)
    return _named_month(text, settings)


def exact(first: Month, last: Month, *uses: str) -> Period:
    """Return a period whose ends are known."""
    months = Months.between(first, last)
    return Period(months, months, (first, first), (last, last), uses=frozenset(uses))


def vague(outer: tuple[Month, Month], core: tuple[Month, Month], *uses: str) -> Period:
    """Return a period that reaches from anywhere before its core to anywhere behind it."""
    return Period(
        Months.between(*outer),
        Months.between(*core),
        (outer[0], core[0]),
        (core[1], outer[1]),
        uses=frozenset(uses),
    )


def one_of(periods: list[Period], question: str, options: tuple[str, ...], *uses: str) -> Period:
    """Return several runs of which only one is meant: no hull, and no core."""
    outer = Months.of(run for one in periods for run in one.outer.runs)
    starts = [month for one in periods for month in one.start]
    ends = [month for one in periods for month in one.end]
    span = (min(starts), max(starts)), (min(ends), max(ends))
    return Period(outer, NO_MONTHS, *span, question, options, frozenset(uses))


def years(first: int, last: int) -> Period:
    """Return the years `first` to `last`, both whole."""
    return exact(month_number(first, 1), month_number(last, 12))


def _year(match: re.Match[str], settings: Settings) -> Period:
    return years(int(match["year"]), int(match["year"]))


def _year_and_two(match: re.Match[str], settings: Settings) -> Period | None:
    """Read `1954-56` as years, `1959-06` as a month, and ask where both are possible (`1905-06`)."""
    year, two = int(match["year"]), int(match["two"])
    last = year - year % 100 + two
    if 1 <= two <= 12:
        month = exact(month_number(year, two), month_number(year, two))
        if last <= year:
            return month
        both = vague((month_number(year, 1), month_number(last, 12)), (month.start[0], month.end[0]))
        return replace(both, question="DAT-02", options=(f"{year}-{last}", f"{MONTH_NAMES[two - 1]} {year}"))
    # In the years 00 to 12 of a century a 13 may as well be a month mistyped.
    if last <= year or (two == 13 and year % 100 <= 12):
        return None
    return years(year, last)


def _year_slash_two(match: re.Match[str], settings: Settings) -> Period | None:
    year, two = int(match["year"]), int(match["two"])
    last = year - year % 100 + two
    return years(year, last) if last > year else None


def _day(match: re.Match[str], settings: Settings) -> Period | None:
    year, month, day = int(match["year"]), int(match["month"]), int(match["day"])
    if not 1 <= month <= 12 or not 1 <= day <= monthrange(year, month)[1]:
        return None
    return exact(month_number(year, month), month_number(year, month))


def _part_of_year(year: int, width: Width, *uses: str) -> Period:
    def months(steps: tuple[int, int]) -> tuple[Month, Month]:
        return month_number(year, steps[0]), month_number(year, steps[1])

    return vague(months(width.outer), months(width.core), *uses)


def _part_of_decade(decade: int, width: Width, *uses: str) -> Period:
    def months(steps: tuple[int, int]) -> tuple[Month, Month]:
        return month_number(decade + steps[0], 1), month_number(decade + steps[1], 12)

    return vague(months(width.outer), months(width.core), *uses)


def _vague_year(match: re.Match[str], settings: Settings) -> Period:
    word = match["word"]
    return _part_of_year(int(match["year"]), settings.width(word, "year"), f"{word} year")


def _half_year(match: re.Match[str], settings: Settings) -> Period:
    year, half = int(match["year"]), _ORDINALS[match["half"]]
    return exact(month_number(year, 6 * half - 5), month_number(year, 6 * half), "half year")


def _quarter(match: re.Match[str], settings: Settings) -> Period:
    year, quarter = int(match["year"]), _ORDINALS.get(match["quarter"]) or int(match["quarter"])
    return exact(month_number(year, 3 * quarter - 2), month_number(year, 3 * quarter), "quarter")


def _decade(match: re.Match[str], settings: Settings) -> Period:
    first = int(match["decade"]) * 10
    if first % 100:
        return years(first, first + 9)
    wide = vague(
        (month_number(first, 1), month_number(first + 99, 12)), (month_number(first, 1), month_number(first + 9, 12))
    )
    return replace(wide, question="DAT-05", options=(f"{first}-{first + 9}", f"{first}-{first + 99}"))


def _vague_decade(match: re.Match[str], settings: Settings) -> Period | None:
    first, word = int(match["decade"]) * 10, match["word"]
    if not first % 100:
        return None  # "early 1900s": of the decade or of the century
    return _part_of_decade(first, settings.width(word, "decade"), f"{word} decade")


def _half_decade(match: re.Match[str], settings: Settings) -> Period | None:
    first, half = int(match["decade"]) * 10, _ORDINALS[match["half"]]
    if not first % 100:
        return None
    return years(first + 5 * half - 5, first + 5 * half - 1)


def _century(match: re.Match[str], settings: Settings) -> Period:
    """Read `19th century` as 1801 to 1900 strictly and, at its widest, with the year 1800 that many count to it."""
    last = int(match["century"]) * 100
    months = (month_number(last - 99, 1), month_number(last - 1, 12))
    return vague((month_number(last - 100, 1), month_number(last, 12)), months, "century")


def _half_century(match: re.Match[str], settings: Settings) -> Period:
    start = int(match["century"]) * 100 - 100 + (50 if _ORDINALS[match["half"]] == 2 else 0)
    core = (month_number(start + 1, 1), month_number(start + 49, 12))
    return vague((month_number(start, 1), month_number(start + 50, 12)), core, "century")


def _circa(match: re.Match[str], settings: Settings) -> Period:
    year, around = int(match["year"]), settings.circa_years
    low, high = year - around, year + around
    return Period(
        Months.between(month_number(low, 1), month_number(high, 12)),
        Months.between(month_number(year, 1), month_number(year, 12)),
        (month_number(low, 1), month_number(high, 1)),
        (month_number(low, 12), month_number(high, 12)),
        uses=frozenset({"circa"}),
    )


def _season(match: re.Match[str], settings: Settings) -> Period:
    year, season = int(match["year"]), match["season"].replace("fall", "autumn")
    if season != "winter":
        return _part_of_year(year, settings.season(season), season)
    options = (f"winter {year - 1}-{year % 100:02d}", f"winter {year}-{(year + 1) % 100:02d}")
    return one_of([_winter_of(year - 1), _winter_of(year)], "DAT-03", options, "winter")


def _winter(match: re.Match[str], settings: Settings) -> Period | None:
    year, second = int(match["year"]), int(match["second"])
    follows = second == year + 1 if second > 99 else second == (year + 1) % 100
    return _winter_of(year) if follows else None


def _winter_of(year: int) -> Period:
    """Return the winter that begins in `year`: December to March, for certain January and February."""
    return vague(
        (month_number(year, 12), month_number(year + 1, 3)),
        (month_number(year + 1, 1), month_number(year + 1, 2)),
        "winter",
    )


def _week(match: re.Match[str], settings: Settings) -> Period | None:
    return week_of(int(match["year"]), int(match["week"]))


@lru_cache(maxsize=4096)
def week_of(year: int, week: int) -> Period | None:
    """Return the months week `week` of `year` may touch however weeks are counted; None unless 1 to 53.

    Any sane counting puts week w between day 7w - 12 and day 7w + 6 of the year; its core is the month of day
    7w - 3. Days outside the year are left out. Arithmetic, no source.
    """
    if not 1 <= week <= 53:
        return None
    outer = (_month_of_day(year, 7 * week - 12), _month_of_day(year, 7 * week + 6))
    core = _month_of_day(year, 7 * week - 3)
    return vague(outer, (core, core), "week")


def _month_of_day(year: int, day: int) -> Month:
    day = min(max(day, 1), 366 if isleap(year) else 365)
    month = 1
    while day > monthrange(year, month)[1]:
        day -= monthrange(year, month)[1]
        month += 1
    return month_number(year, month)


def _two_figures(match: re.Match[str], settings: Settings) -> Period | None:
    """Read `'57`, `mid-57`, `'50s`, `mid-'50s`: in the one century that fits, else ask."""
    word, two = match["word"], int(match["two"])
    decade = bool(match["s"])
    if decade and two % 10:
        return None
    examined = settings.examined // 12
    reach = 9 if decade else 0
    fits = [
        year for year in range(1000 + two, examined + 1, 100) if year + reach >= settings.first_year and year >= 1000
    ]
    unit = "decade" if decade else "year"
    read = [_two_figure(year, word, unit, settings) for year in fits]
    if not read:
        return None
    if len(read) == 1:
        return replace(read[0], uses=read[0].uses | {"two-figure year"})
    options = tuple(" ".join(filter(None, (word, f"{year}s" if decade else str(year)))) for year in fits)
    return one_of(read, "DAT-04", options, "two-figure year")


def _two_figure(year: int, word: str | None, unit: str, settings: Settings) -> Period:
    if word:
        part = _part_of_decade if unit == "decade" else _part_of_year
        return part(year, settings.width(word, unit), f"{word} {unit}")
    return years(year, year + (9 if unit == "decade" else 0))


def _named_month(text: str, settings: Settings) -> Period | None:
    """Read `November 1959`, `1959 November`, `3 November 1959`, `November 3, 1959`, in English or the locale."""
    found = _NAMED.fullmatch(text)
    if not found:
        return None
    name = found["a"] or found["b"] or found["c"]
    month = month_names(settings.locale).get(name.rstrip("."))
    if month is None:
        return None
    year = int(found["ya"] or found["yb"] or found["yc"])
    day = found["da"] or found["dc"]
    if day and not 1 <= int(day) <= monthrange(year, month)[1]:
        return None
    return exact(month_number(year, month), month_number(year, month))


_NAMED = re.compile(
    r"(?:(?P<da>\d{1,2})(?:\.|st|nd|rd|th|er)? (?:of )?(?:de )?)?(?P<a>[^\W\d]+\.?),? (?:of )?(?:de )?(?P<ya>[12]\d{3})"
    r"|(?P<yb>[12]\d{3}),? (?P<b>[^\W\d]+\.?)"
    r"|(?P<c>[^\W\d]+\.?) (?P<dc>\d{1,2})(?:st|nd|rd|th)?,? (?P<yc>[12]\d{3})"
)


@lru_cache(maxsize=64)
def month_names(locale: str) -> dict[str, int]:
    """Return month numbers by name and abbreviation, in lower case without final point: English and the locale's.

    An unknown locale gives the English names alone; that the locale is unknown is found elsewhere.
    """
    from babel import Locale, UnknownLocaleError

    names: dict[str, int] = {}
    for one in ("en", locale):
        try:
            months = Locale.parse(one.replace("-", "_")).months
        except (UnknownLocaleError, ValueError):
            continue
        for context in ("format", "stand-alone"):
            for width in ("wide", "abbreviated"):
                for number, name in months[context][width].items():
                    if not name.rstrip(".").isdigit():
                        names[name.casefold().rstrip(".")] = number
    return names


def _form(pattern: str, handler: Handler) -> tuple[re.Pattern[str], Handler]:
    return re.compile(pattern), handler


_WORD = r"(?P<word>early|mid|late)"
_HALF = r"(?P<half>first|second|1st|2nd) half "
_CENTURY = r"(?P<century>\d{1,2})(?:st|nd|rd|th) century"
_FORMS: tuple[tuple[re.Pattern[str], Handler], ...] = (
    _form(_YEAR, _year),
    _form(rf"{_YEAR} ?- ?(?P<two>\d\d)", _year_and_two),
    _form(rf"{_YEAR} ?/ ?(?P<two>\d\d)", _year_slash_two),
    _form(rf"{_YEAR}-(?P<month>\d\d)-(?P<day>\d\d)", _day),
    _form(rf"{_WORD}[ -]{_YEAR}", _vague_year),
    _form(rf"{_HALF}{_OF}{_YEAR}", _half_year),
    _form(rf"(?P<quarter>first|second|third|fourth|1st|2nd|3rd|4th) quarter {_OF}{_YEAR}", _quarter),
    _form(rf"q(?P<quarter>[1-4]) {_OF}{_YEAR}", _quarter),
    _form(rf"{_YEAR}[ -]q(?P<quarter>[1-4])", _quarter),
    _form(_DECADE, _decade),
    _form(rf"{_WORD}[ -](?:the )?{_DECADE}", _vague_decade),
    _form(rf"{_HALF}{_OF}{_DECADE}", _half_decade),
    _form(_CENTURY, _century),
    _form(rf"{_HALF}{_OF}{_CENTURY}", _half_century),
    _form(rf"(?:c\.?|ca\.?|circa|about) ?{_YEAR}", _circa),
    _form(rf"(?P<season>spring|summer|autumn|fall|winter) {_OF}{_YEAR}", _season),
    _form(rf"winter {_OF}{_YEAR} ?[-/] ?(?P<second>\d{{4}}|\d\d)", _winter),
    _form(rf"week (?P<week>\d{{1,2}}),? {_OF}{_YEAR}", _week),
    _form(rf"{_YEAR}(?:,? week |-w)(?P<week>\d{{1,2}})", _week),
    _form(r"(?:(?P<word>early|mid|late)[ -])?(?:the )?'(?P<two>\d\d)'?(?P<s>s)?", _two_figures),
    _form(r"(?P<word>early|mid|late)[ -](?:the )?(?P<two>\d\d)'?(?P<s>s)?", _two_figures),
)
