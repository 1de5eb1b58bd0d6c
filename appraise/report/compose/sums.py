"""Sums over the items: totals by type of value and by location, and the steps between two values of one item.

They are made through a ledger like every figure, so that the proof shows them under the same ids.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import DIFFERENCE, SUM
from appraise.records.vocabulary import ValueType
from appraise.report.compose.inputs import ItemResult, Total
from appraise.valuing.result import Valuation


@dataclass(slots=True)
class _Running:
    rounded: list[Figure] = field(default_factory=list)
    before: list[Figure] = field(default_factory=list)
    lacking: list[str] = field(default_factory=list)
    places: dict[str, list[Figure]] = field(default_factory=dict)
    largest: tuple[Figure, str] | None = None


def totals(
    ledger: Ledger,
    results: Iterable[ItemResult],
    value_types: Iterable[ValueType],
    left_out: frozenset[tuple[str, ValueType]],
    currency: str,
) -> tuple[Total, ...]:
    """Return the totals for each type of value; a total sums what is concluded and names what it lacks.

    left_out  (item id, type of value) pairs that are expressly not valued: a total does not lack them
    """
    wanted = tuple(value_types)
    running = {value_type: _Running() for value_type in wanted}
    for result in results:
        by_type = {one.value_type: one for one in result.valuations}
        for value_type in wanted:
            _add(running[value_type], result, by_type.get(value_type), (str(result.item.id), value_type) in left_out)
    return tuple(
        _total(ledger.under(_key(value_type)), value_type, running[value_type], currency) for value_type in wanted
    )


def _add(running: _Running, result: ItemResult, valuation: Valuation | None, left_out: bool) -> None:
    rounded = valuation.rounded if valuation else None
    if not isinstance(rounded, Figure):
        if not left_out:
            running.lacking.append(str(result.item.id))
        return
    running.rounded.append(rounded)
    if valuation and isinstance(valuation.value, Figure):
        running.before.append(valuation.value)
    location = result.item.location if given(result.item.location) else ""
    running.places.setdefault(location, []).append(rounded)
    if running.largest is None or rounded.number > running.largest[0].number:
        running.largest = (rounded, str(result.item.id))


def _total(ledger: Ledger, value_type: ValueType, running: _Running, currency: str) -> Total:
    kind = money(currency)
    total: Outcome = ledger.figure("total", kind, SUM, *running.rounded) if running.rounded else NoFigure(())
    before: Outcome = ledger.figure("before", kind, SUM, *running.before) if running.before else NoFigure(())
    difference = ledger.figure("difference", kind, DIFFERENCE, total, before)
    by_location = {
        place: ledger.figure(f"location{number}", kind, SUM, *figures)
        for number, (place, figures) in enumerate(running.places.items(), start=1)
    }
    largest = running.largest[1] if running.largest else ""
    return Total(value_type, total, difference, tuple(running.lacking), by_location, largest)


def _key(value_type: ValueType) -> str:
    return value_type.value.replace(" ", "_")


def bridged(valuations: Sequence[Valuation]) -> tuple[Valuation, Valuation] | None:
    """Return the two values that stand side by side, the one without tax and costs first; None unless there are two.

    They are the first two of the job; of two alike the first comes first.
    """
    if len(valuations) < 2:
        return None
    first, second = valuations[:2]
    return (second, first) if "base" in first.figures and "base" not in second.figures else (first, second)


def bridge(ledger: Ledger, valuations: Sequence[Valuation], currency: str) -> Mapping[str, Outcome]:
    """Return the steps from one value of an item to another, before rounding, by name; empty without two values.

    market  from the first value to the second's price before tax and costs (market and price basis together)
    tax     sales tax in the second, absent where it has none
    costs   everything else added to that price, absent where nothing was added

    One of them without a figure gives steps without figures.
    """
    pair = bridged(valuations)
    if pair is None:
        return {}
    first, second = pair
    kind = money(currency)
    base = second.figures.get("base", second.value)
    tax = second.figures.get("sales_tax")
    steps: dict[str, Outcome] = {"market": ledger.figure("market", kind, DIFFERENCE, base, first.value)}
    if "base" not in second.figures:
        return steps
    if tax is not None:
        steps["tax"] = tax
    added = ledger.figure("added", kind, DIFFERENCE, second.value, base)
    steps["costs"] = ledger.figure("costs", kind, DIFFERENCE, added, tax) if tax is not None else added
    return steps
