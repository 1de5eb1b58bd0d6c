"""The section on the revaluation: change table, bridge, causes, families, inspections due, limits, history."""

from collections.abc import Iterable
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given
from appraise.records.items import Item
from appraise.records.vocabulary import Treatment
from appraise.report.compose.context import Context, capital
from appraise.report.compose.printing import Form
from appraise.report.compose.yearly.history import family_charts, history_table, total_chart
from appraise.report.compose.yearly.limits import limits_notes, limits_table
from appraise.report.compose.yearly.sentences import basis_text, sentence, total_sentence, treatment_text, unseen_lines
from appraise.report.view import YearlyPart, YearlyView
from appraise.report.view_parts import Row, Table
from appraise.schedule.of_job import Revaluation
from appraise.schedule.revaluation import RevaluedLine, due_day
from appraise.schedule.totals import due_list
from appraise.valuing.working import Worked

#: Rows of the bridge with the sign each figure has in it.
_BRIDGE = (
    ("prior_total", "plain", True),
    ("continuing_change", "signed", False),
    ("removed_total", "minus", False),
    ("added_total", "signed", False),
    ("new_total", "plain", True),
)
_CAUSES = ("by_index", "by_percent", "by_fresh", "by_condition", "by_basis", "added", "removed", "by_rounding")


def yearly(context: Context) -> YearlyView | None:
    """Return the section; None for a report without a revaluation."""
    schedules = context.inputs.yearly
    if not schedules:
        return None
    text = context.text
    first = schedules[0]
    due = _due(context, first)
    limits = limits_table(context, first)
    day = context.printer.shown(context.job.yearly_terms.prior_day)
    return YearlyView(
        heading=text("yearly.heading"),
        intro=(text("yearly.intro", before=day, now=context.effective_day), *_assumed(context, first)),
        parts=tuple(_part(context, one, len(schedules) > 1) for one in schedules),
        due_heading=text("yearly.due_heading"),
        due_intro=(text("yearly.due_intro" if due else "yearly.none_due", months=str(first.year.inspection_months)),),
        due=due,
        limits_heading=text("yearly.limits_heading") if limits else "",
        limits_intro=(text("yearly.limits_intro"),) if limits else (),
        limits=limits,
        limits_notes=limits_notes(context, first),
    )


def _assumed(context: Context, schedule: Revaluation) -> Iterable[str]:
    """Yield which lines were not inspected since the prior schedule; their condition is assumed."""
    unseen = unseen_lines(schedule)
    if unseen:
        items = context.numbers_of(unseen)
        yield context.text("yearly.not_inspected", items=items, section=context.text("section.assumptions"))


def _part(context: Context, schedule: Revaluation, several: bool) -> YearlyPart:
    text = context.text
    name = context.words.word(schedule.value_type)
    return YearlyPart(
        heading=text("yearly.part_heading", value_type=name) if several else "",
        intro=(total_sentence(context, schedule),),
        changes=_changes(context, schedule, name),
        notes=tuple(_notes(context, schedule)),
        bridge=_bridge(context, schedule, name),
        printed=_printed(context, schedule),
        families=_families(context, schedule, name),
        causes=_causes(context, schedule, name),
        history=history_table(context, schedule, name),
        total_chart=total_chart(context, schedule, name),
        family_charts=family_charts(context, schedule, name),
    )


def _changes(context: Context, schedule: Revaluation, name: str) -> Table:
    """Return the change table: old, new, amount, percent and reason, line by line, totals below."""
    text, printer, totals = context.text, context.printer, schedule.totals
    items = {one.id: one for one in context.job.items}
    rows = []
    for line in schedule.lines:
        item = items.get(line.line.item)
        reason = [treatment_text(context, line), basis_text(context, line), sentence(printer.cell(line.line.reason))]
        said = "\n".join(one for one in reason if one)
        cells = (_number(context, line, item), _named(context, line, item), said)
        rows.append(
            Row(
                (
                    *cells,
                    *(_amount(context, one) for one in (line.prior_rounded, line.new_rounded)),
                    *_change(context, line),
                )
            )
        )
    change = _signed(context, totals["total_change"])
    percent = _percent(context, totals["total_change_pct"])
    sums = (_amount(context, totals["prior_total"]), _amount(context, totals["new_total"]), change, percent)
    rows.append(Row(("", text("common.total"), "", *sums), strong=True))
    before = printer.day(schedule.year.terms.prior_day)
    heads = [text(f"yearly.head.{key}") for key in ("number", "item", "done")]
    heads += [before or text("yearly.head.before"), printer.day(context.job.assignment.effective_date)]
    heads += [text("yearly.head.change"), text("yearly.head.percent")]
    note = text("yearly.changes_note", currency=printer.currency)
    return Table(text("yearly.caption.changes", value_type=name), tuple(heads), tuple(rows), note)


def _number(context: Context, line: RevaluedLine, item: Item | None) -> str:
    return str(line.line.item) if item is None else context.number(item)


def _named(context: Context, line: RevaluedLine, item: Item | None) -> str:
    return context.text("common.dash") if item is None else context.named(item)


def _amount(context: Context, outcome: Outcome | None) -> str:
    """Return a rounded value, a dash where a line does not stand in that year."""
    if outcome is None:
        return context.text("common.dash")
    # One typed as printed last year is an amount of the report's currency.
    typed = isinstance(outcome, Figure) and outcome.kind.name != "money"
    return context.printer.printed(outcome, Form.WHOLE_AMOUNT if typed else Form.WHOLE_PLAIN)


def _signed(context: Context, outcome: Outcome) -> str:
    return context.printer.printed(outcome, Form.WHOLE_SIGNED)


def _change(context: Context, line: RevaluedLine) -> tuple[str, str]:
    """Return amount and percent of the change of a line, or that it was added or removed."""
    if line.change is None:
        word = "added" if line.treatment is Treatment.ADDED else "removed"
        return context.text(f"yearly.{word}"), ""
    percent = line.figures.get("change_pct")
    return _signed(context, line.change), "" if percent is None else _percent(context, percent)


def _percent(context: Context, outcome: Outcome) -> str:
    """Return a percent for a narrow column: a dash where it is not concluded, as the amount beside it says."""
    if not isinstance(outcome, Figure):
        return context.text("common.dash")
    return context.printer.printed(outcome, Form.SIGNED_PERCENT)


def _bridge(context: Context, schedule: Revaluation, name: str) -> Table:
    """Return prior total + continuing change − removed + added = new total."""
    text, totals = context.text, schedule.totals
    rows = []
    for key, sign, strong in _BRIDGE:
        outcome = totals[key]
        shown = _signed(context, outcome) if sign == "signed" else _amount(context, outcome)
        if sign == "minus" and isinstance(outcome, Figure) and outcome.number:
            shown = text("yearly.minus", amount=shown)
        rows.append(Row((text(f"yearly.bridge.{key}"), shown), strong=strong))
    unrounded, difference = totals["new_total_unrounded"], totals["rounding_difference"]
    note = ""
    if isinstance(unrounded, Figure) and isinstance(difference, Figure):
        say = context.printer.printed
        note = text("yearly.bridge_note", unrounded=say(unrounded, Form.MONEY), difference=say(difference, Form.MONEY))
    return Table(text("yearly.caption.bridge", value_type=name), _two_heads(context), tuple(rows), note)


def _two_heads(context: Context) -> tuple[str, str]:
    return context.text("yearly.head.what"), context.text("head.amount_in", currency=context.printer.currency)


def _printed(context: Context, schedule: Revaluation) -> Table | None:
    """Return last year's totals as printed and as restated, for a schedule whose currency changed."""
    if schedule.printed is None:
        return None
    text, printer = context.text, context.printer
    rows = [
        Row((text("yearly.printed_in", currency=key.removeprefix("prior_total_")), printer.printed(one, Form.MONEY)))
        for key, one in schedule.printed.figures.items()
        if key.startswith("prior_total_")
    ]
    restated = printer.printed(schedule.totals["prior_total"], Form.MONEY)
    rows.append(Row((text("yearly.restated_in", currency=printer.currency), restated), strong=True))
    reason = context.job.yearly_terms.currency_reason
    why = text("yearly.currency_note", reason=printer.shown(reason).rstrip("."))
    heads = (text("yearly.head.what"), text("head.amount"))
    return Table(text("yearly.caption.currency"), heads, tuple(rows), why)


def _families(context: Context, schedule: Revaluation, name: str) -> Table | None:
    """Return the totals by family; None where there is only one."""
    if len(schedule.families) < 2:
        return None
    text = context.text
    rows = [_family_row(context, family, totals) for family, totals in schedule.families.items()]
    whole = _family_row(context, text("common.total"), schedule.totals)
    rows.append(Row(whole.cells, strong=True))
    keys = ("family", "before", "continuing", "added", "removed", "after", "percent_continuing")
    heads = tuple(text(f"yearly.head.{key}") for key in keys)
    caption = text("yearly.caption.families", value_type=name)
    return Table(caption, heads, tuple(rows), text("yearly.families_note"))


def _family_row(context: Context, family: str, totals: Worked) -> Row:
    amounts = (
        _amount(context, totals["prior_total"]),
        _signed(context, totals["continuing_change"]),
        _amount(context, totals["added_total"]),
        _amount(context, totals["removed_total"]),
        _amount(context, totals["new_total"]),
        context.printer.printed(totals["continuing_change_pct"], Form.SIGNED_PERCENT),
    )
    return Row((capital(family) or context.text("common.not_stated"), *amounts))


def _causes(context: Context, schedule: Revaluation, name: str) -> Table:
    """Return the causes of the change, each before rounding; they add up to the change of the total."""
    text, worked = context.text, schedule.causes
    rows = []
    for key in _CAUSES:
        outcome = worked["by_fresh" if key == "by_fresh" else key]
        if key in ("by_basis", "by_condition", "by_percent", "added", "removed") and _is_zero(outcome):
            continue
        shown = context.printer.printed(outcome, Form.SIGNED)
        if key == "removed":
            shown = text("yearly.minus", amount=context.printer.printed(outcome))
        if key == "by_condition":
            rows.append(Row((text("yearly.cause.less_condition"), text("yearly.minus_of", amount=shown))))
        rows.append(Row((text(f"yearly.cause.{key}"), shown)))
    total = context.printer.printed(worked["explained"], Form.SIGNED)
    rows.append(Row((text("yearly.cause.explained"), total), strong=True))
    note = text("yearly.causes_note")
    return Table(text("yearly.caption.causes", value_type=name), _two_heads(context), tuple(rows), note)


def _is_zero(outcome: Outcome) -> bool:
    return isinstance(outcome, Figure) and outcome.number == Decimal(0)


def _notes(context: Context, schedule: Revaluation) -> Iterable[str]:
    """Yield what a reader of the change table must not overlook."""
    for flag in ("re-inspect", "fresh comparables", "held", "index carried", "rolled from rounded"):
        lines = [str(one.line.item) for one in schedule.lines if flag in one.flags]
        if lines:
            key = flag.replace(" ", "_").replace("-", "_")
            yield context.text(f"yearly.flagged.{key}", items=_numbers(context, lines))
    changed = [str(one.line.item) for one in schedule.lines if not one.like_for_like]
    if changed:
        yield context.text("yearly.no_growth", items=_numbers(context, changed))


def _numbers(context: Context, ids: Iterable[str]) -> str:
    return context.numbers_of(ids) or context.printer.joined(ids)


def _due(context: Context, schedule: Revaluation) -> Table | None:
    """Return the lines due for inspection, longest unseen first; and those that fall due within a year."""
    text, printer = context.text, context.printer
    items = {one.id: one for one in context.job.items}
    rows = []
    for one in due_list(schedule.lines):
        item = items.get(one.item)
        line = one.line.line
        last = printer.day(line.inspected) if given(line.inspected) else text("yearly.never_seen")
        day = due_day(line, schedule.year)
        since = text("common.dash") if day is None else printer.day(day)
        where = text("common.dash") if item is None else printer.shown(item.location)
        rows.append(Row((_number(context, one.line, item), _named(context, one.line, item), where, last, since)))
    if not rows:
        return None
    heads = tuple(text(f"yearly.head.{key}") for key in ("number", "item", "place", "last_seen", "due_on"))
    return Table(text("yearly.caption.due"), heads, tuple(rows))
