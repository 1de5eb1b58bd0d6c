"""Operations worked by hand: what each example must give, in Decimal and in a spreadsheet."""

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from support.office import recalculated

from appraise.model.operations import Operation

#: Operation, arguments, decimals, result.
Example = tuple[Operation, str, int | None, str]


def figures(text: str) -> list[Decimal]:
    """Return numbers written with spaces between."""
    return [Decimal(word) for word in text.split()]


def assert_by_hand(operation: Operation, arguments: str, places: int | None, result: str) -> None:
    """The Decimal function gives the figure worked by hand, digit for digit."""
    assert str(operation.result(figures(arguments), places)) == result


def assert_in_a_spreadsheet(examples: Sequence[Example], folder: Path) -> None:
    """The formulas give the same where LibreOffice computes them."""
    rows = []
    for operation, arguments, places, _ in examples:
        values = figures(arguments)
        cells = [f"{{{index}}}" for index in range(len(values))]
        rows.append((operation.rounded_formula(cells, places), values))
    assert recalculated(rows, folder) == [Decimal(result) for *_, result in examples]


def assert_in_words(examples: Sequence[Example]) -> None:
    """The sentences take the arguments and leave no gap."""
    for operation, arguments, *_ in examples:
        words = operation.words(arguments.split())
        assert arguments.split()[0] in words
        assert "{" not in words
