"""Operations of the other methods: Decimal function on small figures, and formula as a spreadsheet computes it."""

import importlib
import pkgutil
from pathlib import Path

import pytest
from support.operations import Example, assert_by_hand, assert_in_a_spreadsheet, assert_in_words

import appraise.schedule
import appraise.valuing.methods
from appraise.model.operations import OPERATIONS, Operation
from appraise.valuing import amounts, crossing
from appraise.valuing.methods import (
    coverage,
    declining_balance,
    depreciated_cost,
    inflation_guard,
    liquidation,
    net_proceeds,
    sets,
)

#: Operation, arguments, decimals, result. Worked by hand.
EXAMPLES: list[Example] = [
    (amounts.LESS_OTHERS, "19032.26 2153.23 60 110.66 285.48 95", 2, "16327.89"),
    (amounts.LESS_OTHERS, "5", 2, "5.00"),
    (amounts.RISE, "65445 60000", 2, "5445.00"),
    (amounts.RISE, "60000 65445", 2, "0.00"),
    (amounts.LESS_FRACTION, "2675.92 0.296667", 2, "1882.06"),
    (crossing.CROSSED, "10000 0.9305 1.0956", 2, "11774.31"),
    (coverage.RATIO, "60000 65445", 6, "0.916800"),
    (coverage.RATIO, "70000 65445", 6, "1.000000"),
    (coverage.SHARE_UP_TO_WHOLE, "150000 200000 240000", 2, "125000.00"),
    (coverage.SHARE_UP_TO_WHOLE, "150000 300000 240000", 2, "150000.00"),
    (coverage.UNPAID_PERCENT, "0.714286", 1, "28.6"),
    (declining_balance.DECLINING_RATE, "1000 200 5 0.5", 2, "200.00"),
    (declining_balance.EVEN_REST, "288 2.5 1", 2, "115.20"),
    (depreciated_cost.USED_UP, "89 240 20", 6, "0.296667"),
    (depreciated_cost.USED_UP, "168 120 10", 6, "0.900000"),
    (depreciated_cost.USED_UP, "11 96 25", 6, "0.085938"),
    (depreciated_cost.USED_UP_YEARLY, "24 20 0", 6, "0.400000"),
    (depreciated_cost.USED_UP_YEARLY, "240 20 15", 6, "0.850000"),
    (depreciated_cost.DECLINED, "10000 20 25", 2, "6400.00"),
    (depreciated_cost.DECLINED, "10000 20 23", 2, "8000.00"),
    (inflation_guard.RAISED_BY_DAYS, "250000 4 200", 2, "255479.45"),
    (liquidation.UNITS_AT, "10 312.50 85", 2, "2656.25"),
    (net_proceeds.WORTH_TODAY, "16327.89 6 5", 2, "15929.65"),
    (net_proceeds.WORTH_TODAY, "-10 6 5", 2, "0.00"),
    (net_proceeds.WORTH_TODAY, "400.08 8 10", 2, "375.08"),
    (sets.SHARE_OF, "2900 15700 18500", 2, "3417.20"),
    (sets.DIFFERENCE_PLUS, "18500 12100 100", 2, "6500.00"),
]


@pytest.mark.parametrize(("operation", "arguments", "places", "result"), EXAMPLES)
def test_operation_gives_the_figure_worked_by_hand(
    operation: Operation, arguments: str, places: int | None, result: str
) -> None:
    assert_by_hand(operation, arguments, places, result)


@pytest.mark.office
def test_formulas_give_the_same_in_a_spreadsheet(tmp_path: Path) -> None:
    assert_in_a_spreadsheet(EXAMPLES, tmp_path)


def test_every_sentence_can_be_filled() -> None:
    assert_in_words(EXAMPLES)


def test_every_operation_declared_beside_a_method_has_an_example() -> None:
    shown = {operation.name for operation, *_ in EXAMPLES}
    declared = set()
    for package in (appraise.valuing.methods, appraise.schedule):
        for found in pkgutil.iter_modules(package.__path__):
            module = importlib.import_module(f"{package.__name__}.{found.name}")
            declared |= {
                name for name, operation in OPERATIONS.items() if operation.compute.__module__ == module.__name__
            }
    assert declared - shown == set()
