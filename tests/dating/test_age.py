"""Legal age on the unfavourable end: first and last day, the day before and the day after."""

from datetime import date

import pytest
from support.dating import EXAMINED, month, plain

from appraise.dating.age import Established, at_least_years_old, completed_before
from appraise.dating.result import DateWindow
from appraise.dating.window import date_window
from appraise.records.vocabulary import EvidenceStatus


def _window(first: str | None, last: str | None) -> DateWindow:
    return date_window("X", [plain("a", month(first) if first else None, month(last) if last else None)], EXAMINED)


@pytest.mark.parametrize(
    ("last", "day", "answer"),
    [
        ("1926-11", date(2026, 11, 29), Established.UNCERTAIN),
        ("1926-11", date(2026, 11, 30), Established.YES),
        ("1926-11", date(2026, 12, 1), Established.YES),
        ("1926-11", date(2026, 10, 31), Established.UNCERTAIN),
        ("1928-02", date(2028, 2, 28), Established.UNCERTAIN),
        ("1928-02", date(2028, 2, 29), Established.YES),
    ],
)
def test_an_antique_is_judged_by_the_latest_month(last: str, day: date, answer: Established) -> None:
    assert at_least_years_old(_window("1920-01", last), 100, day).answer is answer


@pytest.mark.parametrize(
    ("first", "day", "answer"),
    [
        ("1926-11", date(2026, 10, 31), Established.NO),
        ("1926-11", date(2026, 11, 1), Established.UNCERTAIN),
        ("1926-12", date(2026, 11, 30), Established.NO),
    ],
)
def test_too_young_only_where_even_the_earliest_month_is(first: str, day: date, answer: Established) -> None:
    assert at_least_years_old(_window(first, "1940-12"), 100, day).answer is answer


def test_across_the_cut_off_is_not_established() -> None:
    found = at_least_years_old(_window("1920-01", "1930-12"), 100, date(2026, 11, 25))
    assert (found.answer.value, found.reason, found.deciding) == (
        "not established",
        "across the cut-off",
        month("1930-12"),
    )


def test_an_open_upper_end_is_not_established() -> None:
    assert at_least_years_old(_window("1900-01", None), 100, date(2026, 11, 25)).answer is Established.UNCERTAIN


def test_no_evidence_establishes_nothing() -> None:
    found = at_least_years_old(date_window("X", [], EXAMINED), 100, date(2026, 11, 25))
    assert (found.answer, found.reason) == (Established.UNCERTAIN, "no evidence")


@pytest.mark.parametrize(
    ("last", "answer"),
    [("1975-06", Established.YES), ("1975-07", Established.UNCERTAIN), ("1980-01", Established.UNCERTAIN)],
)
def test_completed_before_a_listing(last: str, answer: Established) -> None:
    """The convention on trade in endangered species is in force since 1 July 1975 (EU proposal, OJ 1980 C 243/16)."""
    assert completed_before(_window("1970-01", last), date(1975, 7, 1)).answer is answer


def test_completed_after_a_listing_is_never_not_met() -> None:
    """The material may be older than the object."""
    assert completed_before(_window("1990-01", "1995-12"), date(1975, 7, 1)).answer is Established.UNCERTAIN


def test_where_evidence_conflicts_every_explanation_must_be_old_enough() -> None:
    early = plain("a", month("1900-01"), month("1905-12"))
    window = date_window("X", [early, plain("b", month("1910-01"), month("1915-12"))], EXAMINED)
    assert at_least_years_old(window, 100, date(2026, 11, 25)).answer is Established.YES
    window = date_window("X", [early, plain("b", month("1930-01"), month("1935-12"))], EXAMINED)
    found = at_least_years_old(window, 100, date(2026, 11, 25))
    assert (found.answer, found.reason) == (Established.UNCERTAIN, "conflict")


def test_later_work_after_the_cut_off_is_named() -> None:
    window = date_window(
        "X",
        [
            plain("a", month("1900-01"), month("1905-12")),
            plain("nut", month("1980-01"), None, status=EvidenceStatus.REPLACED),
            plain("peg", month("1910-01"), None, status=EvidenceStatus.REPLACED),
        ],
        EXAMINED,
    )
    assert at_least_years_old(window, 100, date(2026, 11, 25)).later_work == ("nut",)
