"""Money and day limits set by law, each value with the days it holds."""

from datetime import date
from decimal import Decimal
from functools import cache

from appraise.model.frozen import frozen
from appraise.rules.cited import Citation, citation_from, tables_in


@frozen
class Threshold:
    """One limit as it stands on a day.

    figure     the limit, in `unit`
    inclusive  True: reached by an amount equal to it ("or more"); False: only by a larger one ("more than")
    """

    name: str
    statement: str
    unit: str
    figure: Decimal
    inclusive: bool
    citation: Citation

    def reached(self, amount: Decimal) -> bool:
        """Whether `amount`, in the unit of the limit, reaches it."""
        return amount > self.figure or (self.inclusive and amount == self.figure)


class NotInForce(ValueError):
    """No value of the rule holds on the day asked for; the message names the days covered."""


def threshold(name: str, day: date) -> Threshold:
    """Return the limit `name` as it stands on `day`.

    An unknown name is our own mistake (KeyError). A day on which nothing holds raises NotInForce.
    """
    values = _thresholds()[name]
    for one in values:
        if one.citation.holds_on(day):
            return one
    covered = "; ".join(f"{one.citation.valid_from or 'open'} to {one.citation.valid_to or 'open'}" for one in values)
    raise NotInForce(f"No value of the rule '{name}' holds on {day}. Days covered: {covered}.")


@cache
def _thresholds() -> dict[str, tuple[Threshold, ...]]:
    found: dict[str, tuple[Threshold, ...]] = {}
    for _file, content in tables_in("thresholds"):
        for name, rule in content.items():
            found[name] = tuple(
                Threshold(
                    name=name,
                    statement=rule["statement"],
                    unit=rule["unit"],
                    figure=Decimal(fields["figure"]),
                    inclusive=fields["inclusive"],
                    citation=citation_from(dict(fields)),
                )
                for fields in rule["value"]
            )
    return found
