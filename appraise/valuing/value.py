"""The one entry: values one item under one type of value, by the method declared for that type."""

import importlib
import pkgutil
from collections.abc import Callable, Mapping, Sequence
from functools import cache

from appraise.model.figure import NoFigure
from appraise.model.finding import Finding, finding
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.months import Months
from appraise.records.assignment import VALUE_TERMS, ValueTerms
from appraise.records.declare import place_of
from appraise.records.items import Item, Part
from appraise.records.market import OPINIONS, Comparison, Opinion, Sale
from appraise.records.vocabulary import ValueType
from appraise.valuing import methods
from appraise.valuing.conclusions import conclusion_of
from appraise.valuing.inputs import Inputs
from appraise.valuing.result import Valuation
from appraise.valuing.routes import route_of
from appraise.valuing.tables import JobTables

Method = Callable[[Inputs, Ledger], Valuation]
NO_WINDOWS: Mapping[str, Months] = {}


@cache
def methods_by_type() -> dict[ValueType, Method]:
    """Return the method of each type of value: modules of `methods` that name types in `VALUES` and have `value`."""
    found: dict[ValueType, Method] = {}
    for name in sorted(one.name for one in pkgutil.iter_modules(methods.__path__)):
        module = importlib.import_module(f"{methods.__name__}.{name}")
        for value_type in getattr(module, "VALUES", ()):
            if value_type in found:
                raise ValueError(f"two methods for {value_type.value}")
            found[value_type] = module.value
    return found


def value_item(
    tables: JobTables,
    item: Item,
    parts: Sequence[Part],
    comparisons: Sequence[Comparison],
    sales: Mapping[str, Sale],
    opinion: Opinion | None,
    terms: ValueTerms,
    window: Months | None,
    ledger: Ledger,
    *,
    sale_windows: Mapping[str, Months] = NO_WINDOWS,
) -> Valuation:
    """Return the opinion of one item under the type of value of `terms`.

    comparisons   those of this item and type of value
    sales         sales by id; more than are needed do no harm
    window        months of manufacture of the item (the outer window), None if it is not dated
    ledger        its scope is that of the opinion (`codes.scope_of`); a recording one keeps every figure
    sale_windows  months of manufacture by sale id, for the model period
    An item that is not valued under this type, with the reason typed, gives no figure because of that; so does a
    type of value without a method of its own.
    """
    inputs = Inputs(
        tables=tables,
        item=item,
        terms=terms,
        parts=parts,
        comparisons=comparisons,
        sales=sales,
        opinion=opinion,
        window=window,
        sale_windows=sale_windows,
    )
    return value_inputs(inputs, ledger)


def value_inputs(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the opinion that these inputs give; see `value_item`."""
    opinion = inputs.opinion
    if opinion is not None and given(opinion.not_valued):
        place = place_of(OPINIONS, opinion, "not_valued")
        return _without_value(inputs, finding("VAL-50", place, inputs.item_id, found=opinion.not_valued))
    method = methods_by_type().get(inputs.value_type)
    if method is None:
        place = place_of(VALUE_TERMS, inputs.terms, "value_type")
        return _without_value(inputs, finding("VAL-51", place, inputs.item_id, found=inputs.value_type.value))
    return method(inputs, ledger)


def _without_value(inputs: Inputs, because: Finding) -> Valuation:
    reason = NoFigure((because,))
    return Valuation(
        item=inputs.item_id,
        value_type=inputs.value_type,
        route=route_of(inputs),
        conclusion=conclusion_of(inputs),
        subject={},
        comparisons=(),
        figures={},
        value=reason,
        rounded=reason,
        findings=reason.because,
    )
