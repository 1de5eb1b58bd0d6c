"""Numbers as CLDR writes them, at the places where a reader of an appraisal meets them."""

from decimal import Decimal

import pytest

from appraise.model.kinds import minor_unit
from appraise.model.rounding import round_half_away
from appraise.wording.numbers import amount_text, decimal_text, language


def amount(number: str, currency: str, code: str, locale: str) -> str:
    """Return an amount rounded as the ledger rounds it, then formatted."""
    rounded = round_half_away(Decimal(number), minor_unit(currency))
    return amount_text(rounded, currency, language(code, locale))


NARROW, APOSTROPHE = "\N{NARROW NO-BREAK SPACE}", "\N{RIGHT SINGLE QUOTATION MARK}"


@pytest.mark.parametrize(
    ("code", "locale", "currency", "text"),
    [
        ("en", "en_US", "USD", "1,234,567.89"),
        ("en", "en_GB", "GBP", "1,234,567.89"),
        ("de", "de_DE", "EUR", "1.234.567,89"),
        ("de", "de_CH", "CHF", f"1{APOSTROPHE}234{APOSTROPHE}567.89"),
        ("fr", "fr_FR", "EUR", f"1{NARROW}234{NARROW}567,89"),
        ("fr", "fr_CH", "CHF", f"1{NARROW}234{NARROW}567,89"),
        ("en", "en_IN", "INR", "12,34,567.89"),
        ("ja", "ja_JP", "JPY", "1,234,568"),
    ],
)
def test_one_amount_in_several_locales(code: str, locale: str, currency: str, text: str) -> None:
    """CLDR 47 number data, amount 1234567.891, digits, groups and decimals; the currency stands apart in a report."""
    assert amount("1234567.891", currency, code, locale) == text


def test_groups_of_two_after_the_first_three() -> None:
    """UTS 35 part 3 (Numbers): 123456789 in Indian English is 12,34,56,789."""
    assert decimal_text(Decimal(123456789), language("en", "en_IN"), 0) == "12,34,56,789"


def test_an_amount_is_rounded_by_the_method_before_it_is_formatted() -> None:
    """The formatter alone would print 1,234.52 and 1,234 (half-even); the method's ties go away from zero."""
    assert amount("1234.525", "USD", "en", "en_US") == "1,234.53"
    assert amount("1234.5", "JPY", "en", "en_US") == "1,235"


@pytest.mark.parametrize(
    ("number", "places", "text"), [("1234.567", 2, f"1{NARROW}234,57"), ("1234.567", 3, f"1{NARROW}234,567")]
)
def test_number_patterns_in_french(number: str, places: int, text: str) -> None:
    """UTS 35 part 3, table "Number Pattern Examples", French."""
    assert decimal_text(Decimal(number), language("fr", "fr_FR"), places) == text
