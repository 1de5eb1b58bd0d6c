"""From a method's figures to the opinion that stands in the report."""

from appraise.model.figure import NoFigure, Outcome
from appraise.model.finding import finding
from appraise.model.place import Place
from appraise.records.declare import Sheet
from appraise.records.vocabulary import Conclusion, Route, ValueType
from appraise.valuing.inputs import Inputs
from appraise.valuing.result import Valuation
from appraise.valuing.working import Worked


def opinion_of(inputs: Inputs, worked: Worked, value: str, rounded: str) -> Valuation:
    """Return the opinion that a method's figures make: the names of the value before and after rounding."""
    return Valuation(
        item=inputs.item_id,
        value_type=inputs.value_type,
        route=Route.ADJUSTED,
        conclusion=Conclusion.MEAN,
        subject={},
        comparisons=(),
        figures=worked.figures,
        value=worked[value],
        rounded=worked[rounded],
        findings=worked.findings,
    )


def without_row(inputs: Inputs, code: str, sheet: Sheet) -> Valuation:
    """Return an opinion without a figure: the item has no row on the sheet that its type of value rests on."""
    reason = finding(code, Place(sheet.name), inputs.item_id, found=inputs.item_id, value_type=inputs.value_type.value)
    refused = NoFigure((reason,))
    return opinion_of(inputs, Worked({"value": refused}, refused.because), "value", "value")


def concluded_value(inputs: Inputs, *, rounded: bool) -> Outcome | None:
    """Return the item's fair market value as concluded before, so far as its job states one; else None."""
    market = inputs.concluded.get(ValueType.FAIR_MARKET)
    if market is None:
        return None
    return market.rounded if rounded else market.value
