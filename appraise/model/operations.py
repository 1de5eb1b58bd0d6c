"""The closed list of operations by which figures are made.

Each operation is declared once, with its Decimal function, its spreadsheet formula and its sentence; the proof
workbook and the explanations are derived from this list. A module that needs an operation of its own adds it
here, in the file of its topic; two operations with one name are an error at import.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from appraise.model.rounding import EXACT, round_half_away

Numbers = Sequence[Decimal]
#: From the argument values and the decimals of the result (None = exact) to the unrounded result.
Compute = Callable[[Numbers, int | None], Decimal]
#: From the cell references of the arguments and the decimals of the result to the formula, unrounded, without "=".
Formula = Callable[[Sequence[str], int | None], str]


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation: name, sentence (with {0}, {1} for the arguments), Decimal function, spreadsheet formula."""

    name: str
    sentence: str
    compute: Compute
    formula: Formula

    def result(self, values: Numbers, places: int | None) -> Decimal:
        """Return the result rounded once to `places` decimals (None: exact)."""
        with localcontext(EXACT):
            exact = self.compute(values, places)
        return exact if places is None else round_half_away(exact, places)

    def rounded_formula(self, references: Sequence[str], places: int | None) -> str:
        """Return the spreadsheet formula with its rounding.

        Spreadsheets compute in binary: an exact product is rounded to 8 decimals first, so that a tie is a tie.
        """
        inner = self.formula(references, places)
        return inner if places is None else f"ROUND(ROUND({inner},8),{places})"


OPERATIONS: dict[str, Operation] = {}


def operation(name: str, sentence: str, formula: Formula) -> Callable[[Compute], Operation]:
    """Declare an operation by decorating its Decimal function."""

    def declare(compute: Compute) -> Operation:
        if name in OPERATIONS:
            raise ValueError(f"operation {name} is declared twice")
        OPERATIONS[name] = Operation(name, sentence, compute, formula)
        return OPERATIONS[name]

    return declare


@operation("typed", "as typed", lambda refs, places: refs[0])
def TYPED_IN(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return values[0]
