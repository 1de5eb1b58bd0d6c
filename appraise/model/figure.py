"""A figure, and the absence of one with its reasons."""

from datetime import date
from decimal import Decimal

from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.kinds import Kind
from appraise.model.place import Place

Value = Decimal | str | date


@frozen
class Figure:
    """One named figure with the way it came about.

    id         `item.line.name`, the same in cases, explanations, the JSON record and the proof
    kind       what it is, hence its decimals
    value      a decimal (most), a text or a day
    operation  name of the operation that made it; `typed` for what a person typed
    arguments  ids of the figures it was made from, in the order of the operation
    places     the cells it rests on directly (typed figures only)
    """

    id: str
    kind: Kind
    value: Value
    operation: str
    arguments: tuple[str, ...] = ()
    places: tuple[Place, ...] = ()

    @property
    def number(self) -> Decimal:
        """The value as a decimal; asking it of a text or a day is our own mistake."""
        if not isinstance(self.value, Decimal):
            raise TypeError(f"{self.id} is not a number: {self.value!r}")
        return self.value


@frozen
class NoFigure:
    """No figure, because of these root findings (at least one). All that depends on it carries the same ones."""

    because: tuple[Finding, ...]


Outcome = Figure | NoFigure
