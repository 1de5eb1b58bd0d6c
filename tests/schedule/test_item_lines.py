"""The value of an item as its line on Treatments has it."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from support.figures import number, typed
from support.valuing import job_of

from appraise.model.figure import NoFigure, Outcome
from appraise.model.ledger import Ledger
from appraise.records.vocabulary import Conclusion, Route, ValueType
from appraise.schedule.item_lines import ItemLines
from appraise.valuing import job_rows
from appraise.valuing.result import Valuation

RETAIL = ValueType.RETAIL_REPLACEMENT


def ordinary(value: Outcome) -> Callable[[], Valuation]:
    return lambda: Valuation("A", RETAIL, Route.ADJUSTED, Conclusion.MEAN, {}, (), {}, value, value, ())


def never() -> Valuation:
    raise AssertionError("comparables were asked for")


def lines(treatments: str, assignment: str = "currency | USD\neffective_date | 2025-06-30", **more: str) -> ItemLines:
    return ItemLines(job_rows(job_of({"assignment": assignment, "treatments": treatments, **more}))[0])


HEADS = "item | value_type | treatment | prior_value | prior_rounded | inspected | percent | owner_reply"


@pytest.mark.parametrize(
    ("row", "value"),
    [
        ("percent | 100.40 | 100 | 2025-01-01 | 2.5 | yes", "102.91"),
        ("hold | 100.40 | 100 | 2025-01-01 | |", "100.40"),
    ],
)
def test_a_rolled_or_held_line_asks_for_no_comparables(row: str, value: str) -> None:
    found, line = lines(f"{HEADS}\nA | retail replacement value | {row}").value("A", RETAIL, Ledger("A.rrv"), never)
    assert number(found.value) == Decimal(value)
    assert line is not None
    assert found.rounded is line.new_rounded
    assert {"value", "value_rounded", "prior", "change"} <= set(found.figures)


def test_a_removed_line_has_no_value_and_says_why() -> None:
    table = f"{HEADS} | removed_on\nA | retail replacement value | removed | 100 | 100 | | | | 2025-02-14"
    found, line = lines(table).value("A", RETAIL, Ledger("A.rrv"), never)
    assert isinstance(found.value, NoFigure)
    assert [(one.code, one.found) for one in found.value.because] == [("YRL-40", "2025-02-14")]
    assert line is not None
    assert number(line.prior_rounded) == 100


@pytest.mark.parametrize("treatment", ["fresh comparables", "added"])
def test_fresh_comparables_are_the_ordinary_opinion(treatment: str) -> None:
    prior = "" if treatment == "added" else "100"
    table = f"{HEADS}\nA | retail replacement value | {treatment} | {prior} | {prior} | 2025-01-01 | | yes"
    found, line = lines(table).value("A", RETAIL, Ledger("A.rrv"), ordinary(typed("12847.63")))
    assert number(found.value) == Decimal("12847.63")
    assert found.conclusion is Conclusion.MEAN
    assert line is not None
    assert number(line.new) == Decimal("12847.63")


def test_a_typed_new_value_needs_no_comparables() -> None:
    heads = "item | value_type | treatment | new_value | inspected"
    table = f"{heads}\nA | retail replacement value | added | 7436 | 2025-01-09"
    found, _ = lines(table).value("A", RETAIL, Ledger("A.rrv"), never)
    assert number(found.value) == 7436


def test_without_a_line_the_ordinary_opinion_stands() -> None:
    found, line = lines(f"{HEADS}\nB | retail replacement value | hold | 1 | 1 | | | ").value(
        "A", RETAIL, Ledger("A.rrv"), ordinary(typed("5"))
    )
    assert (number(found.value), line) == (5, None)


@pytest.mark.parametrize(
    ("assignment", "code"), [("currency | USD", "YRL-18"), ("effective_date | 2025-06-30", "YRL-01")]
)
def test_without_day_or_currency_a_line_has_no_figure_for_that_reason(assignment: str, code: str) -> None:
    table = f"{HEADS}\nA | retail replacement value | hold | 100 | 100 | | | "
    found, line = lines(table, assignment).value("A", RETAIL, Ledger("A.rrv"), never)
    assert isinstance(found.value, NoFigure)
    assert [one.code for one in found.value.because] == [code]
    assert line is None
