"""One opinion: comparisons, reasons, reconciliation, chart, the figure and its range; and two opinions side by side."""

from collections.abc import Iterator

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.missing import given
from appraise.records.assignment import ValueTerms
from appraise.records.items import Item
from appraise.records.market import Opinion
from appraise.records.vocabulary import Conclusion, PriceKind, Route
from appraise.report.compose.context import BY_OTHER_METHODS, CONTRACT, ELSEWHERE, Context, capital, closed
from appraise.report.compose.inputs import ItemResult
from appraise.report.compose.item.grid import grids, reasons_table, sales_table, step_label
from appraise.report.compose.printing import Form
from appraise.report.compose.sums import bridged
from appraise.report.engine.views import Line as ChartLine
from appraise.report.engine.views import PriceChart
from appraise.report.item_view import OpinionView
from appraise.report.view_parts import Passage, Row, Table
from appraise.valuing.result import ComparisonResult, Valuation

#: Figures told in sentences or elsewhere, not as rows of the reconciliation table.
_TOLD = frozenset({"median_kind", "value_rounded", "low_rounded", "high_rounded"}) | {
    "index_valuation",
    "without_later",
    "first_month",
    "last_month",
}
#: Typed figures that belong in the table: without them a step there cannot be redone.
_TYPED_ROWS = ("_rate", "_least", "_most")


def opinion_view(context: Context, item: Item, valuation: Valuation, named: str) -> OpinionView:
    """Return one opinion of value with all that led to it."""
    text = context.text
    name = context.words.word(valuation.value_type)
    typed = context.opinions.get((str(item.id), valuation.value_type))
    label = text("opinion.opinion_label", value_type=name)
    if typed is not None and given(typed.not_valued):
        return _left_out(context, name, typed, label)
    if valuation.value_type in BY_OTHER_METHODS and not valuation.comparisons:
        return _by_other_method(context, valuation, typed, named, name)
    return OpinionView(
        heading=text("opinion.heading", value_type=capital(name)),
        intro=tuple(_intro(context, item, valuation)),
        sales=sales_table(context, valuation, named),
        grids=grids(context, valuation, named),
        reasons=reasons_table(context, valuation),
        notes=tuple(_notes(context, valuation)),
        reconciliation_heading=text("part.reconciliation"),
        reconciliation=tuple(_reconciliation(context, valuation, typed)),
        results=_results(context, valuation, named, name),
        chart=_chart(context, valuation, named, name),
        opinion_label=label,
        opinion=context.printer.printed(valuation.rounded, Form.WHOLE),
        opinion_note=_range(context, valuation),
    )


def _by_other_method(
    context: Context, valuation: Valuation, typed: Opinion | None, named: str, name: str
) -> OpinionView:
    """Return an opinion that does not rest on comparisons: how it came about, its figures unless a section has them."""
    text, kind = context.text, valuation.value_type
    said = []
    if isinstance(valuation.value, NoFigure):
        reasons = context.printer.reasons(valuation.value.because)
        said.append(text("opinion.not_concluded_because", reasons=reasons or text("common.not_stated")))
    if typed is not None and given(typed.reconciliation):
        said.append(closed(typed.reconciliation))
    if typed is not None and given(typed.source):
        said.append(text("opinion.source", source=closed(typed.source)))
    contract = kind in CONTRACT
    return OpinionView(
        heading=text("opinion.heading", value_type=capital(name)),
        intro=(text(f"by_method.{kind.name.lower()}"),),
        sales=None,
        grids=(),
        reasons=None,
        notes=(),
        reconciliation_heading=text("part.reconciliation") if said else "",
        reconciliation=tuple(said),
        results=None if kind in ELSEWHERE or contract else _results(context, valuation, named, name),
        chart=None,
        opinion_label=text("opinion.contract_label" if contract else "opinion.opinion_label", value_type=name),
        opinion=context.printer.printed(valuation.rounded, Form.WHOLE),
        opinion_note="",
    )


def missing_opinion(context: Context, item: Item, terms: ValueTerms) -> OpinionView:
    """Return the place of an opinion that was not developed, with the reason if one was typed."""
    assert given(terms.value_type)
    name = context.words.word(terms.value_type)
    typed = context.opinions.get((str(item.id), terms.value_type))
    label = context.text("opinion.opinion_label", value_type=name)
    if typed is not None and given(typed.not_valued):
        return _left_out(context, name, typed, label)
    note = context.text("opinion.none")
    return _empty(context, name, (note,), label, context.text("common.not_concluded"))


def _left_out(context: Context, name: str, typed: Opinion, label: str) -> OpinionView:
    said = context.text("opinion.not_valued", value_type=name, reason=_inside(context.printer.shown(typed.not_valued)))
    return _empty(context, name, (said,), label, context.text("opinion.not_stated"))


def _empty(context: Context, name: str, intro: tuple[str, ...], label: str, opinion: str) -> OpinionView:
    heading = context.text("opinion.heading", value_type=capital(name))
    return OpinionView(heading, intro, None, (), None, (), "", (), None, None, label, opinion, "")


def _intro(context: Context, item: Item, valuation: Valuation) -> Iterator[str]:
    count = str(len(valuation.comparisons))
    if valuation.route is Route.SHORT:
        yield context.text("opinion.short_intro")
    elif not valuation.comparisons:
        yield context.text("opinion.no_comparisons")
    else:
        yield context.text(f"opinion.{valuation.route.value}_intro", count=count)
    facts = []
    if given(item.grade) and valuation.comparisons:
        facts.append(
            context.text(
                "opinion.subject_fact", name=context.text("subject.grade"), figure=context.printer.shown(item.grade)
            )
        )
    for name, outcome in valuation.subject.items():
        if not _is_computed(outcome) and name != "scale_value":
            continue
        form = Form.NUMBER if name in ("originality", "scale_value") else Form.PLAIN
        label = context.text(f"subject.{name}") if context.words.has(f"subject.{name}") else step_label(context, name)
        facts.append(context.text("opinion.subject_fact", name=label, figure=context.printer.printed(outcome, form)))
    if facts:
        yield context.text("opinion.subject", facts="; ".join(facts))


def _notes(context: Context, valuation: Valuation) -> Iterator[str]:
    """Yield what a reader must not overlook about single comparisons."""
    text, printer = context.text, context.printer
    if any(given(one.comparison.level) and one.comparison.level != 0 for one in valuation.comparisons):
        yield text("opinion.level_note")
    for one in valuation.comparisons:
        name = printer.shown(one.comparison.id)
        if isinstance(one.adjusted, NoFigure) and valuation.route is Route.ADJUSTED:
            reasons = printer.reasons(one.adjusted.because) or text("common.not_stated")
            yield text("opinion.refused", name=name, reasons=reasons)
        elif not one.used and valuation.route is Route.ADJUSTED:
            yield text("opinion.not_used", name=name, reason=_inside(printer.shown(one.comparison.weight_reason)))
        yield from _marked(context, one, name)


def _marked(context: Context, result: ComparisonResult, name: str) -> Iterator[str]:
    sale, effective = result.sale, context.job.assignment.effective_date
    if sale is None:
        return
    reason = _inside(context.printer.shown(result.comparison.use_reason))
    if sale.kind is PriceKind.ASKING and result.used:
        yield context.text("opinion.asking", name=name, reason=reason)
    if given(sale.day) and given(effective) and sale.day > effective:
        yield context.text("opinion.after_date", name=name, reason=reason)
    if sale.is_subject is True:
        yield context.text("opinion.is_subject", name=name)


def _reconciliation(context: Context, valuation: Valuation, typed: Opinion | None) -> Iterator[str]:
    """Yield how the conclusion came about, then the appraiser's own words."""
    if isinstance(valuation.value, NoFigure):
        reasons = context.printer.reasons(valuation.value.because)
        yield context.text("opinion.not_concluded_because", reasons=reasons or context.text("common.not_stated"))
    else:
        yield _concluded(context, valuation, typed)
    yield from _beside(context, valuation)
    if typed is not None and given(typed.reconciliation):
        yield closed(typed.reconciliation)
    if typed is not None and given(typed.source):
        yield context.text("opinion.source", source=closed(typed.source))
    if "base" in valuation.figures:
        yield context.text("opinion.build_up_intro" if _built_up(valuation) else "opinion.build_up_none")


def _beside(context: Context, valuation: Valuation) -> Iterator[str]:
    """Yield the values that stand beside the opinion: without later evidence, and for the ends of the window."""
    figures, printer = valuation.figures, context.printer
    what = "opinion.of_base" if "base" in figures else "opinion.of_value"
    said = context.text(what)
    if "without_later" in figures:
        yield context.text(
            "opinion.without_later", what=said, value=printer.printed(figures["without_later"], Form.WHOLE)
        )
    if "first_month" in figures and "last_month" in figures:
        first, last = (printer.printed(figures[key], Form.WHOLE) for key in ("first_month", "last_month"))
        if first == last:
            yield context.text("opinion.ends_same", what=said, value=first)
        else:
            yield context.text("opinion.ends_of_window", what=said, first=first, last=last)


def _concluded(context: Context, valuation: Valuation, typed: Opinion | None) -> str:
    printer, figures = context.printer, valuation.figures
    base = figures.get("base", valuation.value)
    value = printer.printed(base, Form.MONEY)
    why = typed.typed_reason if typed is not None else None
    reason = closed(printer.shown(why) if why is not None else context.text("common.not_stated"))
    if valuation.route is Route.SHORT:
        return context.text("opinion.concluded_short", value=value, reason=reason)
    if valuation.route is Route.RELATIVE:
        return context.text("opinion.concluded_relative", value=value, reason=reason)
    mean, median = _money(context, figures.get("mean")), _money(context, figures.get("median"))
    if valuation.conclusion is Conclusion.TYPED:
        return context.text("opinion.concluded_typed", value=value, mean=mean, median=median, reason=reason)
    if valuation.conclusion is Conclusion.MEAN:
        return context.text("opinion.concluded_mean", value=value, other=median)
    said = context.text("opinion.concluded_median", value=value, other=mean)
    kind = figures.get("median_kind")
    if isinstance(kind, Figure) and kind.value == "tie":
        printer.printed(kind)
        said += " " + context.text("opinion.concluded_median_tie")
    return said


def _built_up(valuation: Valuation) -> bool:
    """Say whether tax or costs were added to the reconciled retail price."""
    base, value = valuation.figures.get("base"), valuation.value
    return isinstance(base, Figure) and not (isinstance(value, Figure) and value.number == base.number)


def _money(context: Context, outcome: Outcome | None) -> str:
    if outcome is None:
        return context.text("common.not_concluded")
    return context.printer.printed(outcome, Form.MONEY)


def _results(context: Context, valuation: Valuation, named: str, name: str) -> Table | None:
    """Return every figure of the reconciliation in the order made, the rounded value last; none on the short route."""
    printer, text = context.printer, context.text
    if valuation.route is Route.SHORT:
        return None
    rows = [
        Row((_result_label(context, key), printer.printed(outcome, _result_form(key, outcome, printer.currency))))
        for key, outcome in valuation.figures.items()
        if key not in _TOLD and (_is_computed(outcome) or _is_needed(key, outcome, printer.currency))
    ]
    rounded = context.text("result.value_rounded", value_type=name)
    rows.append(Row((rounded, printer.printed(valuation.rounded, Form.WHOLE_PLAIN)), strong=True))
    caption = text("caption.results", item=named, value_type=name)
    return Table(caption, (text("head.figure"), text("head.amount_in", currency=printer.currency)), tuple(rows))


def _is_computed(outcome: Outcome) -> bool:
    return isinstance(outcome, NoFigure) or outcome.operation not in ("typed", "noted")


def _is_needed(name: str, outcome: Outcome, currency: str) -> bool:
    """Say whether a typed figure has a row of its own: rates and bounds, and amounts in another currency."""
    if name.endswith("_typed"):
        return isinstance(outcome, Figure) and outcome.kind.currency != currency
    return name.endswith(_TYPED_ROWS)


def _result_form(name: str, outcome: Outcome, currency: str) -> Form:
    if name.endswith("_rate") and not name.endswith("_exchange_rate"):
        return Form.PERCENT
    foreign = isinstance(outcome, Figure) and outcome.kind.currency not in ("", currency)
    return Form.MONEY if foreign else Form.PLAIN


def _result_label(context: Context, name: str) -> str:
    """Return the printed name of a figure; the second of its kind (`freight_2`) has that of the first."""
    base, _, count = name.rpartition("_")
    known = name if not count.isdigit() else base
    return context.text(f"result.{known}") if context.words.has(f"result.{known}") else known.replace("_", " ")


def _range(context: Context, valuation: Valuation) -> str:
    low, high = valuation.figures.get("low_rounded"), valuation.figures.get("high_rounded")
    if not (isinstance(low, Figure) and isinstance(high, Figure)):
        return ""
    printer = context.printer
    return context.text(
        "opinion.base_range" if _built_up(valuation) else "opinion.with_range",
        low=printer.printed(low, Form.WHOLE),
        high=printer.printed(high, Form.WHOLE),
    )


def _chart(context: Context, valuation: Valuation, named: str, name: str) -> PriceChart | None:
    """Return the chart of adjusted prices; none with fewer than two of them."""
    printer, text = context.printer, context.text
    priced = [(one, one.adjusted) for one in valuation.comparisons if isinstance(one.adjusted, Figure)]
    if len(priced) < 2:
        return None
    figures = valuation.figures
    lines = [
        ChartLine(text(f"result.{key}"), outcome.number)
        for key in ("mean", "median")
        if isinstance(outcome := figures.get(key), Figure)
    ]
    concluded = figures.get("base", valuation.value)
    build_up = "base" in figures
    if isinstance(concluded, Figure) and (build_up or valuation.conclusion is Conclusion.TYPED):
        lines.append(ChartLine(text("result.base" if build_up else "result.value"), concluded.number))
    low, high = figures.get("low"), figures.get("high")
    labels = []
    for one, _ in priced:
        label = printer.shown(one.comparison.id)
        labels.append(label if one.used else text("opinion.chart_unused", name=label))
    return PriceChart(
        alt=text(
            "caption.prices_alt",
            count=str(len(priced)),
            low=_money(context, low),
            high=_money(context, high),
            opinion=printer.printed(valuation.rounded, Form.WHOLE),
        ),
        labels=tuple(labels),
        values=tuple(figure.number for _, figure in priced),
        printed=tuple(printer.printed(figure) for _, figure in priced),
        lines=tuple(lines),
        low=low.number if isinstance(low, Figure) else None,
        high=high.number if isinstance(high, Figure) else None,
        axis=printer.currency,
        group=printer.group_mark,
        words=(text("step.adjusted"), text("opinion.chart_range")),
        caption=text("caption.prices_title", item=named, value_type=name),
    )


def bridge_view(context: Context, result: ItemResult, named: str) -> Passage | None:
    """Return two values side by side with the steps between them; None unless the item has two."""
    pair = bridged(result.valuations)
    if pair is None or not result.bridge:
        return None
    text, printer = context.text, context.printer
    first, second = pair
    from_name, to_name = context.words.word(first.value_type), context.words.word(second.value_type)
    terms = {one.value_type: one for one in context.job.value_terms}
    a, b = terms.get(first.value_type), terms.get(second.value_type)
    rows = [Row((text("bridge.start", value_type=capital(from_name)), printer.printed(first.value)), strong=True)]
    if "market" in result.bridge:
        rows.append(Row((_market_line(context, a, b), printer.printed(result.bridge["market"], Form.SIGNED))))
    if base := second.figures.get("base"):
        rows.append(Row((text("bridge.base"), printer.printed(base)), strong=True))
    for key in ("tax", "costs"):
        if key in result.bridge:
            rows.append(Row((text(f"bridge.{key}"), printer.printed(result.bridge[key], Form.SIGNED))))
    rows.append(Row((text("bridge.time"), text("common.dash"))))
    rows.append(Row((text("bridge.end", value_type=capital(to_name)), printer.printed(second.value)), strong=True))
    for valuation, name in ((first, from_name), (second, to_name)):
        stated = printer.printed(valuation.rounded, Form.WHOLE_PLAIN)
        rows.append(Row((text("bridge.rounded", value_type=capital(name)), stated), strong=True))
    table = Table(
        text("caption.bridge", item=named, from_value=from_name, to_value=to_name),
        (text("head.step"), text("head.amount_in", currency=printer.currency)),
        tuple(rows),
        text("bridge.bounds"),
    )
    return Passage(text("part.bridge"), (text("bridge.intro"),), table)


def _market_line(context: Context, first: ValueTerms | None, second: ValueTerms | None) -> str:
    shown = context.printer.shown
    if first is None or second is None:
        return context.text("bridge.difference")
    return context.text(
        "bridge.market_line",
        from_market=shown(first.market),
        from_basis=shown(first.price_basis),
        to_market=shown(second.market),
        to_basis=shown(second.price_basis),
    )


def _inside(sentence: str) -> str:
    return sentence.strip().rstrip(".")
