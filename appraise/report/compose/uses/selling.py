"""What a sale would leave: marketable cash values, and the liquidation of the whole in good order or at once."""

from collections.abc import Mapping
from functools import partial

from appraise.model.figure import Outcome
from appraise.model.missing import given, value_or
from appraise.records.declare import filled
from appraise.records.selling import LiquidationTerms, Proceeds
from appraise.records.vocabulary import SaleRoute, ValueType
from appraise.report.compose.context import Context, item_key
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import lines, measures
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Line, Row, Table

_NET = ("price", "hammer", "charges", "tax_on_charges", "loss_cover", "untaxed_costs", "net", "value_rounded")
_LOT = ("fmv_sum", "absorbed", "after_discount", "orderly", "forced_hammer", "forced_net")
_TOTALS = ("orderly_total", "orderly_rounded", "forced_sum", "fixed_costs", "forced_total", "forced_rounded")


def proceeds(context: Context) -> Chapter:
    """Return the marketable cash values with every cost of sale; without blocks where none is stated."""
    text, printer = context.text, context.printer
    heading = text("section.proceeds")
    told: Mapping[object, Proceeds] = {one.item: one for one in context.job.proceeds}
    rows = []
    for number, one in enumerate(context.summaries, start=1):
        figures = one.worked.get(ValueType.MARKETABLE_CASH)
        if not figures:
            continue
        line = told.get(one.item.id)
        route = printer.shown(value_or(line.route, SaleRoute.AUCTION)) if line is not None else text("common.dash")
        amounts = tuple(_amount(context, figures.get(key)) for key in _NET)
        rows.append(Row((context.title(one.item.id), route), amounts, key=item_key(number)))
    if not rows:
        return Chapter(heading, (), ())
    total = context.inputs.uses.proceeds
    if total is not None:
        rows.append(
            Row(
                (text("common.total"), ""),
                (*("",) * (len(_NET) - 1), _amount(context, total["total_of_rounded"])),
                strong=True,
            )
        )
    heads = tuple(text(f"selling.{key}") for key in _NET)
    table = Table(text("selling.caption"), (text("head.item"), text("selling.route")), tuple(rows), "", heads)
    sources = dict.fromkeys(str(one.source) for one in told.values() if given(one.source))
    terms = tuple(Line(text("selling.source"), one) for one in sources)
    return Chapter(heading, (text("selling.intro"),), (Block("", lines=terms, tables=(table,)),))


def _amount(context: Context, outcome: Outcome | None) -> str:
    return context.text("common.dash") if outcome is None else context.printer.printed(outcome, Form.WHOLE_PLAIN)


def liquidation(context: Context) -> Chapter:
    """Return the sale of the whole, lot by lot; without blocks where no lot is typed."""
    text, printer = context.text, context.printer
    heading, found = text("section.liquidation"), context.inputs.uses.liquidation
    if found is None:
        return Chapter(heading, (), ())
    lots, totals = found
    rows = tuple(
        Row(
            (printer.shown(lot.id), context.title(lot.item), printer.shown(lot.units)),
            tuple(_amount(context, worked.figures.get(key)) for key in _LOT),
        )
        for lot, worked in zip(context.job.liquidation, lots, strict=True)
    )
    heads = (text("liquidation.lot"), text("head.item"), text("liquidation.units"))
    table = Table(text("liquidation.caption"), heads, rows, "", tuple(text(f"liquidation.{key}") for key in _LOT))
    whole = measures(
        context,
        partial(_label, context),
        text("liquidation.totals_caption"),
        totals.figures,
        _TOTALS,
        strong=("orderly_rounded", "forced_rounded"),
    )
    blocks = [Block("", lines=_terms(context), tables=(table, *_absorption(context), whole))]
    return Chapter(heading, (text("liquidation.intro"), text("liquidation.not_market")), tuple(blocks))


def _terms(context: Context) -> tuple[Line, ...]:
    terms, printer = context.job.liquidation_terms, context.printer
    if terms == filled(LiquidationTerms):
        return ()
    typed = (
        ("liquidation.months", printer.cell(terms.months)),
        ("liquidation.discount", printer.percent(terms.discount)),
        ("liquidation.selling", printer.percent(terms.selling)),
        ("liquidation.commission", printer.percent(terms.commission)),
        ("liquidation.reason", printer.cell(terms.reason)),
    )
    return lines(context, typed)


def _absorption(context: Context) -> tuple[Table, ...]:
    text, printer = context.text, context.printer
    rows = tuple(
        Row(
            (
                printer.shown(one.lot),
                printer.cell(one.units) or text("liquidation.rest"),
                printer.shown(one.reason),
            ),
            (printer.percent(one.percent),),
        )
        for one in context.job.absorption
    )
    if not rows:
        return ()
    heads = (text("liquidation.lot"), text("liquidation.units"), text("head.reason"))
    return (Table(text("liquidation.absorption_caption"), heads, rows, "", (text("liquidation.percent"),)),)


def _label(context: Context, name: str) -> str:
    return context.text(f"liquidation.{name}")
