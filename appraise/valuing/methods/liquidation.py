"""Orderly and forced liquidation values of lots of equal units (method rule R17).

How fast a market takes many alike is a matter of proof, never a standing percent. In US tax law see Estate of Smith
v. Commissioner, 57 T.C. 650 (1972), and Calder v. Commissioner, 85 T.C. 713 (1985); UK inheritance tax allows no
such reduction (Inheritance Tax Act 1984, section 160). Neither figure is fair market value.
"""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import COUNT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.model.operations import (
    LESS_PERCENT,
    PERCENT_OF,
    PRODUCT,
    SUM,
    Numbers,
    operation,
)
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.selling import (
    ABSORPTION,
    LIQUIDATION,
    LIQUIDATION_TERMS,
    Absorption,
    LiquidationLot,
    LiquidationTerms,
)
from appraise.records.vocabulary import ValueType
from appraise.valuing.amounts import LESS_OTHERS
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.inputs import Inputs
from appraise.valuing.opinions import concluded_value, opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.working import Worked, Working

VALUES = (ValueType.ORDERLY_LIQUIDATION, ValueType.FORCED_LIQUIDATION)


ZERO = Decimal(0)


@operation("units at percent", "{0} × {1} × {2} %", lambda refs, places: f"{refs[0]}*{refs[1]}*{refs[2]}/100")
def UNITS_AT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Units, value of one, percent of it."""
    return values[0] * values[1] * values[2] / 100


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the liquidation value of an item from its lots, to the cent: only the total of the sale is rounded."""
    lots = inputs.uses.lots.get(inputs.item_id, ())
    if not lots:
        return without_row(inputs, "NET-08", LIQUIDATION)
    currency = inputs.tables.currency
    if not given(currency):
        return without_row(inputs, "NET-09", ASSIGNMENT)
    work = Working(ledger, "NET-01", inputs.item_id)
    name = "orderly" if inputs.value_type is ValueType.ORDERLY_LIQUIDATION else "forced_net"
    parts = []
    for number, lot in enumerate(lots, start=1):
        worked = liquidation_lot(
            ledger if len(lots) == 1 else ledger.under(f"lot{number}"),
            lot,
            inputs.uses.liquidation_terms,
            absorption=inputs.uses.absorption.get(lot.id, ()) if given(lot.id) else (),
            unit_value=concluded_value(inputs, rounded=True),
            currency=currency,
        )
        parts.append(worked[name])
        work.figures.update(worked.figures)
        work.findings.extend(worked.findings)
    work.figure("value", money(currency), SUM, *parts)
    return opinion_of(inputs, work.done(), "value", "value")


def liquidation_lot(
    ledger: Ledger,
    lot: LiquidationLot,
    terms: LiquidationTerms,
    *,
    absorption: Sequence[Absorption],
    unit_value: Outcome | None = None,
    currency: str,
) -> Worked:
    """Return both liquidation values of one lot, net of selling cost, to the cent.

    `absorption` are the lot's own rows in the order typed (none: all at full value); `unit_value` is the value
    concluded in the workbook, used where none is typed. Figures: fmv_sum, absorbed, after_discount (gross),
    selling_cost, holding_cost, orderly; forced_hammer (gross), forced_net.
    """
    cash = money(currency)
    work = Working(ledger, "NET-01", lot.id)
    units = work.cell(LIQUIDATION, lot, "units", kind=COUNT)
    one = _unit_value(work, lot, unit_value)
    work.figure("fmv_sum", cash, PRODUCT, units, one)
    absorbed = _absorbed(work, lot, absorption, one, currency=currency)
    discount = work.cell(LIQUIDATION_TERMS, terms, "discount")
    discounted = work.figure("after_discount", cash, LESS_PERCENT, absorbed, discount)
    selling = work.cell(LIQUIDATION_TERMS, terms, "selling")
    selling_cost = work.figure("selling_cost", cash, PERCENT_OF, discounted, selling)
    holding = work.cell(LIQUIDATION, lot, "holding", blank=ZERO)
    months = work.cell(LIQUIDATION_TERMS, terms, "months")
    holding_cost = work.figure("holding_cost", cash, PRODUCT, holding, months)
    orderly = work.figure("orderly", cash, LESS_OTHERS, discounted, selling_cost, holding_cost)
    if isinstance(orderly, Figure) and orderly.number <= 0:
        work.find("NET-02", place_of(LIQUIDATION, lot, "id"), found=str(orderly.number))
    forced = work.cell(LIQUIDATION, lot, "forced")
    hammer = work.figure("forced_hammer", cash, UNITS_AT, units, one, forced)
    commission = work.cell(LIQUIDATION_TERMS, terms, "commission")
    work.figure("forced_net", cash, LESS_PERCENT, hammer, commission)
    return work.done()


def _unit_value(work: Working, lot: LiquidationLot, concluded: Outcome | None) -> Outcome:
    if not given(lot.unit_value) and concluded is not None:
        return work.keep("unit_value", concluded)
    return work.cell(LIQUIDATION, lot, "unit_value")


def _absorbed(
    work: Working, lot: LiquidationLot, absorption: Sequence[Absorption], one: Outcome, *, currency: str
) -> Outcome:
    """Return the sum over the groups of units, each group's amount rounded; the last may be "all the rest"."""
    if not given(lot.units):
        return work.keep("absorbed", work.lacking(LIQUIDATION, lot, "units"))
    if not absorption:
        return work.figure("absorbed", money(currency), PRODUCT, work.figures["units"], one)
    groups: list[Outcome] = []
    counts: list[Outcome] = []
    for number, group in enumerate(absorption, start=1):
        units = _group_units(work, lot, group, counts, number=number)
        counts.append(units)
        percent = work.cell(ABSORPTION, group, "percent", name=f"group{number}_percent")
        groups.append(work.figure(f"group{number}", money(currency), UNITS_AT, units, one, percent))
    # Groups typed for more units than the lot has leave a rest below zero, which would make the sum fit.
    typed = sum((one.number for one in counts if isinstance(one, Figure) and one.number > 0), ZERO)
    if typed != lot.units and all(isinstance(one, Figure) for one in counts):
        place = place_of(ABSORPTION, absorption[-1], "units")
        return work.refuse("absorbed", "NET-03", place, found=str(typed), units=lot.units)
    return work.figure("absorbed", money(currency), SUM, *groups)


def _group_units(
    work: Working, lot: LiquidationLot, group: Absorption, before: Sequence[Outcome], *, number: int
) -> Outcome:
    """Return the units of one group: as typed, or all that the groups before it left."""
    name = f"group{number}_units"
    if group.units is Missing.BLANK:
        return work.figure(name, COUNT, LESS_OTHERS, work.figures["units"], *before)
    return work.cell(ABSORPTION, group, "units", name=name, kind=COUNT)


def totals(ledger: Ledger, lots: Sequence[Worked], terms: LiquidationTerms, *, currency: str) -> Worked:
    """Return what the whole would bring: orderly_total, forced_total, each rounded once by the scale.

    Fixed costs go off the forced total once, not lot by lot.
    """
    cash = money(currency)
    work = Working(ledger, "NET-01")
    orderly = work.figure("orderly_total", cash, SUM, *(lot["orderly"] for lot in lots))
    forced_sum = work.figure("forced_sum", cash, SUM, *(lot["forced_net"] for lot in lots))
    fixed = work.cell(LIQUIDATION_TERMS, terms, "fixed_costs", blank=ZERO)
    forced = work.figure("forced_total", cash, LESS_OTHERS, forced_sum, fixed)
    rounded_by_scale(work, "orderly_rounded", orderly, orderly, currency)
    rounded_by_scale(work, "forced_rounded", forced, forced, currency)
    return work.done()
