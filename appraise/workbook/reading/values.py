"""From one cell to one value of the kind its column declares, or to the fault that stands in the way.

Never a wrong value: where a cell can be read in two ways the value is `UNREADABLE` and the fault names both.
"""

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from enum import StrEnum
from functools import cache
from typing import Any

from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, UNREADABLE, Missing
from appraise.records.declare import Column, ColumnKind
from appraise.workbook.cells import Cell, Kind
from appraise.workbook.number_formats import Shown
from appraise.workbook.reading.clean import clean, clean_word, has_control, has_turned
from appraise.workbook.reading.typed_days import day_readings
from appraise.workbook.reading.typed_numbers import NumberSigns, is_locale, readings, signs_of


@frozen
class Fault:
    """What is wrong with a cell: code, what was found, words for the sentence; `value` is what is read all the same."""

    code: str
    found: str
    details: tuple[tuple[str, str], ...] = ()
    value: Any = UNREADABLE


@frozen
class Typing:
    """How the workbook's texts are typed: the declared locale, or "en" where none is `declared`."""

    locale: str
    declared: bool

    @staticmethod
    def of(locale: str) -> "Typing":
        """Return the typing for a locale; unknown or blank gives one without number signs."""
        declared = bool(locale) and is_locale(locale)
        return Typing(locale if declared else "en", declared)

    @property
    def signs(self) -> NumberSigns | None:
        """The number signs of the locale, read when the first number typed as text asks; None: not declared."""
        return signs_of(self.locale) if self.declared else None


#: Returns the value, a `Missing`, or a `Fault`.
Convert = Callable[[Cell], Any]
_WORDS_FOR_MISSING = {"unknown": UNKNOWN, "not inspected": NOT_INSPECTED}
_YES = frozenset(("yes", "y", "true", "ja", "oui"))
_NO = frozenset(("no", "n", "false", "nein", "non"))
_MONTH = re.compile(r"([0-9]{4})[-/]([0-9]{1,2})")
#: Day numbers 1700 to 2100: a year typed into a date cell is taken for one of these.
_YEARS = range(1700, 2101)
_DAY_ZERO = date(1899, 12, 30)
_FIFTEEN_DIGITS = Decimal(10) ** 15
#: How many texts of a column are remembered with what they mean.
_REMEMBERED = 4096
#: Columns whose leading zeros matter.
_SERIALS = frozenset(("serial", "first", "last", "prefix", "suffix"))


def converter(column: Column, typing: Typing) -> Convert:
    """Return the function that reads the cells of one column."""
    return remembering(column, typing)[0]


def remembering(column: Column, typing: Typing) -> tuple[Convert, dict[object, Any]]:
    """Return the function that reads the cells of one column, and the texts and days it remembers, with what they mean.

    Most of them stand in a column many times: words of lists, ids, currencies. Who reads many cells looks there first.
    """
    reads = _READERS[column.kind](column, typing)
    known: dict[object, Any] = {}

    def convert(cell: Cell) -> Any:
        kind = cell.kind
        if kind is Kind.NUMBER:
            return reads(cell)
        if kind is Kind.TEXT or kind is Kind.DAY:
            value = known.get(cell.value)
            if value is None:
                value = read_text(cell) if kind is Kind.TEXT else reads(cell)
                if len(known) < _REMEMBERED:
                    known[cell.value] = value
            return value
        if kind is Kind.NOTHING:
            return Fault("CEL-01", f"={cell.formula}") if cell.formula else BLANK
        if kind is Kind.ERROR:
            return Fault("CEL-02", str(cell.value))
        return reads(cell)

    def read_text(cell: Cell) -> Any:
        raw: str = cell.value  # type: ignore[assignment]
        text = clean(raw)
        if not text:
            return BLANK
        if text == raw:
            return reads(cell)
        return _marked(raw, reads(cell._replace(value=text)))

    return convert, known


def _marked(raw: str, value: Any) -> Any:
    """Return `value` with a fault where cleaning took out something that should not have been there."""
    if isinstance(value, Fault):
        return value
    if has_turned(raw):
        return Fault("CEL-27", clean(raw), value=value)
    if has_control(raw):
        return Fault("CEL-26", clean(raw), value=value)
    return value


def _missing(text: str) -> Missing | None:
    return _WORDS_FOR_MISSING.get(text.casefold()) if len(text) <= 13 else None


def as_text(cell: Cell) -> str:
    """Return what a cell shows, plainly: numbers without exponent, days as year-month-day, yes or no in words."""
    value = cell.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{plain(value * 100)} %" if cell.shown is Shown.PERCENT else plain(value)
    return value.isoformat() if isinstance(value, date) else str(value or "")


def plain(number: Decimal) -> str:
    """Return a decimal without exponent and without zeros at the end."""
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _bare_year(day: date) -> int | None:
    number = (day - _DAY_ZERO).days
    return number if number in _YEARS else None


def _day_in_text(cell: Cell) -> Fault:
    day: date = cell.value  # type: ignore[assignment]
    year = _bare_year(day)
    if year is not None:
        return Fault("CEL-11", day.isoformat(), (("year", str(year)),))
    return Fault("CEL-13", day.isoformat())


def _text(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        if cell.kind is Kind.TEXT:
            return _missing(cell.value) or cell.value  # type: ignore[arg-type]
        text = as_text(cell)
        return Fault("CEL-31", text, value=text) if cell.kind is Kind.DAY else text

    return read


def _file(column: Column, typing: Typing) -> Convert:
    return lambda cell: as_text(cell).replace("\\", "/")


def _verbatim(column: Column, typing: Typing) -> Convert:
    code = "CEL-14" if column.key in _SERIALS else "CEL-15"

    def read(cell: Cell) -> Any:
        if cell.kind is Kind.TEXT:
            return _missing(cell.value) or cell.value  # type: ignore[arg-type]
        if cell.kind is Kind.DAY:
            return _day_in_text(cell)
        text = as_text(cell)
        if isinstance(cell.value, Decimal) and (cell.shown is not Shown.PLAIN or abs(cell.value) >= _FIFTEEN_DIGITS):
            return Fault("CEL-32", text)
        return Fault(code, text, value=text)

    return read


def _wording(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        if cell.kind is Kind.TEXT:
            return _missing(cell.value) or cell.value  # type: ignore[arg-type]
        if cell.kind is Kind.DAY:
            return _day_in_text(cell)
        value = cell.value
        if isinstance(value, Decimal) and cell.shown is Shown.PLAIN and value == int(value) and int(value) in _YEARS:
            return str(int(value))
        return Fault("CEL-16", as_text(cell))

    return read


def _identity(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        if cell.kind is Kind.DAY:
            return _day_in_text(cell)
        text = clean_word(as_text(cell))
        return Fault("CEL-34", text) if ";" in text else text

    return read


def _choice(column: Column, typing: Typing) -> Convert:
    if column.choices is None:
        raise TypeError(f"column {column.key} declares no choices")
    members: dict[str, StrEnum] = {_folded(str(member)): member for member in column.choices}
    words: dict[str, StrEnum] = {str(member): member for member in column.choices}

    def read(cell: Cell) -> Any:
        text = as_text(cell)
        exact = words.get(text)
        if exact is not None:
            return exact
        text = clean_word(text)
        found = members.get(_folded(text)) or _missing(text)
        if found is not None:
            return found
        near = get_close_matches(_folded(text), members, 3, 0.5)
        return Fault("CEL-17", text, (("nearest", _quoted([str(members[one]) for one in near] or list(words))),))

    return read


def _folded(text: str) -> str:
    return text.casefold().replace("-", " ").replace("_", " ").replace("\u2019", "'")


def _quoted(words: list[str]) -> str:
    return ", ".join(f"'{word}'" for word in words)


def _yes_no(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        if isinstance(cell.value, bool):
            return cell.value
        text = clean_word(as_text(cell))
        if text.casefold() in _YES:
            return True
        if text.casefold() in _NO:
            return False
        missing = _missing(text)
        return Fault("CEL-18", text) if missing is None else missing

    return read


def _number(column: Column, typing: Typing) -> Convert:
    percent = column.kind is ColumnKind.PERCENT
    whole = column.kind is ColumnKind.WHOLE

    def read(cell: Cell) -> Any:
        value = cell.value
        if type(value) is Decimal:
            if cell.shown is not Shown.PLAIN:
                if cell.shown is Shown.TIME:
                    return Fault("CEL-06", plain(value))
                if cell.shown is Shown.PERCENT:
                    return value * 100 if percent else Fault("CEL-05", f"{plain(value * 100)} %")
            if percent and value and -1 < value < 1:
                return Fault("CEL-08", plain(value), (("percent", plain(value * 100)),), value)
            return checked(value)
        if cell.kind is Kind.DAY:
            return Fault("CEL-06", as_text(cell))
        if cell.kind is Kind.YES_NO:
            return Fault("CEL-03", as_text(cell), (("expected", _expected(typing)),))
        return typed(value)  # type: ignore[arg-type]

    def typed(text: str) -> Any:
        missing = _missing(text)
        if missing is not None:
            return missing
        if text.endswith("%"):
            if not percent:
                return Fault("CEL-05", text)
            text = text[:-1].rstrip()
        number = number_typed(text, typing)
        return number if isinstance(number, Fault) else checked(number)

    def checked(value: Decimal) -> Any:
        if value.adjusted() >= 15 and value:
            return Fault("CEL-32", plain(value))
        if whole and value != int(value):
            return Fault("CEL-07", plain(value))
        if value < 0 and not column.signed:
            return Fault("CEL-39", plain(value))
        return value

    return read


def number_typed(text: str, typing: Typing) -> Decimal | Fault:
    """Return the number a text stands for, or why it cannot be said."""
    found = readings(text, typing.signs)
    if len(found) == 1:
        return found[0]
    if found:
        return Fault("CEL-04", text, (("readings", " or ".join(plain(one) for one in found)),))
    return Fault("CEL-03", text, (("expected", _expected(typing)),))


def _expected(typing: Typing) -> str:
    return typing.signs.example() if typing.signs else "1234.56"


def _percents(column: Column, typing: Typing) -> Convert:
    one_number = _number(column, typing)

    def read(cell: Cell) -> Any:
        if cell.kind is not Kind.TEXT:
            value = cell.value
            if isinstance(value, Decimal) and cell.shown in (Shown.PLAIN, Shown.PERCENT):
                return plain(value * 100 if cell.shown is Shown.PERCENT else value)
            return one_number(cell)
        text = str(cell.value)
        missing = _missing(text)
        if missing is not None:
            return missing
        numbers = [number_typed(piece.strip().removesuffix("%").rstrip(), typing) for piece in text.split(";")]
        if any(isinstance(one, Fault) for one in numbers):
            return Fault("CEL-33", text)
        return "; ".join(plain(one) for one in numbers if isinstance(one, Decimal))

    return read


def _day(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        value = cell.value
        if cell.kind is Kind.DAY:
            year = _bare_year(value)  # type: ignore[arg-type]
            return value if year is None else Fault("CEL-11", as_text(cell), (("year", str(year)),))
        if isinstance(value, Decimal):
            return Fault("CEL-12", plain(value))
        text = as_text(cell)
        found = day_readings(text, typing.locale)
        if len(found) == 1:
            return found[0]
        if found:
            return Fault("CEL-10", text, (("readings", " or ".join(day.isoformat() for day in found)),))
        missing = _missing(text)
        return Fault("CEL-09", text) if missing is None else missing

    return read


def _month(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        value = cell.value
        if isinstance(value, date):
            year = _bare_year(value)
            if year is not None:
                return Fault("CEL-11", value.isoformat(), (("year", str(year)),))
            return f"{value.year:04d}-{value.month:02d}"
        text = as_text(cell)
        found = _MONTH.fullmatch(text)
        if found and 1 <= int(found[2]) <= 12:
            return f"{found[1]}-{int(found[2]):02d}"
        missing = _missing(text)
        return Fault("CEL-20", text) if missing is None else missing

    return read


def _currency(column: Column, typing: Typing) -> Convert:
    def read(cell: Cell) -> Any:
        text = clean_word(as_text(cell))
        code = text.upper()
        if code in _currencies():
            return code
        missing = _missing(text)
        return Fault("CEL-19", text) if missing is None else missing

    return read


@cache
def _currencies() -> frozenset[str]:
    from babel.core import get_global

    return frozenset(get_global("all_currencies"))


_READERS: dict[ColumnKind, Callable[[Column, Typing], Convert]] = {
    ColumnKind.TEXT: _text,
    ColumnKind.LONG_TEXT: _text,
    ColumnKind.VERBATIM: _verbatim,
    ColumnKind.FACT: _verbatim,
    ColumnKind.WORDING: _wording,
    ColumnKind.IDENTITY: _identity,
    ColumnKind.REFERENCE: _identity,
    ColumnKind.CHOICE: _choice,
    ColumnKind.AMOUNT: _number,
    ColumnKind.NUMBER: _number,
    ColumnKind.WHOLE: _number,
    ColumnKind.PERCENT: _number,
    ColumnKind.PERCENTS: _percents,
    ColumnKind.DAY: _day,
    ColumnKind.MONTH: _month,
    ColumnKind.YES_NO: _yes_no,
    ColumnKind.CURRENCY: _currency,
    ColumnKind.FILE: _file,
}
