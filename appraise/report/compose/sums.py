"""Sums over the items: totals by type of value and by location, and the steps between two values of one item.

They are made through a ledger like every figure, so that the proof shows them under the same ids.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.kinds import Kind, money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import DIFFERENCE, SUM
from appraise.records.claims import Policy
from appraise.records.items import Item
from appraise.records.vocabulary import ValueType
from appraise.report.compose.inputs import Exposure, ItemResult, Over, Total
from appraise.valuing.result import Valuation

#: Types of value found in a market. A loss, a sum of the contract, what a sale would leave are no second value.
_SIDE_BY_SIDE = frozenset(
    {
        ValueType.FAIR_MARKET,
        ValueType.RETAIL_REPLACEMENT,
        ValueType.COMPARABLE_REPLACEMENT,
    }
)


@dataclass(slots=True)
class _Running:
    rounded: list[Figure] = field(default_factory=list)
    before: list[Figure] = field(default_factory=list)
    lacking: list[str] = field(default_factory=list)
    places: dict[str, list[Figure]] = field(default_factory=dict)
    concluded: list[tuple[Item, Figure]] = field(default_factory=list)
    largest: tuple[Figure, str] | None = None


def totals(
    ledger: Ledger,
    results: Iterable[ItemResult],
    value_types: Iterable[ValueType],
    left_out: frozenset[tuple[str, ValueType]],
    currency: str,
    policy: Policy | None = None,
) -> tuple[Total, ...]:
    """Return the totals for each type of value; a total sums what is concluded and names what it lacks.

    left_out  (item id, type of value) pairs that are expressly not valued: a total does not lack them
    policy    its terms where the use is insurance: the totals then say what an insurer asks of them
    """
    wanted = tuple(value_types)
    running = {value_type: _Running() for value_type in wanted}
    for result in results:
        by_type = {one.value_type: one for one in result.valuations}
        for value_type in wanted:
            _add(running[value_type], result, by_type.get(value_type), (str(result.item.id), value_type) in left_out)
    return tuple(
        _total(ledger.under(_key(value_type)), value_type, running[value_type], currency, policy)
        for value_type in wanted
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
    running.concluded.append((result.item, rounded))
    if running.largest is None or rounded.number > running.largest[0].number:
        running.largest = (rounded, str(result.item.id))


def _total(ledger: Ledger, value_type: ValueType, running: _Running, currency: str, policy: Policy | None) -> Total:
    kind = money(currency)
    total: Outcome = ledger.figure("total", kind, SUM, *running.rounded) if running.rounded else NoFigure(())
    before: Outcome = ledger.figure("before", kind, SUM, *running.before) if running.before else NoFigure(())
    difference = ledger.figure("difference", kind, DIFFERENCE, total, before)
    by_location = {
        place: ledger.figure(f"location{number}", kind, SUM, *figures)
        for number, (place, figures) in enumerate(running.places.items(), start=1)
    }
    largest = running.largest[1] if running.largest else ""
    exposure = None if policy is None else _exposure(ledger, running, kind, policy)
    return Total(value_type, total, difference, tuple(running.lacking), by_location, largest, exposure)


def _exposure(ledger: Ledger, running: _Running, kind: Kind, policy: Policy) -> Exposure:
    """Return what is kept away from the main location, and what is above the limit for one item."""
    stated = {place: len(figures) for place, figures in running.places.items() if place}
    most = max(stated, key=lambda place: stated[place]) if stated else ""
    main = policy.main_location if given(policy.main_location) else most
    # An item without a location is not known to be away; the checks ask where it is.
    away = [(one, figure) for one, figure in running.concluded if given(one.location) and one.location != main]
    value = ledger.figure("away", kind, SUM, *(figure for _one, figure in away)) if away else None
    cap = policy.item_cap
    over = tuple(one for one in _units(ledger, running, kind) if given(cap) and _above(one.value, cap))
    return Exposure(main, tuple(str(one.id) for one, _figure in away), value, over)


def _units(ledger: Ledger, running: _Running, kind: Kind) -> Iterator[Over]:
    """Yield the items as a limit for one item counts them: the pieces of a set are one."""
    sets: dict[str, list[tuple[Item, Figure]]] = {}
    for item, figure in running.concluded:
        sets.setdefault(f"set {item.set_id}" if given(item.set_id) else f"item {item.id}", []).append((item, figure))
    for members in sets.values():
        ids = tuple(str(item.id) for item, _figure in members)
        first, figure = members[0]
        if len(members) == 1:
            yield Over(ids, "", figure)
        else:
            name = str(first.set_id)
            yield Over(ids, name, ledger.figure(f"set_{name}", kind, SUM, *(one for _item, one in members)))


def _above(value: Outcome, cap: Decimal) -> bool:
    return isinstance(value, Figure) and value.number > cap


def _key(value_type: ValueType) -> str:
    return value_type.value.replace(" ", "_")


def bridged(valuations: Sequence[Valuation]) -> tuple[Valuation, Valuation] | None:
    """Return the two values that stand side by side, the one without tax and costs first; None unless there are two.

    They are the first two of the job that are found in a market; of two alike the first comes first.
    """
    beside = [one for one in valuations if one.value_type in _SIDE_BY_SIDE][:2]
    if len(beside) < 2:
        return None
    first, second = beside
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
