"""The date of manufacture of an item: the window in words, its edges, the statements as computed, the chart."""

from collections.abc import Iterable, Iterator

from appraise.dating.result import DateWindow, Explanation, Statement, Verdict
from appraise.model.months import Months
from appraise.report.compose.context import Context, capital
from appraise.report.engine.views import TimeBar, TimeChart
from appraise.report.item_view import WindowView
from appraise.report.view_parts import Row, Table
from appraise.wording.numbers import month_text


def window_view(context: Context, window: DateWindow, named: str) -> WindowView:
    """Return the window with its reasons. `named` is the item's name for captions."""
    text = context.text
    if not window.statements:
        return WindowView(text("window_part.heading"), text("window_part.none_typed"), "", (), None, (), None)
    sentence = _sentence(context, window)
    notes = [*_later(context, window), *_cautions(window)]
    if any(not one.binding for one in window.statements):
        notes.append(text("window_part.replaced_note"))
    return WindowView(
        heading=text("window_part.heading"),
        sentence=sentence,
        reason=" ".join(_reason(context, window)),
        points=tuple(_points(context, window)),
        statements=_statements(context, window, named),
        notes=tuple(notes),
        chart=_chart(context, window, named, sentence),
    )


def _sentence(context: Context, window: DateWindow) -> str:
    text = context.text
    verdict = text(f"verdict.{window.verdict}")
    if window.verdict is Verdict.CONFLICT:
        if window.shown:
            return text(
                "window_part.conflict_one",
                verdict=verdict,
                aside=_named(context, window, window.shown.set_aside),
                window=context.printer.window(window.shown.outer),
            )
        return text("window_part.conflict_tie" if window.tie else "window_part.conflict_list", verdict=verdict)
    outer = context.printer.window(window.shown.outer if window.shown else window.outer)
    if not window.outer or (window.outer.first is None and window.outer.last is None):
        return text("window_part.unbounded")
    return text(f"window_part.{window.verdict}", verdict=verdict, window=outer)


def _reason(context: Context, window: DateWindow) -> Iterator[str]:
    text, shown = context.text, window.shown
    yield text(f"verdict_reason.{window.verdict}")
    if shown and shown.inner and shown.inner != shown.outer:
        yield text("window_part.inner", window=context.printer.window(shown.inner))
    if shown:
        yield from _edges(context, window, shown.outer)


def _points(context: Context, window: DateWindow) -> Iterator[str]:
    """Yield conflicts, explanations and what became of statements with several readings."""
    if window.verdict is Verdict.CONFLICT:
        for group in window.conflicts:
            yield context.text("window_part.conflict_line", evidence=_named(context, window, group))
        if window.more_conflicts:
            yield context.text("window_part.more_conflicts")
        for explanation in window.explanations:
            yield _explanation(context, window, explanation)
    yield from _readings(context, window)


def _edges(context: Context, window: DateWindow, outer: Months) -> Iterator[str]:
    text, edges = context.text, window.edges
    if edges.first and edges.first == edges.last:
        yield text("window_part.both_edges", evidence=_named(context, window, edges.first))
        return
    if edges.first:
        yield text("window_part.lower_edge", evidence=_named(context, window, edges.first))
    elif outer and outer.first is None:
        yield text("window_part.open_lower")
    if edges.last:
        yield text("window_part.upper_edge", evidence=_named(context, window, edges.last))
    elif outer and outer.last is None:
        yield text("window_part.open_upper")


def _explanation(context: Context, window: DateWindow, explanation: Explanation) -> str:
    shown = context.printer.window(explanation.outer)
    kept = _named(context, window, explanation.keep)
    if not explanation.set_aside:
        return context.text("window_part.explanation_all", window=shown, kept=kept)
    aside = _named(context, window, explanation.set_aside)
    return context.text("window_part.explanation", window=shown, kept=kept, aside=aside)


def _readings(context: Context, window: DateWindow) -> Iterator[str]:
    for statement_id, left in window.readings.items():
        evidence = _say(window.statement(statement_id))
        if not left.left:
            yield context.text("window_part.reading_none", evidence=evidence)
        elif len(left.left) == 1:
            yield context.text("window_part.reading", evidence=evidence, readings=left.left[0])
        else:
            readings = context.printer.joined(left.left)
            yield context.text("window_part.reading_several", evidence=evidence, readings=readings)


def _later(context: Context, window: DateWindow) -> Iterator[str]:
    for statement_id, month in window.later_work.items():
        yield context.text(
            "window_part.later_work",
            evidence=capital(_say(window.statement(statement_id))),
            month=month_text(month, context.printer.lang),
        )


def _cautions(window: DateWindow) -> Iterator[str]:
    yield from dict.fromkeys(caution for one in window.statements for caution in one.cautions)


def _statements(context: Context, window: DateWindow, named: str) -> Table:
    text = context.text
    aside = set(window.shown.set_aside) if window.shown else set()
    rows = []
    for one in window.statements:
        words = f" ({one.words})" if one.words and one.words not in one.say else ""
        standing = f"{context.words.word(one.status)}, {one.strength}"
        if not one.binding:
            treated = text("window_part.state_replaced")
        elif one.id in aside:
            treated = text("window_part.state_aside")
        else:
            treated = text("window_part.state_used")
        rows.append(
            Row((f"{capital(one.part)}: {one.say}{words}", standing, _allows(context, one), treated, one.source))
        )
    heads = ("statement", "status_strength", "allows", "treated", "source")
    return Table(text("window_part.table", item=named), tuple(text(f"head.{one}") for one in heads), tuple(rows))


#: Spans of one statement that are named one by one; a code that gives only the year's last digit has one a decade.
MOST_RUNS = 3


def _allows(context: Context, statement: Statement) -> str:
    runs, lang = statement.outer.runs, context.printer.lang
    first, last = statement.outer.first, statement.outer.last
    if len(runs) > MOST_RUNS and first is not None and last is not None:
        ends = {"first": month_text(first, lang), "last": month_text(last, lang)}
        return context.text("window_part.many_runs", count=str(len(runs)), **ends)
    outer = context.printer.window(statement.outer)
    if not statement.inner or statement.inner == statement.outer:
        return outer
    return context.text("window_part.allows", outer=outer, inner=context.printer.window(statement.inner))


def _chart(context: Context, window: DateWindow, named: str, sentence: str) -> TimeChart | None:
    aside = set(window.shown.set_aside) if window.shown else set()
    bars = tuple(
        TimeBar(
            _short(f"{capital(one.part)}: {one.say}"),
            one.outer.first if one.outer else None,
            one.outer.last if one.outer else None,
            dropped=not one.binding or one.id in aside,
        )
        for one in window.statements
        if one.outer
    )
    ends = [end for bar in bars for end in (bar.first, bar.last) if end is not None]
    if not ends:
        return None
    text = context.text
    shown = window.shown.outer if window.shown else None
    span = None
    if shown:
        first = shown.first if shown.first is not None else min(ends)
        last = shown.last if shown.last is not None else max(max(ends), first)
        span = (first, last)
    alt = text(
        "window_part.chart_alt",
        first=str(min(ends) // 12),
        last=str(max(ends) // 12),
        count=str(len(bars)),
        sentence=sentence,
    )
    words = (
        text("window_part.state_used"),
        text("window_part.state_aside_or_replaced"),
        text("window_part.open_start"),
        text("window_part.open_end"),
        text("window_part.chart_window"),
    )
    return TimeChart(alt, bars, span, words, text("window_part.chart_title", item=named))


def _named(context: Context, window: DateWindow, ids: Iterable[str]) -> str:
    return context.printer.joined(_say(window.statement(one)) for one in ids)


def _say(statement: Statement) -> str:
    return (
        f"{statement.say} ({statement.part})"
        if statement.part.casefold() not in statement.say.casefold()
        else statement.say
    )


#: Two lines beside a bar of the chart.
_LONGEST_LABEL = 80


def _short(label: str) -> str:
    return label if len(label) <= _LONGEST_LABEL else label[: _LONGEST_LABEL - 1].rstrip() + "…"
