"""Numbers, money, percents, days and lists of a language, character by character."""

from datetime import date
from decimal import Decimal

import pytest

from appraise.wording.numbers import (
    amount_text,
    day_text,
    decimal_text,
    language,
    list_text,
    money_text,
    month_text,
    percent_text,
    short_day_text,
)

EN, DE, FR = language("en", "en_US"), language("de"), language("fr")
NBSP, NNBSP = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"


def test_a_number_has_the_decimals_asked_for():
    assert decimal_text(Decimal("1234.5"), EN, 2) == "1,234.50"
    assert decimal_text(Decimal("1234.5"), DE, 2) == "1.234,50"
    assert decimal_text(Decimal("1234.5"), FR, 2) == f"1{NNBSP}234,50"


def test_a_number_without_decimals_asked_for_keeps_its_own():
    assert decimal_text(Decimal("3.0"), EN) == "3"
    assert decimal_text(Decimal("1.2189"), EN) == "1.2189"
    assert decimal_text(Decimal("1E+3"), EN) == "1,000"


def test_ties_go_away_from_zero_before_the_language_sees_the_number():
    assert decimal_text(Decimal("0.125"), EN, 2) == "0.13"
    assert decimal_text(Decimal("-0.125"), EN, 2) == "−0.13"


def test_a_rounded_zero_has_no_sign():
    assert decimal_text(Decimal("-0.001"), EN, 2, True) == "0.00"


@pytest.mark.parametrize(
    ("lang", "text"),
    [(EN, f"USD{NBSP}22,100"), (DE, f"22.100{NBSP}USD"), (FR, f"22{NNBSP}100{NBSP}USD")],
    ids=["en", "de", "fr"],
)
def test_money_stands_on_the_side_of_its_currency_that_the_language_uses(lang, text):
    assert money_text(Decimal("22100.00"), "USD", lang, whole=True) == text


def test_money_has_the_minor_unit_of_its_currency():
    assert amount_text(Decimal("5"), "USD", EN) == "5.00"
    assert amount_text(Decimal("5"), "JPY", EN) == "5"
    assert amount_text(Decimal("5"), "KWD", EN) == "5.000"


def test_a_typed_amount_keeps_decimals_beyond_the_minor_unit():
    assert amount_text(Decimal("0.125"), "USD", EN) == "0.125"


def test_whole_money_keeps_decimals_that_are_not_zero():
    assert money_text(Decimal("22100.50"), "USD", EN, whole=True) == f"USD{NBSP}22,100.50"


def test_a_percent_carries_the_sign_of_the_language():
    assert percent_text(Decimal("-8.86"), EN, 2) == "−8.86%"
    assert percent_text(Decimal("7.25"), DE) == f"7,25{NBSP}%"
    assert percent_text(Decimal("3"), EN, signed=True) == "+3%"


def test_days_and_months():
    assert day_text(date(2025, 1, 20), EN) == "January 20, 2025"
    assert day_text(date(2025, 1, 20), language("en", "en_GB")) == "20 January 2025"
    assert day_text(date(2025, 1, 20), DE) == "20. Januar 2025"
    assert short_day_text(date(2025, 1, 20), EN) == "Jan 20, 2025"
    assert month_text(12 * 1959 + 3, EN) == "April 1959"
    assert month_text(12 * 1959 + 3, FR) == "avril 1959"


def test_the_last_days_of_a_year_keep_their_calendar_year():
    assert day_text(date(2024, 12, 30), EN) == "December 30, 2024"


def test_lists():
    assert list_text(["a", "b", "c"], EN) == "a, b, and c"
    assert list_text(["a", "b"], DE) == "a und b"
    assert list_text(["1957", "1963"], EN, either=True) == "1957 or 1963"
    assert list_text([], EN) == ""


def test_a_workbook_of_another_language_does_not_change_the_numbers_of_the_report():
    assert language("de", "en_US") is language("de", "en_US")
    assert language("de", "en_US").tag == "de-DE"
    assert language("xx-unknown").code == "en"
