"""Next year's line for each opinion, with the treatment proposed and why."""

from datetime import date
from decimal import Decimal

import pytest
from support.figures import typed
from support.valuing import job_of

from appraise.model.figure import NoFigure, Outcome
from appraise.model.finding import finding
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.job import Job
from appraise.records.vocabulary import Conclusion, Market, Route, Treatment, ValueType
from appraise.records.yearly import LineTreatment
from appraise.schedule.propose import Years, proposed_lines, split_lines
from appraise.valuing.result import Valuation

RETAIL = ValueType.RETAIL_REPLACEMENT
LAST, NEXT = date(2025, 6, 30), date(2026, 6, 30)

INDEXES = """
index | month   | figure | market
FLAT  | 2025-01 | 100    | dealer retail
HALL  | 2025-01 | 100    | auction
BARE  | 2025-01 | 100    |
"""
TERMS = "value_type | market\nretail replacement value | dealer retail"


def job(treatment: str = "", *, item_index: str = "", **more: str) -> Job:
    sheets = {
        "assignment": "currency | USD",
        "value_terms": TERMS,
        "items": f"id | inspected_on | index\nA | 2025-05-01 | {item_index}",
        "indexes": INDEXES,
        **more,
    }
    if treatment:
        sheets["treatments"] = treatment
    return job_of(sheets)


def opinion(value: Outcome | None = None, rounded: Outcome | None = None) -> Valuation:
    found, printed = value or typed("1234.56"), rounded or typed("1250")
    return Valuation("A", RETAIL, Route.ADJUSTED, Conclusion.MEAN, {}, (), {}, found, printed, ())


def line(made: Job, valuation: Valuation | None = None) -> LineTreatment:
    (one,) = proposed_lines(Years.of(made, LAST, NEXT), {"A": [valuation or opinion()]})
    return one


HEADS = "item | value_type | treatment | reason | prior_day | rolled_years | index | percent"


def last(treatment: str, day: str = "2024-06-30", rolled: str = "0", index: str = "", percent: str = "") -> str:
    row = f"A | retail replacement value | {treatment} | as agreed | {day} | {rolled} | {index} | {percent}"
    return f"{HEADS}\n{row}"


@pytest.mark.parametrize(
    ("made", "treatment", "index", "words"),
    [
        (job(item_index="FLAT"), "index", "FLAT", "rolled by index FLAT"),
        (job(item_index="BARE"), "index", "BARE", "rolled by index BARE"),
        (job(item_index="HALL"), "fresh comparables", BLANK, "index HALL measures auction, not dealer retail"),
        (job(), "fresh comparables", BLANK, "no index of its market"),
        (job(last("index", index="FLAT")), "index", "FLAT", "rolled by index FLAT"),
        (job(last("index", index="FLAT", rolled="1")), "fresh comparables", BLANK, "rolled 2 years running"),
        (job(last("percent", percent="2.5")), "percent", BLANK, "type this year's"),
        (job(last("hold")), "hold", BLANK, "held last year (as agreed)"),
        (
            job(item_index="FLAT", yearly_terms="roll_limit | 1000"),
            "fresh comparables",
            BLANK,
            "above the limit for rolling, 1,000",
        ),
        (job(item_index="FLAT", yearly_terms="inspection_months | 12"), "index", "FLAT", "inspection is due"),
    ],
)
def test_the_treatment_proposed(made: Job, treatment: str, index: object, words: str) -> None:
    one = line(made)
    assert (one.treatment, one.index) == (treatment, index)
    assert words in str(one.reason)
    assert (one.prior_value, one.prior_rounded) == (Decimal("1234.56"), Decimal(1250))
    assert (one.prior_market, one.inspected) == (Market.DEALER_RETAIL, date(2025, 5, 1))


def test_how_long_a_line_was_rolled_and_of_which_day_its_value_is() -> None:
    """A held year neither adds to the years rolled nor ends them; fresh comparables begin anew."""
    found = {
        treatment: (line(job(last(treatment, rolled="1", index="FLAT", percent="1"))))
        for treatment in ("index", "percent", "hold", "fresh comparables", "added")
    }
    assert {name: one.rolled_years for name, one in found.items()} == {
        "index": 2,
        "percent": 2,
        "hold": 1,
        "fresh comparables": 0,
        "added": 0,
    }
    assert found["hold"].prior_day == date(2024, 6, 30)
    assert {one.prior_day for name, one in found.items() if name != "hold"} == {LAST}


def test_without_a_value_the_line_is_added_and_has_no_prior_one() -> None:
    none = NoFigure((finding("VAL-10", Place("Items", 3, "id"), "A"),))
    one = line(job(item_index="FLAT"), opinion(none, none))
    assert one.treatment is Treatment.ADDED
    assert (one.prior_value, one.prior_rounded, one.prior_day) == (BLANK, BLANK, BLANK)
    assert "no value was concluded" in str(one.reason)


@pytest.mark.parametrize(
    "made",
    [job(last("removed")), job(opinions="item | value_type | not_valued\nA | retail replacement value | spare case")],
)
def test_what_is_removed_or_not_valued_has_no_line(made: Job) -> None:
    assert proposed_lines(Years.of(made, LAST, NEXT), {"A": [opinion()]}) == ()


def test_a_split_since_last_year_removes_the_old_line_and_adds_the_new_ones() -> None:
    made = job(
        items="id | inspected_on\nA | 2025-05-01\nA1 | 2026-03-01\nA2 | 2026-03-01",
        renamings="old | new | day\nA | A1 | 2026-03-01\nA | A2 | 2026-03-01",
    )
    years = Years.of(made, LAST, NEXT)
    proposed = proposed_lines(years, {"A": [opinion()]})
    added = split_lines(years, [one.item for one in proposed])
    assert [(one.item, one.treatment, one.removed_on) for one in proposed] == [
        ("A", Treatment.REMOVED, date(2026, 3, 1))
    ]
    assert [(one.item, one.treatment, one.prior_value) for one in added] == [
        ("A1", Treatment.ADDED, BLANK),
        ("A2", Treatment.ADDED, BLANK),
    ]


def test_a_split_before_last_years_schedule_is_settled() -> None:
    made = job(
        items="id\nA\nB",
        renamings="old | new | day\nA | B | 2025-01-01",
    )
    years = Years.of(made, LAST, NEXT)
    assert [one.treatment for one in proposed_lines(years, {"A": [opinion()]})] == [Treatment.FRESH]
    assert split_lines(years, ["A"]) == ()
