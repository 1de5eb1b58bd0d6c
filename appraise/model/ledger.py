"""The ledger: methods run against it one item at a time; it makes every figure and may remember them.

`Ledger` makes figures and forgets them (used by `check`: only the outcome matters). `RecordingLedger` keeps every
figure in order with its operation and arguments (used by `report`, `--explain` and the proof). The same method
code runs against either.
"""

from collections.abc import Iterable
from decimal import Decimal
from typing import Self

from appraise.model.figure import Figure, NoFigure, Outcome, Value
from appraise.model.finding import Finding
from appraise.model.kinds import TEXT, TYPED, Kind
from appraise.model.operations import Operation
from appraise.model.place import Place


class Ledger:
    """Makes figures under one scope, for example the item's id; keeps none of them."""

    __slots__ = ("scope",)

    def __init__(self, scope: str) -> None:
        self.scope = scope

    def under(self, name: str) -> Self:
        """Return a ledger for figures one level down: scope `G01` under `c1` is `G01.c1`."""
        return type(self)(f"{self.scope}.{name}")

    def typed(self, name: str, value: Value, *places: Place, kind: Kind = TYPED) -> Figure:
        """Return the figure for something a person typed, with the cells it was typed in."""
        return self.keep(Figure(f"{self.scope}.{name}", kind, value, "typed", (), places))

    def figure(self, name: str, kind: Kind, operation: Operation, *arguments: Outcome) -> Outcome:
        """Return `operation` of `arguments`, rounded once by `kind`; no figure if an argument is none.

        The reasons of all missing arguments are joined, each once, so that one missing input makes one finding.
        """
        numbers = []
        ids = []
        for argument in arguments:
            if isinstance(argument, NoFigure):
                return _joined(arguments)
            value = argument.value
            numbers.append(value if type(value) is Decimal else argument.number)
            ids.append(argument.id)
        result = operation.result(numbers, kind.places)
        return self.keep(Figure(f"{self.scope}.{name}", kind, result, operation.name, tuple(ids)))

    def note(self, name: str, value: Value, *, kind: Kind = TEXT, places: tuple[Place, ...] = ()) -> Figure:
        """Return a figure that is not a number: a day looked up, a yes or no, a word such as `tie`."""
        return self.keep(Figure(f"{self.scope}.{name}", kind, value, "noted", (), places))

    def keep(self, figure: Figure) -> Figure:
        """Take note of a figure. This ledger forgets it at once."""
        return figure


class RecordingLedger(Ledger):
    """Keeps every figure by id in the order in which it was made. One id is made once."""

    __slots__ = ("figures",)

    def __init__(self, scope: str, figures: dict[str, Figure] | None = None) -> None:
        super().__init__(scope)
        self.figures: dict[str, Figure] = {} if figures is None else figures

    def under(self, name: str) -> Self:
        return type(self)(f"{self.scope}.{name}", self.figures)

    def keep(self, figure: Figure) -> Figure:
        if figure.id in self.figures:
            raise ValueError(f"figure {figure.id} is made twice")
        self.figures[figure.id] = figure
        return figure


def no_figure(reasons: Iterable[Finding]) -> NoFigure:
    """Return "no figure" with each reason once, in the order first met."""
    return NoFigure(tuple(dict.fromkeys(reasons)))


def _joined(arguments: Iterable[Outcome]) -> NoFigure:
    return no_figure(reason for one in arguments if isinstance(one, NoFigure) for reason in one.because)


def number_of(outcome: Outcome) -> Decimal | None:
    """Return the number of an outcome, None where there is no figure."""
    return outcome.number if isinstance(outcome, Figure) else None
