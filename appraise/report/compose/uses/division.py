"""Who receives what: by party, agreed and contested, with the totals of each."""

from appraise.model.figure import Outcome
from appraise.model.missing import given
from appraise.records.vocabulary import ShareState, Use, ValueType
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import money_head
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Row, Table


def division(context: Context) -> Chapter:
    """Return the division by party; without blocks for other uses and where nobody is named."""
    text, uses = context.text, context.inputs.uses
    heading = text("section.division")
    if context.use is not Use.DIVISION or not uses.portions or uses.by_recipient is None:
        return Chapter(heading, (), ())
    tables = tuple(_party(context, name, total) for name, total in uses.by_recipient.items())
    blocks = [Block("", tables=tables), Block(text("division.totals"), tables=(_totals(context),))]
    contested = [str(one.item) for one in context.job.shares if given(one.item) and one.state is not ShareState.AGREED]
    said = text("division.contested", items=context.numbers_of(contested)) if contested else text("division.agreed")
    return Chapter(heading, (text("division.intro"), said), tuple(blocks))


def _party(context: Context, name: str, total: Outcome) -> Table:
    text, printer = context.text, context.printer
    rows = [
        Row(
            (
                _item(context, one.line.item, printer.percent(one.line.share)),
                printer.shown(one.line.state),
                printer.cell(one.line.remark),
            ),
            (printer.printed(one.value, Form.WHOLE_PLAIN),),
        )
        for one in context.inputs.uses.portions
        if str(one.line.recipient) == name
    ]
    rows.append(Row((text("common.total"), "", ""), (printer.printed(total, Form.WHOLE_PLAIN),), strong=True))
    heads = (text("head.item"), text("division.standing"), text("head.own_remark"))
    return Table(text("division.party", name=name), heads, tuple(rows), "", (money_head(context),))


def _item(context: Context, item: object, share: str) -> str:
    name = context.title(item if isinstance(item, str) else "")
    return context.text("alternate.part", item=name, share=share) if share else name


def _totals(context: Context) -> Table:
    text, printer, uses = context.text, context.printer, context.inputs.uses
    assert uses.by_recipient is not None
    rows = [Row((name,), (printer.printed(total, Form.WHOLE_PLAIN),)) for name, total in uses.by_recipient.items()]
    whole = next((one.total for one in context.inputs.totals if one.value_type is ValueType.FAIR_MARKET), None)
    if whole is not None:
        rows.append(Row((text("division.all"),), (printer.printed(whole, Form.WHOLE_PLAIN),), strong=True))
    return Table(text("division.totals_caption"), (text("division.name"),), tuple(rows), "", (money_head(context),))
