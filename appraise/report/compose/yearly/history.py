"""Totals by year, as the records of earlier reports tell them: a table, a chart of the total, a chart by family."""

from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure
from appraise.model.missing import given
from appraise.report.compose.context import Context, capital
from appraise.report.compose.printing import Form
from appraise.report.engine.views import HistoryChart, Series
from appraise.report.view_parts import Row, Table
from appraise.schedule.history import PastSchedule
from appraise.schedule.of_job import Revaluation

#: A year is a point; one point is no history.
_FEWEST = 2
#: Families in one chart.
_TOGETHER = 4


def history_table(context: Context, schedule: Revaluation, name: str) -> Table | None:
    """Return the totals by year; None without a year besides this one."""
    past = _past(context, schedule)
    if len(past) + 1 < _FEWEST:
        return None
    text, printer = context.text, context.printer
    rows = [
        Row((printer.day(one.day), printer.printed(total, Form.WHOLE_AMOUNT), str(_count(one, schedule))))
        for one, total in past
    ]
    now = printer.printed(schedule.totals["new_total"], Form.WHOLE_PLAIN)
    count = sum(1 for one in schedule.lines if isinstance(one.new_rounded, Figure))
    effective = context.job.assignment.effective_date
    rows.append(Row((printer.day(effective), now, str(count)), strong=True))
    heads = (text("yearly.head.day"), text("head.amount_in", currency=printer.currency), text("yearly.head.lines"))
    return Table(text("yearly.caption.history", value_type=name), heads, tuple(rows), text("yearly.history_note"))


def total_chart(context: Context, schedule: Revaluation, name: str) -> HistoryChart | None:
    """Return the chart of the total by year."""
    past = _past(context, schedule)
    new = schedule.totals["new_total"]
    if len(past) + 1 < _FEWEST or not isinstance(new, Figure):
        return None
    text = context.text
    values: tuple[Decimal | None, ...] = (*(total.number for _, total in past), new.number)
    return HistoryChart(
        alt=text("yearly.chart.total_alt", value_type=name, years=str(len(values))),
        years=_years(context, [one for one, _ in past]),
        series=(Series(capital(text("common.total")), values),),
        axis=context.printer.currency,
        group=context.printer.group_mark,
        caption=text("yearly.chart.total", value_type=name),
    )


def family_charts(context: Context, schedule: Revaluation, name: str) -> tuple[HistoryChart, ...]:
    """Return charts of the families by year, the dearest first and few to a chart, so that small ones can be read.

    None where there is only one family.
    """
    past = [one for one, _ in _past(context, schedule)]
    if len(past) + 1 < _FEWEST or len(schedule.families) < _FEWEST:
        return ()
    rows = []
    for family, totals in schedule.families.items():
        new = totals["new_total"]
        now = new.number if isinstance(new, Figure) and new.number else None
        label = capital(family) or context.text("common.not_stated")
        values = (*(one.total(str(schedule.value_type), family) for one in past), now)
        rows.append(Series(label, values))
    rows.sort(key=lambda one: -max((value for value in one.values if value is not None), default=Decimal(0)))
    return tuple(
        _chart_of(context, name, _years(context, past), rows[start : start + _TOGETHER])
        for start in range(0, len(rows), _TOGETHER)
    )


def _chart_of(context: Context, name: str, years: tuple[str, ...], rows: list[Series]) -> HistoryChart:
    families = context.printer.joined(one.label for one in rows)
    return HistoryChart(
        alt=context.text("yearly.chart.families_alt", value_type=name, years=str(len(years)), families=families),
        years=years,
        series=tuple(rows),
        axis=context.printer.currency,
        group=context.printer.group_mark,
        caption=context.text("yearly.chart.families", value_type=name, families=families),
    )


def _past(context: Context, schedule: Revaluation) -> list[tuple[PastSchedule, Figure]]:
    """Return the earlier schedules that state this type of value, with their totals."""
    totals = context.inputs.past_totals
    pairs = [(one, totals.get((one.day, schedule.value_type))) for one in context.inputs.past]
    return [(one, total) for one, total in pairs if total is not None]


def _count(past: PastSchedule, schedule: Revaluation) -> int:
    return sum(1 for one in past.values if one.value_type == str(schedule.value_type))


def _years(context: Context, past: list[PastSchedule]) -> tuple[str, ...]:
    """Return the labels of the years; whole days where a year has two schedules."""
    effective = context.job.assignment.effective_date
    days: list[date] = [one.day for one in past] + ([effective] if given(effective) else [])
    once = len({one.year for one in days}) == len(days)
    return tuple(str(one.year) if once else context.printer.day(one) for one in days)
