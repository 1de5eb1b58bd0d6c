"""Dated limits: edges as published, first and last day, a day on which nothing holds."""

from datetime import date
from decimal import Decimal

import pytest

from appraise.rules.thresholds import NotInForce, threshold

AFTER_2019 = date(2024, 5, 1)


@pytest.mark.parametrize(
    ("amount", "section_a", "section_b", "attach"),
    [
        ("500", False, False, False),
        ("500.01", True, False, False),
        ("5000", True, False, False),
        ("5000.01", True, True, False),
        ("500000", True, True, False),
        ("500000.01", True, True, True),
    ],
)
def test_what_accompanies_a_donation(amount: str, section_a: bool, section_b: bool, attach: bool) -> None:
    """Internal Revenue Code section 170(f)(11)(B)-(D): each limit is "more than"; the edges are computed here."""
    reached = [
        threshold(name, AFTER_2019).reached(Decimal(amount))
        for name in ("us-donation-section-a", "us-donation-section-b", "us-donation-attach")
    ]
    assert reached == [section_a, section_b, attach]


def test_art_of_twenty_thousand_is_inclusive() -> None:
    """Form 8283 instructions: art of $20,000 or more, signed appraisal attached."""
    limit = threshold("us-donation-attach-art", AFTER_2019)
    assert (limit.reached(Decimal("19999.99")), limit.reached(Decimal("20000"))) == (False, True)


@pytest.mark.parametrize(
    ("day", "substantial", "gross"),
    [(date(2006, 8, 17), "2.00", "4.00"), (date(2006, 8, 18), "1.50", "2.00")],
)
def test_overstatement_limits_change_on_their_day(day: date, substantial: str, gross: str) -> None:
    """Internal Revenue Code section 6662(e), (h), and the older text in IRS Publication 561 for 2000 and 2001."""
    assert threshold("us-overstatement-substantial", day).figure == Decimal(substantial)
    assert threshold("us-overstatement-gross", day).figure == Decimal(gross)


def test_a_day_before_the_rule_names_the_days_covered() -> None:
    with pytest.raises(NotInForce, match="2019-01-01 to open"):
        threshold("us-donation-earliest-days", date(2018, 12, 31))
    assert threshold("us-donation-earliest-days", date(2019, 1, 1)).figure == 60
