"""Numbers typed as text."""

from decimal import Decimal

import pytest
from babel.numbers import format_decimal
from hypothesis import given
from hypothesis import strategies as st

from appraise.workbook.reading.typed_numbers import readings, signs_of

LOCALES = (
    "en_US",
    "en_GB",
    "de_DE",
    "de_CH",
    "de_AT",
    "fr_FR",
    "fr_CH",
    "es_ES",
    "it_IT",
    "nl_NL",
    "sv_SE",
    "en_IN",
    "pl_PL",
)


@given(st.sampled_from(LOCALES), st.decimals(-(10**9), 10**9, places=2))
def test_a_number_written_as_a_locale_writes_it_is_read_back(locale: str, number: Decimal) -> None:
    written = format_decimal(number, locale=locale, format=None)
    assert readings(written, signs_of(locale)) == (number,)


@pytest.mark.parametrize("locale", ["", "xx_YY", "english", "en_", "1"])
def test_an_unknown_locale_has_no_signs(locale: str) -> None:
    assert signs_of(locale) is None


@pytest.mark.parametrize("text", ["", "-", "1,2,3", "1 2", ",5", "5,", "--1", "1.2.3", "٣", "1_000", "0x1"])
def test_nothing_is_guessed(text: str) -> None:
    assert readings(text, signs_of("en_US")) == ()
