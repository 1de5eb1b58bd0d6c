"""The effect of one feature from matched pairs, through the rows of a job."""

from decimal import Decimal
from pathlib import Path

import pytest
from support.figures import number
from support.operations import Example, assert_by_hand, assert_in_a_spreadsheet, assert_in_words
from support.valuing import job_of

from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.operations import Operation
from appraise.valuing.matched_pairs import INTERVAL_HIGH, INTERVAL_LOW, MEAN, FeatureEffect, feature_effects

#: Four values of mean 12 and standard deviation √(8/3): half-width 3.182446 × 1.632993 ÷ 2 = 2.598456, with t of 3
#: degrees of freedom from a printed table (Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.10).
EXAMPLES: list[Example] = [
    (MEAN, "10 12 12 14", 2, "12.00"),
    (MEAN, "0.01 0.02", 2, "0.02"),
    (INTERVAL_LOW, "10 12 12 14", 2, "9.40"),
    (INTERVAL_HIGH, "10 12 12 14", 2, "14.60"),
    # one degree of freedom: t = 12.706205, standard deviation √2, half-width 12.706205
    (INTERVAL_LOW, "4 6", 2, "-7.71"),
    (INTERVAL_HIGH, "4 6", 2, "17.71"),
]


def effects(pairs: str) -> tuple[FeatureEffect, ...]:
    """Return the effects of rows "id | element | better | poorer | weight"."""
    job = job_of({"paired_sales": f"id | element | better | poorer | weight\n{pairs}"})
    return feature_effects(RecordingLedger("pairs"), job.paired_sales, currency="USD")


@pytest.mark.parametrize(("operation", "arguments", "places", "result"), EXAMPLES)
def test_means_and_ends_of_intervals_by_hand(operation: Operation, arguments: str, places: int, result: str) -> None:
    assert_by_hand(operation, arguments, places, result)


@pytest.mark.office
def test_the_formulas_give_the_same_in_a_spreadsheet(tmp_path: Path) -> None:
    assert_in_a_spreadsheet(EXAMPLES, tmp_path)


def test_the_sentences_can_be_filled() -> None:
    assert_in_words(EXAMPLES)


def test_one_pair_as_in_the_licensing_exam_question() -> None:
    """Published licensing-exam practice question on paired sales: 285000 with, 275000 without: 10000."""
    (effect,) = effects("p1 | garden | 285000 | 275000 | 1")
    figures = effect.worked.figures
    assert number(figures["amount_mean"]) == Decimal("10000.00")
    assert number(figures["downward_mean"]) == Decimal("-3.51")
    assert number(figures["upward_mean"]) == Decimal("3.64")
    assert "amount_low" not in figures
    assert [one.code for one in effect.worked.findings] == ["LOS-21"]


def test_interval_of_several_pairs() -> None:
    (effect,) = effects("\n".join(f"p{n} | case | {better} | 100 | 1" for n, better in enumerate((110, 112, 112, 114))))
    figures = effect.worked.figures
    ends = [number(figures[f"{measure}_{end}"]) for measure in ("amount", "upward") for end in ("mean", "low", "high")]
    assert ends == [Decimal(text) for text in ("12.00", "9.40", "14.60")] * 2
    pairs = figures["pairs"]
    assert isinstance(pairs, Figure)
    assert pairs.number == 4


def test_pairs_of_one_name_are_taken_together_whatever_its_spacing_and_case() -> None:
    found = effects("p1 | Case | 110 | 100 | 1\np2 | label | 104 | 100 | 1\np3 | case  | 120 | 100 | 1")
    assert [(one.element, number(one.worked["pairs"])) for one in found] == [("Case", 2), ("label", 1)]


def test_pairs_that_cannot_serve_say_why_and_the_rest_counts() -> None:
    (effect,) = effects(
        "p1 | case | 100 | 80 | 1\np2 | case | 0 | 80 | 1\np3 | case | 100 | | 1\np4 | case | 100 | 90 | 0"
    )
    assert number(effect.worked["pairs"]) == 1
    assert number(effect.worked["amount_mean"]) == Decimal("20.00")
    found = [(one.code, one.place.row, one.place.column) for one in effect.worked.findings]
    assert found == [("LOS-07", 3, "better"), ("LOS-01", 4, "poorer"), ("LOS-21", 2, "element")]


def test_pairs_that_serve_one_item_are_no_general_effect() -> None:
    rows = "id | item | element | better | poorer | weight\np1 | A01 | crack | 100 | 80 | 1"
    assert feature_effects(RecordingLedger("pairs"), job_of({"paired_sales": rows}).paired_sales, currency="USD") == ()
    assert effects("") == ()
