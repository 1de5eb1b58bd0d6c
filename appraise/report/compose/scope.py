"""Scope of work and method statement, with the appraiser's own tables that were used."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from appraise.model.missing import Missing, given, value_or
from appraise.records.vocabulary import Combine, PremiumTiers, Route, ValueType
from appraise.report.compose.context import Context
from appraise.report.compose.conventions import circa_years, conventions
from appraise.report.compose.yearly.sentences import not_seen_anew
from appraise.report.view import MethodClause, ScopeView
from appraise.report.view_parts import Row, Table
from appraise.valuing.operations import LARGEST_INCREMENT, SCALE_S1
from appraise.wording.numbers import month_text


def scope(context: Context) -> ScopeView:
    """Return the scope of work, the method statement and the tables used."""
    text = context.text
    tables = tuple(_tables(context))
    return ScopeView(
        heading=text("section.scope"),
        clauses=tuple(_clauses(context)),
        tables_heading=text("part.tables_used"),
        tables_intro=" ".join([text("tables.intro" if tables else "tables.none"), *_library(context)]),
        tables=tables,
    )


def _clauses(context: Context) -> Iterator[MethodClause]:
    text = context.text

    def clause(name: str, keys: str, *tables: Table) -> MethodClause:
        paragraphs = tuple(text(f"method.{name}_text.{key}") for key in keys.split())
        return MethodClause(text(f"method.{name}"), paragraphs, tables)

    yield MethodClause(text("method.work"), (context.printer.shown(context.job.assignment.scope),))
    yield MethodClause(text("method.inspection"), (_inspection(context),))
    yield clause("dating", "first second third strengths", conventions(context))
    yield clause(
        "valuing",
        "first sign premium currency time sizes conclusion judgement",
        _steps(context),
        _settings(context),
    )
    if any(given(one.route) and one.route is not Route.ADJUSTED for one in context.job.opinions):
        yield clause("relative", "first")
    yield clause("rounding", "first", _rounding(context), _final_rounding(context))
    if ValueType.RETAIL_REPLACEMENT in context.value_types:
        yield clause("replacement", "first")
    yield clause("reproduction", "first")


def _inspection(context: Context) -> str:
    """Return which items were inspected; of a revalued schedule, which of them again for this report."""
    text, everything = context.text, {str(one.item.id) for one in context.summaries}
    never = {str(one.item.id) for one in context.summaries if not given(one.item.inspected_on)}
    earlier = not_seen_anew(context) - never
    if earlier:
        seen = everything - earlier - never
        key = "method.inspection_text.anew" if seen else "method.inspection_text.none_anew"
        said = [text(key, seen=context.numbers_of(seen), items=context.numbers_of(earlier))]
        if never:
            said.append(text("method.inspection_text.never", items=context.numbers_of(never)))
        return " ".join(said)
    if not never:
        return text("method.inspection_text.all")
    if never == everything:
        return text("method.inspection_text.none")
    return text("method.inspection_text.some", items=context.numbers_of(never))


def _steps(context: Context) -> Table:
    text = context.text
    rows = tuple(Row((text(f"method.step.{one}"), text(f"method.step_rule.{one}"))) for one in "abcdefgh")
    return Table(text("caption.steps"), (text("head.step"), text("head.rule")), rows)


def _rounding(context: Context) -> Table:
    text = context.text
    kinds = ("money", "factor", "index", "percent", "shown", "typed")
    rows = tuple(Row((text(f"method.round.{kind}"), text(f"method.round.{kind}_to"))) for kind in kinds)
    return Table(text("caption.rounding"), (text("head.figure"), text("head.rounded_to")), rows)


def _final_rounding(context: Context) -> Table:
    """Return the rounding scale as the method has it."""
    text, shown = context.text, context.printer.shown
    rows = []
    start = Decimal(0)
    for below, increment in SCALE_S1:
        key = "between" if start else "under"
        rows.append(Row((text(f"method.band.{key}", start=shown(start), to=shown(below)), shown(increment))))
        start = below
    rows.append(Row((text("method.band.over", start=shown(start)), shown(LARGEST_INCREMENT))))
    heads = (text("head.before_rounding"), text("head.increment"))
    return Table(text("caption.final_rounding"), heads, tuple(rows))


def _settings(context: Context) -> Table:
    a, text, printer = context.job.assignment, context.text, context.printer
    rows = [
        Row(
            (
                text("method.setting.deductions"),
                combine_words(context, value_or(a.combine_deductions, Combine.MULTIPLY)),
            )
        ),
        Row(
            (
                text("method.setting.adjustments"),
                combine_words(context, value_or(a.combine_adjustments, Combine.MULTIPLY)),
            )
        ),
        Row((text("method.setting.floor"), printer.cell(a.originality_floor) or text("method.setting.no_floor"))),
        Row((text("method.setting.tiers"), printer.shown(value_or(a.premium_tiers, PremiumTiers.MARGINAL)))),
        Row((text("method.setting.circa"), printer.shown(circa_years(context)))),
    ]
    return Table(text("caption.settings"), (text("head.setting"), text("head.choice")), tuple(rows))


def combine_words(context: Context, combine: Combine) -> str:
    """Return how percents are combined, in words."""
    return context.text("method.setting.multiply" if combine is Combine.MULTIPLY else "method.setting.add")


def _tables(context: Context) -> Iterator[Table]:
    """Yield the appraiser's tables that this job used."""
    job = context.job
    used = {one.sale for one in job.comparisons}
    sales = [one for one in job.sales if one.id in used]
    yield from _premiums(context, {str(one.premium_table) for one in sales if given(one.premium_table)})
    yield from _rates(context, {str(one.currency) for one in sales if given(one.currency)} - {context.printer.currency})
    named = [*(one.index for one in job.items), *(one.index for one in job.treatments)]
    yield from _indexes(context, {one for one in named if given(one)})
    yield from _scales(context, {str(one.scale) for one in job.items if given(one.scale)})
    yield from _model_periods(context)


def _premiums(context: Context, used: set[str]) -> Iterator[Table]:
    text, printer = context.text, context.printer
    rows = []
    for one in context.job.premiums:
        if one.table not in used:
            continue
        start = printer.day(one.valid_from) or text("common.not_stated")
        valid = text("tables.until", start=start, end=printer.day(one.valid_to)) if given(one.valid_to) else ""
        upper = printer.money(one.up_to, value_or(one.currency, "")) or text("tables.no_end")
        rows.append(
            Row(
                (
                    printer.shown(one.table),
                    printer.shown(one.house),
                    valid or text("tables.since", start=start),
                    upper,
                    printer.percent(one.rate),
                    printer.percent(one.tax) or text("common.dash"),
                )
            )
        )
    heads = ("table", "house", "valid", "tier", "rate", "premium_tax")
    if rows:
        yield Table(text("caption.premiums"), tuple(text(f"head.{one}") for one in heads), tuple(rows))


def _rates(context: Context, used: set[str]) -> Iterator[Table]:
    text, printer = context.text, context.printer
    rows = tuple(
        Row(
            (
                printer.shown(one.currency),
                printer.day(one.day),
                printer.shown(one.rate),
                printer.shown(one.direction),
                printer.shown(one.source),
            )
        )
        for one in context.job.rates
        if one.currency in used
    )
    heads = ("currency", "day", "rate", "quoted", "source")
    if rows:
        yield Table(text("caption.rates"), tuple(text(f"head.{one}") for one in heads), rows)


def _indexes(context: Context, used: set[str]) -> Iterator[Table]:
    """Yield each index; market and source stand below it where all its points share them."""
    text, printer = context.text, context.printer
    for name in sorted(used):
        points = [one for one in context.job.indexes if one.index == name]
        if not points:
            continue
        carried = text("tables.carry") if any(one.carry_last is True for one in points) else ""
        shared = {(printer.shown(one.market), printer.shown(one.source)) for one in points}
        caption = text("caption.index", name=name)
        if len(shared) == 1:
            (market, source) = shared.pop()
            note = text("tables.index_note", market=market, source=source.rstrip("."))
            rows = tuple(Row((_month(context, one.month), printer.shown(one.figure))) for one in points)
            heads = (text("head.month"), text("head.index_figure"))
            yield Table(caption, heads, rows, f"{note} {carried}".strip())
            continue
        rows = tuple(
            Row(
                (
                    _month(context, one.month),
                    printer.shown(one.figure),
                    printer.shown(one.market),
                    printer.shown(one.source),
                )
            )
            for one in points
        )
        columns = tuple(text(f"head.{one}") for one in ("month", "index_figure", "market", "source"))
        yield Table(caption, columns, rows, carried)


def _month(context: Context, typed: str | Missing) -> str:
    """Return a typed month (`2024-07`) in words; what is no month as it was typed."""
    try:
        day = date.fromisoformat(f"{typed}-01")
    except ValueError:
        return context.printer.shown(typed)
    return month_text(12 * day.year + day.month - 1, context.printer.lang)


def _scales(context: Context, used: set[str]) -> Iterator[Table]:
    text, printer = context.text, context.printer
    heads = tuple(text(f"head.{one}") for one in ("grade", "percent_of_ten", "looks_like"))
    for name in sorted(used):
        rows = tuple(
            Row((printer.shown(one.grade), printer.percent(one.percent), printer.cell(one.words)))
            for one in context.job.scales
            if one.scale == name
        )
        if rows:
            yield Table(text("caption.scale", name=name), heads, rows)


def _model_periods(context: Context) -> Iterator[Table]:
    """Yield the model periods of the models in this report."""
    text, printer = context.text, context.printer
    models = {(one.maker, one.model) for one in context.job.items}
    rows = tuple(
        Row(
            (
                f"{printer.shown(one.maker)} {printer.shown(one.model)}",
                text("tables.years", first=year(one.inner_first), last=year(one.inner_last)),
                text("tables.years", first=year(one.outer_first), last=year(one.outer_last)),
                printer.percent(one.effect, signed=True),
                printer.shown(one.source),
            )
        )
        for one in context.job.model_periods
        if (one.maker, one.model) in models
    )
    heads = ("model", "full_effect", "no_effect", "effect_percent", "source")
    if rows:
        yield Table(text("caption.model_periods"), tuple(text(f"head.{one}") for one in heads), rows)


def year(value: object) -> str:
    """Return a typed year without a thousands separator."""
    return str(int(value)) if isinstance(value, Decimal) else "?"


def _library(context: Context) -> Iterator[str]:
    """Yield which file the tables of the library came from, and its hash."""
    if context.inputs.library is not None:
        name, mark = context.inputs.library
        yield context.text("yearly.library", name=name, mark=mark)
