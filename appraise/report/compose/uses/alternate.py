"""The estate at both dates: death, and six months later or the day an item left it; the test of the value."""

from functools import partial

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given
from appraise.records.alternate import AlternateLine
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import lines, measures
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Line, Row, Table
from appraise.valuing.working import Worked

_TEST = ("gross_estate_dod", "gross_estate_alternate", "gross_estate_decrease")


def alternate(context: Context) -> Chapter:
    """Return the two-column schedule; without blocks where no line is typed on Alternate date."""
    text, schedule = context.text, context.inputs.uses.alternate
    heading = text("section.alternate")
    if schedule is None or not schedule.lines:
        return Chapter(heading, (), ())
    blocks = [Block("", tables=(_table(context, schedule.lines, schedule.totals),))]
    told = context.job.counsel_figures
    if given(told.other_at_death) or given(told.other_alternate):
        blocks.append(_test(context, schedule.totals))
    return Chapter(heading, (text("alternate.intro"), text("alternate.whole")), tuple(blocks))


def _table(context: Context, found: tuple[tuple[AlternateLine, Worked], ...], totals: Worked) -> Table:
    text, printer = context.text, context.printer
    rows = []
    for line, worked in found:
        name = context.title(line.item)
        if given(line.share):
            name = text("alternate.part", item=name, share=printer.percent(line.share))
        day = worked.figures.get("date")
        cells = (name, _became(context, line), printer.printed(day) if isinstance(day, Figure) else text("common.dash"))
        amounts = tuple(_amount(context, worked.figures.get(key)) for key in ("dod_reported", "alternate_reported"))
        rows.append(Row(cells, amounts))
    sums = tuple(
        _amount(context, totals.figures.get(key)) for key in ("dod_total_reported", "alternate_total_reported")
    )
    rows.append(Row((text("common.total"), "", ""), sums, strong=True))
    heads = (text("head.item"), text("alternate.became"), text("alternate.valued_on"))
    figure_heads = (text("alternate.at_death"), text("alternate.at_alternate"))
    return Table(text("alternate.caption"), heads, tuple(rows), text("alternate.note"), figure_heads)


def _amount(context: Context, outcome: Outcome | None) -> str:
    return context.text("common.dash") if outcome is None else context.printer.printed(outcome, Form.WHOLE_PLAIN)


def _became(context: Context, line: AlternateLine) -> str:
    printer = context.printer
    said = printer.shown(line.departure)
    if given(line.price):
        said += "\n" + context.text(
            "alternate.sold_for", amount=printer.money(line.price), kind=printer.shown(line.price_kind)
        )
    if given(line.remark):
        said += f"\n{line.remark}"
    return said


def _test(context: Context, totals: Worked) -> Block:
    """Return the test of the value from counsel's figures; the test of the tax is counsel's."""
    text, told = context.text, context.job.counsel_figures
    met = totals.figures.get("value_test_met")
    said = [text("alternate.test_text", given_by=context.printer.shown(told.given_by))]
    if isinstance(met, Figure):
        context.printer.printed(met)
        said.append(text("alternate.test_met" if met.value == "yes" else "alternate.test_not_met"))
    table = measures(context, partial(_label, context), text("alternate.test_caption"), totals.figures, _TEST)
    shown: tuple[Line, ...] = lines(context, (("alternate.given_by", told.given_by),))
    return Block(text("alternate.test"), tuple(said), shown, (table,), notice=text("alternate.tax_test"))


def _label(context: Context, name: str) -> str:
    return context.text(f"alternate.{name}")
