"""Pieces that the sections of the uses share: lines, and tables with one column of money."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import BLANK
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.view_parts import Line, Row, Table
from appraise.rules.thresholds import Threshold


def lines(context: Context, typed: Iterable[tuple[str, object]]) -> tuple[Line, ...]:
    """Return a line for each value that is not blank, with the key of its label."""
    shown = context.printer.shown
    return tuple(Line(context.text(key), shown(value)) for key, value in typed if value is not BLANK and value != "")


def entries(text: object) -> tuple[str, ...]:
    """Return the entries of a cell that lists them one a line."""
    return tuple(one.strip() for one in str(text).splitlines() if one.strip())


def measures(
    context: Context,
    label: Callable[[str], str],
    caption: str,
    figures: Mapping[str, Outcome],
    names: Sequence[str],
    *,
    strong: Sequence[str] = (),
    note: str = "",
) -> Table:
    """Return the named figures as rows "what, amount", in this order; a name without a figure is left out.

    label  gives the printed name of a figure
    """
    rows = tuple(
        Row((label(name),), (_amount(context, name, figures[name]),), strong=name in strong)
        for name in names
        if name in figures
    )
    return Table(caption, (context.text("head.figure"),), rows, note, (money_head(context),))


def _amount(context: Context, name: str, outcome: Outcome) -> str:
    """Return a figure; a value rounded by the scale is whole."""
    whole = name.endswith("_rounded")
    return context.printer.printed(outcome, Form.WHOLE_PLAIN) if whole else printed(context, outcome)


def printed(context: Context, outcome: Outcome) -> str:
    """Return a figure for a column of money: percents with their sign, words as words."""
    if isinstance(outcome, Figure) and outcome.operation == "typed":
        return _typed(context, outcome)
    percent = isinstance(outcome, Figure) and outcome.kind.name in ("percent", "shown percent")
    return context.printer.printed(outcome, Form.PERCENT if percent else Form.PLAIN)


def _typed(context: Context, figure: Figure) -> str:
    """Return a typed figure as money, or as a percent where its name says so; its id is noted like any other."""
    value = figure.value
    if not isinstance(value, Decimal):
        return context.printer.printed(figure)
    text = context.printer.percent(value) if figure.id.endswith("_pct") else context.printer.amount(value)
    context.printer.figures.note(figure.id, text)
    return text


def money_head(context: Context) -> str:
    """Return the heading of a column of money: the currency."""
    return context.text("head.amount_in", currency=context.printer.currency)


def limit_text(context: Context, limit: Threshold) -> str:
    """Return what a limit of the law says, in the report's language."""
    return context.words.rule(f"threshold.{limit.name}", limit.statement)


def translated_note(context: Context) -> str:
    """Return the note below a table of rules of law: that they are translated, where they are."""
    return context.text("assignment.translated") if context.words.translated else ""
