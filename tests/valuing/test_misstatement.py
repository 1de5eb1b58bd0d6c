"""Valuation misstatements under US federal tax law, at their edges."""

from datetime import date
from decimal import Decimal

import pytest

from appraise.rules.thresholds import NotInForce
from appraise.valuing.misstatement import (
    Misstatement,
    appraiser_penalty,
    band_of_donation,
    band_of_estate,
    overstatement,
    penalty,
    penalty_rate,
    understatement,
)

NEW, OLD = date(2023, 4, 15), date(2001, 4, 15)


@pytest.mark.parametrize(
    ("claimed", "underpayment", "rate", "due"),
    [
        ("14999", "6000", "0", "0.00"),
        ("15000", "6000", "20", "1200.00"),
        ("19999", "6000", "20", "1200.00"),
        ("20000", "6000", "40", "2400.00"),
        ("20000", "5000", "0", "0.00"),
        ("20000", "5000.01", "40", "2000.00"),
    ],
)
def test_donated_property_irc_6662_e_and_h(claimed: str, underpayment: str, rate: str, due: str) -> None:
    """Internal Revenue Code section 6662(e), (h): correct value 10000; 150 and 200 percent, more than 5000."""
    kind = overstatement(claimed=Decimal(claimed), correct=Decimal(10000), day=NEW)
    assert penalty_rate(kind, underpayment=Decimal(underpayment), day=NEW) == Decimal(rate)
    assert penalty(kind, underpayment=Decimal(underpayment), day=NEW) == Decimal(due)


@pytest.mark.parametrize(("claimed", "rate"), [("19999", "0"), ("20000", "20"), ("39999", "20"), ("40000", "40")])
def test_donated_property_under_the_older_text_publication_561(claimed: str, rate: str) -> None:
    """IRS Publication 561, editions for 2000 and 2001, "Penalties": 200 and 400 percent."""
    kind = overstatement(claimed=Decimal(claimed), correct=Decimal(10000), day=OLD)
    assert penalty_rate(kind, underpayment=Decimal(6000), day=OLD) == Decimal(rate)


def test_a_decided_case_t_c_memo_2016_1() -> None:
    """T.C. Memo. 2016-1, headnote: claimed 108000, at most 35000 supported: gross."""
    assert (Decimal(108000) / 35000).quantize(Decimal("0.0001")) == Decimal("3.0857")
    kind = overstatement(claimed=Decimal(108000), correct=Decimal(35000), day=NEW)
    assert kind is Misstatement.GROSS
    assert penalty_rate(kind, underpayment=Decimal(5001), day=NEW) == 40


@pytest.mark.parametrize(
    ("claimed", "correct", "kind"), [("100000", "66000", "substantial"), ("100000", "50000", "gross")]
)
def test_overstated_by_half_and_by_double(claimed: str, correct: str, kind: str) -> None:
    assert overstatement(claimed=Decimal(claimed), correct=Decimal(correct), day=NEW).value == kind


@pytest.mark.parametrize(
    ("claimed", "kind"), [("66000", "none"), ("65000", "substantial"), ("40001", "substantial"), ("40000", "gross")]
)
def test_estates_and_gifts_irc_6662_g(claimed: str, kind: str) -> None:
    """Internal Revenue Code section 6662(g), (h)(2)(C): correct value 100000; 65 and 40 percent or less."""
    assert understatement(claimed=Decimal(claimed), correct=Decimal(100000), day=NEW).value == kind


@pytest.mark.parametrize(
    ("underpayment", "fee", "due"),
    [("60000", "2400", "3000"), ("8000", "2400", "1000"), ("60000", "400", "500"), ("200000", "20000", "20000")],
)
def test_appraisers_penalty_irc_6695a(underpayment: str, fee: str, due: str) -> None:
    """Internal Revenue Code section 6695A(b): 10 percent, at least 1000, at most 125 percent of the fee."""
    assert appraiser_penalty(underpayment=Decimal(underpayment), fee=Decimal(fee), day=NEW) == Decimal(due)


def test_bands_around_an_opinion() -> None:
    donation, estate = band_of_donation(Decimal(30000), day=NEW), band_of_estate(Decimal(26000), day=NEW)
    assert (donation.substantial, donation.gross) == (Decimal("20000.00"), Decimal("15000.00"))
    assert (estate.substantial, estate.gross) == (Decimal("40000.00"), Decimal("65000.00"))


@pytest.mark.parametrize(("day", "holds"), [(date(2006, 8, 17), False), (date(2006, 8, 18), True)])
def test_the_estate_limits_hold_from_their_first_day(day: date, holds: bool) -> None:
    if holds:
        assert understatement(claimed=Decimal(65), correct=Decimal(100), day=day) is Misstatement.SUBSTANTIAL
    else:
        with pytest.raises(NotInForce, match="2006-08-18 to open"):
            understatement(claimed=Decimal(65), correct=Decimal(100), day=day)
