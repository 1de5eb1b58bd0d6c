"""Every general operation: its Decimal function on small figures, and its formula as a spreadsheet computes it."""

from pathlib import Path

import pytest
from support.operations import Example, assert_by_hand, assert_in_a_spreadsheet, assert_in_words

from appraise.model import operations as ops
from appraise.model.operations import Operation

#: Operation, arguments, decimals, result. Worked by hand.
EXAMPLES: list[Example] = [
    (ops.SUM, "1.10 2.20 -0.05", 2, "3.25"),
    (ops.DIFFERENCE, "10 12.5", 2, "-2.50"),
    (ops.PRODUCT, "27806.70 0.45", 2, "12513.02"),
    (ops.PRODUCT, "106045.80 1.025", 2, "108696.95"),
    (ops.QUOTIENT, "104.4667 102.8", 6, "1.016213"),
    # 1.25930149957...: rounded to 8 decimals on the way it would be a tie and go up
    (ops.QUOTIENT, "113.3371349615 90", 6, "1.259301"),
    (ops.LARGER, "515.21 150", 2, "515.21"),
    (ops.SMALLER, "3 1.5 2", 2, "1.50"),
    (ops.ONE_MINUS, "0.296667", 6, "0.703333"),
    (ops.PERCENT_OF, "8433 27", 2, "2276.91"),
    (ops.PLUS_PERCENT, "31500 -15", 2, "26775.00"),
    (ops.LESS_PERCENT, "14950 12", 2, "13156.00"),
    (ops.WITHOUT_PERCENT, "7250 20", 2, "6041.67"),
    (ops.PERCENT_ABOVE, "72 79", 2, "-8.86"),
    (ops.PERCENT_BELOW, "37 40", 2, "7.50"),
    (ops.PERCENT_SHARE, "4089.85 21402.33", 1, "19.1"),
    (ops.CONVERTED_TIMES, "19150 1.2189", 2, "23341.94"),
    (ops.CONVERTED_OVER, "1000000000 1936.27", 2, "516456.90"),
    (ops.TIERED, "61250 5000 30 50000 25 18", 2, "14775.00"),
    (ops.TIERED, "10000 10000 28 100000 22 15", 2, "2800.00"),
    (ops.TIERED, "0 10000 28 15", 2, "0.00"),
    # each tier's half cent goes up by itself: 0.005 + 0.005 = 0.02, not 0.01
    (ops.TIERED, "0.02 0.01 50 50", 2, "0.02"),
    (ops.TIERED, "8433 27", 2, "2276.91"),
    (ops.TIER_REACHED, "10000 10000 28 100000 22 15", 2, "2800.00"),
    (ops.TIER_REACHED, "10001 10000 28 100000 22 15", 2, "2200.22"),
    (ops.TIER_REACHED, "200000 10000 28 100000 22 15", 2, "30000.00"),
    (ops.WEIGHTED_MEAN, "2 118000 2 113880 1 108696.95", 2, "114491.39"),
    (ops.WEIGHTED_MEDIAN, "15 1 10 3 20 6 30 10 40 15 50", 2, "40.00"),
    (ops.WEIGHTED_MEDIAN, "8 3 10867.25 4 10947.27 7 11109.41 8 12113.02", 2, "11028.34"),
    (ops.WEIGHTED_MEDIAN, "0.6 0.1 1 0.3 2 0.6 3", 2, "2.50"),
    (ops.WEIGHTED_MEDIAN, "3 3 7", 2, "7.00"),
]


@pytest.mark.parametrize(("operation", "arguments", "places", "result"), EXAMPLES)
def test_operation_gives_the_figure_worked_by_hand(
    operation: Operation, arguments: str, places: int | None, result: str
) -> None:
    assert_by_hand(operation, arguments, places, result)


@pytest.mark.office
def test_formulas_give_the_same_in_a_spreadsheet(tmp_path: Path) -> None:
    assert_in_a_spreadsheet(EXAMPLES, tmp_path)


def test_every_general_operation_has_an_example() -> None:
    shown = {operation.name for operation, *_ in EXAMPLES} | {"typed"}
    declared = {value.name for value in vars(ops).values() if isinstance(value, Operation)}
    assert declared - shown == set()


def test_every_sentence_can_be_filled() -> None:
    assert_in_words(EXAMPLES)


@pytest.mark.parametrize(
    ("operation", "arguments", "words"),
    [
        (ops.SUM, ["1", "2", "3"], "1 + 2 + 3"),
        (ops.PLUS_PERCENT, ["31,500.00", "-15"], "31,500.00 × (1 + -15 %)"),
        (
            ops.TIERED,
            ["61250", "5000", "30", "50000", "25", "18"],
            "each tier's rate on its part of 61250, tier by tier: 30 % up to 5000, 25 % up to 50000, 18 % above",
        ),
        (ops.WEIGHTED_MEAN, ["2", "10", "1", "40"], "(2 × 10 + 1 × 40) ÷ the sum of the weights"),
    ],
)
def test_sentence_names_the_arguments(operation: Operation, arguments: list[str], words: str) -> None:
    assert operation.words(arguments) == words


def test_a_sum_of_many_cells_is_nested() -> None:
    formula = ops.SUM.formula([f"A{row}" for row in range(1, 502)], None)
    assert formula.startswith("SUM(SUM(A1,")
    assert formula.count("SUM(") == 4
