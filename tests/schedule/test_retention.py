"""Until when the file is kept."""

from datetime import date

import pytest

from appraise.rules.thresholds import threshold
from appraise.schedule.retention import keep_until


@pytest.mark.parametrize(
    ("prepared", "disposed", "until"),
    [
        ("2019-06-30", None, "2024-06-30"),
        ("2019-06-30", "2020-01-15", "2024-06-30"),
        ("2019-06-30", "2023-01-15", "2025-01-15"),
        ("2026-03-10", None, "2031-03-10"),
        ("2026-03-10", "2031-06-30", "2033-06-30"),
        ("2024-02-29", None, "2029-03-01"),
        ("2020-02-29", None, "2025-03-01"),
    ],
)
def test_five_years_or_two_after_testimony_uspap_record_keeping_rule(
    prepared: str, disposed: str | None, until: str
) -> None:
    """USPAP Record Keeping Rule, as Arizona Rev. Stat. 32-3637 and Vermont title 26 section 3324 follow it."""
    kept = keep_until(
        date.fromisoformat(prepared),
        years=5,
        disposed=None if disposed is None else date.fromisoformat(disposed),
        years_after_testimony=2,
    )
    assert kept == date.fromisoformat(until)


def test_pending_testimony_leaves_no_day() -> None:
    assert keep_until(date(2026, 3, 10), years=5, years_after_testimony=2, pending=True) is None


def test_some_states_differ() -> None:
    assert keep_until(date(2020, 1, 1), years=3, years_after_testimony=2) == date(2023, 1, 1)


def test_the_rule_data_hold_these_years() -> None:
    assert threshold("retention-years", date(2025, 1, 1)).figure == 5
    assert threshold("retention-years-after-testimony", date(2025, 1, 1)).figure == 2
