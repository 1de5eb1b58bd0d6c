"""How a figure or a typed value becomes a text, and which figures were printed.

Every computed figure that stands in the report passes through `Printer.printed`, which notes its id; so it can be
checked afterwards that each printed figure is one of the proof's, with the same value.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import Enum, StrEnum

from appraise.findings.entries import message
from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding
from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, Missing, given
from appraise.model.months import Months
from appraise.wording.numbers import (
    Language,
    amount_text,
    day_text,
    decimal_text,
    group_mark,
    list_text,
    money_text,
    percent_text,
    short_day_text,
    territory_text,
)
from appraise.wording.texts import Texts
from appraise.wording.windows import window_text as _window_text


class Form(Enum):
    """How much is printed around a figure."""

    #: As a column shows it: no currency, every decimal.
    PLAIN = "plain"
    #: With its currency.
    MONEY = "money"
    #: With its currency, whole if it is whole: opinions after rounding.
    WHOLE = "whole"
    #: Whole if it is whole, without currency: opinions in a column headed by the currency.
    WHOLE_PLAIN = "whole plain"
    #: With its sign, plus too: adjustments.
    SIGNED = "signed"
    #: A figure out of 100 that is no percent: originality.
    NUMBER = "number"
    #: A typed percent, which has no kind of its own.
    PERCENT = "percent"
    SIGNED_PERCENT = "signed percent"
    #: An amount with its sign, plus too, whole if it is whole: changes from year to year.
    WHOLE_SIGNED = "whole signed"
    #: A typed amount, which has no kind of its own; the second whole if it is whole.
    AMOUNT = "amount"
    WHOLE_AMOUNT = "whole amount"


@dataclass(slots=True)
class PrintedFigures:
    """The figures printed so far: by id, the texts they were printed as."""

    texts: dict[str, list[str]] = field(default_factory=dict)

    def note(self, figure_id: str, text: str) -> None:
        """Take note of a printed figure."""
        known = self.texts.setdefault(figure_id, [])
        if text not in known:
            known.append(text)


class Printer:
    """Puts figures and typed values into the words of one language and notes the figures printed."""

    __slots__ = ("currency", "figures", "lang", "words")

    def __init__(self, lang: Language, words: Texts, currency: str, figures: PrintedFigures | None = None) -> None:
        self.lang = lang
        self.words = words
        self.currency = currency
        self.figures = PrintedFigures() if figures is None else figures

    def printed(self, outcome: Outcome, form: Form = Form.PLAIN) -> str:
        """Return the text of a figure and note its id; "not concluded" where there is none."""
        if isinstance(outcome, NoFigure):
            return self.words.text("common.not_concluded")
        text = self._figure(outcome, form)
        self.figures.note(outcome.id, text)
        return text

    def _figure(self, figure: Figure, form: Form) -> str:
        value, kind = figure.value, figure.kind
        if isinstance(value, date):
            return short_day_text(value, self.lang)
        if isinstance(value, str):
            return self.noted_word(value)
        if kind.name == "money" or form in (Form.AMOUNT, Form.WHOLE_AMOUNT):
            return self._money(value, kind.currency or self.currency, form)
        signed = form in (Form.SIGNED, Form.SIGNED_PERCENT)
        is_percent = kind.name in ("percent", "shown percent") and form is not Form.NUMBER
        if is_percent or form in (Form.PERCENT, Form.SIGNED_PERCENT):
            return percent_text(value, self.lang, kind.places, signed=signed)
        return decimal_text(value, self.lang, kind.places, signed)

    def _money(self, value: Decimal, currency: str, form: Form) -> str:
        if form is Form.MONEY:
            return money_text(value, currency, self.lang)
        if form is Form.WHOLE:
            return money_text(value, currency, self.lang, whole=True)
        signed = form in (Form.SIGNED, Form.WHOLE_SIGNED)
        whole = form in (Form.WHOLE_PLAIN, Form.WHOLE_AMOUNT, Form.WHOLE_SIGNED)
        if whole and value == value.to_integral_value():
            return decimal_text(value, self.lang, 0, signed)
        return amount_text(value, currency, self.lang, signed=signed)

    def noted_word(self, word: str) -> str:
        """Return a word a method noted (`tie`, `yes`) in the language, as it is if it has no text."""
        key = f"noted.{word}"
        return self.words.text(key) if self.words.has(key) else word

    def shown(self, value: object, otherwise: str = "") -> str:
        """Return a typed value as it is printed; `otherwise` (or "not stated") where the cell was blank."""
        if isinstance(value, Missing):
            return self._missing(value, otherwise)
        if isinstance(value, StrEnum):
            return self.words.word(value)
        if isinstance(value, bool):
            return self.words.text("common.yes" if value else "common.no")
        if isinstance(value, date):
            return day_text(value, self.lang)
        if isinstance(value, Decimal):
            return decimal_text(value, self.lang)
        return str(value)

    def _missing(self, value: Missing, otherwise: str) -> str:
        if value is BLANK:
            return otherwise or self.words.text("common.not_stated")
        if value is UNKNOWN:
            return self.words.text("common.unknown")
        if value is NOT_INSPECTED:
            return self.words.text("common.not_inspected")
        return self.words.text("common.unreadable")

    def cell(self, value: object) -> str:
        """Return a typed value for a table's cell: an empty cell where it was blank."""
        return "" if value is BLANK else self.shown(value)

    def percent(self, value: Decimal | Missing, *, signed: bool = False) -> str:
        """Return a typed percent; empty where it was blank."""
        return percent_text(value, self.lang, signed=signed) if given(value) else self.cell(value)

    def amount(self, value: Decimal | Missing, currency: str = "", *, signed: bool = False) -> str:
        """Return a typed amount without its currency; empty where it was blank."""
        return (
            amount_text(value, currency or self.currency, self.lang, signed=signed)
            if given(value)
            else self.cell(value)
        )

    def money(self, value: Decimal | Missing, currency: str = "") -> str:
        """Return a typed amount with its currency; empty where it was blank."""
        return money_text(value, currency or self.currency, self.lang) if given(value) else self.cell(value)

    @property
    def group_mark(self) -> str:
        """What stands between groups of three digits, for the scales of charts."""
        return group_mark(self.lang)

    def territory(self, value: str | Missing) -> str:
        """Return a typed jurisdiction (`US`, `US-NY`) as the name of its country, with the code of a part of it."""
        return territory_text(value, self.lang) if given(value) else self.shown(value)

    def day(self, value: date | Missing) -> str:
        """Return a day for a column; empty where it was blank."""
        return short_day_text(value, self.lang) if given(value) else self.cell(value)

    def window(self, months: Months) -> str:
        """Return a set of months in words."""
        return _window_text(months, self.words, self.lang)

    def joined(self, words: Iterable[str], *, either: bool = False) -> str:
        """Return words as a list of the language."""
        return list_text(list(words), self.lang, either=either)

    def reasons(self, findings: Iterable[Finding]) -> str:
        """Return the sentences of findings one after the other."""
        return " ".join(dict.fromkeys(message(one) for one in findings))
