"""What was worked out from named sales: landed costs of foreign quotations, effects of single features."""

import re
from collections.abc import Iterator, Mapping
from functools import partial

from appraise.model.figure import Outcome
from appraise.model.missing import given
from appraise.records.losses import PairedSale
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import measures
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Line, Row, Table
from appraise.valuing.matched_pairs import MEASURES, FeatureEffect
from appraise.valuing.working import Worked

_LANDED = (
    *("price", "freight", "transit_insurance", "cif", "duty", "entry_fee", "import_tax", "set_up", "setup_tax"),
    *("other", "total"),
)
#: Several costs of one kind are numbered from the second on.
_NUMBERED = re.compile(r"(.+?)[0-9]*")
_FORMS = dict(zip(MEASURES, (Form.PLAIN, Form.SIGNED_PERCENT, Form.SIGNED_PERCENT), strict=True))


def derived(context: Context) -> Chapter:
    """Return the section; without blocks where neither quotations are landed nor features measured."""
    uses = context.inputs.uses
    blocks = [_landed(context, sale, worked) for sale, worked in uses.landed]
    blocks += [_effect(context, one) for one in uses.effects]
    return Chapter(context.text("section.derived"), (context.text("derived.intro"),) if blocks else (), tuple(blocks))


def _landed(context: Context, sale_id: str, worked: Worked) -> Block:
    text, printer = context.text, context.printer
    sale = next(one for one in context.job.sales if one.id == sale_id)
    named = " ".join(str(one) for one in (sale.maker, sale.model) if given(one)) or text("common.not_stated")
    asked = text(
        "derived.asked",
        name=named,
        house=printer.shown(sale.house),
        price=f"{sale.currency} {printer.amount(sale.price)}" if given(sale.price) else text("common.not_stated"),
        day=printer.shown(sale.day),
    )
    names = [name for name in worked.figures if _base(name) in _LANDED]
    table = measures(
        context, partial(_label, context, worked.figures), text("derived.landed_caption"), worked.figures, names,
        strong=("cif", "total"),
    )  # fmt: skip
    costs = [one for one in context.job.costs if one.quotation == sale_id and given(one.source)]
    sources = dict.fromkeys((printer.shown(one.kind), str(one.source)) for one in costs)
    said = tuple(Line(kind, source) for kind, source in sources)
    return Block(text("derived.landed", quotation=sale_id), (asked,), said, (table,), text("derived.landed_note"))


def _base(name: str) -> str:
    found = _NUMBERED.fullmatch(name)
    return found[1] if found else name


def _label(context: Context, figures: Mapping[str, Outcome], name: str) -> str:
    """Return the name of a line, with the percent or the rate of exchange it was worked out by."""
    label, rate = context.text(f"landed.{_base(name)}"), figures.get(f"{name}_rate")
    if rate is None:
        return label
    if f"{name}_foreign" in figures:
        return context.text("landed.at_rate", label=label, rate=context.printer.printed(rate))
    return context.text("landed.at_percent", label=label, percent=context.printer.printed(rate, Form.PERCENT))


def _effect(context: Context, effect: FeatureEffect) -> Block:
    text, printer, figures = context.text, context.printer, effect.worked.figures
    rows = [_pair(context, pair, name, figures) for pair, name in effect.pairs]
    rows += _summed_up(context, figures)
    heads = (text("derived.alike"), text("derived.sales"))
    columns = tuple(text(f"derived.{one}") for one in ("better", "poorer", *MEASURES))
    caption = text("derived.pairs_caption", currency=printer.currency)
    said = (text("derived.effect_text", pairs=printer.printed(figures["pairs"])),)
    table = Table(caption, heads, tuple(rows), "", columns)
    return Block(text("derived.effect", element=effect.element), said, tables=(table,))


def _pair(context: Context, pair: PairedSale, name: str, figures: Mapping[str, Outcome]) -> Row:
    text, printer = context.text, context.printer
    alike = printer.shown(pair.remark) if given(pair.remark) else text("common.not_stated")
    told = alike if pair.weight != 0 else text("derived.left_out", alike=alike)
    sales = "\n".join(printer.shown(one) for one in (pair.better_source, pair.poorer_source))
    prices = (printer.amount(pair.better), printer.amount(pair.poorer))
    return Row((told, sales), (*prices, *_cells(context, figures, f"{name}_", "")))


def _summed_up(context: Context, figures: Mapping[str, Outcome]) -> Iterator[Row]:
    for end in ("mean", "low", "high"):
        if f"amount_{end}" in figures:
            cells = ("", "", *_cells(context, figures, "", f"_{end}"))
            yield Row((context.text(f"derived.{end}"), ""), cells, strong=end == "mean")


def _cells(context: Context, figures: Mapping[str, Outcome], before: str, behind: str) -> tuple[str, ...]:
    names = {measure: f"{before}{measure}{behind}" for measure in MEASURES}
    return tuple(
        context.printer.printed(figures[name], _FORMS[measure]) if name in figures else context.text("common.dash")
        for measure, name in names.items()
    )
