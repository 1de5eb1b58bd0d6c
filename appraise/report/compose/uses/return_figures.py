"""Figures for the return: one page for whoever prepares it, and the penalties the law names, as information."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given, value_or
from appraise.records.items import HistoryLine, Item
from appraise.records.vocabulary import History, Use, ValueType
from appraise.report.compose.assignment import official_clause, quotation_source
from appraise.report.compose.context import Context, Summary, item_key
from appraise.report.compose.front import signatures
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import limit_text, money_head, translated_note
from appraise.report.compose.uses.transfer import in_us, limit_on
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Row, Table
from appraise.rules.thresholds import Threshold

RETURN_USES = (Use.GIFT, Use.DONATION, Use.ESTATE)
#: Slot for the wording of an oath; counsel or the officer words it.
_OATH = "oath.estate"


def return_figures(context: Context) -> Chapter:
    """Return the preparer's page; without blocks for uses without a return."""
    text = context.text
    heading = text("section.return_figures")
    if context.use not in RETURN_USES or not context.summaries:
        return Chapter(heading, (), ())
    blocks = [Block("", tables=(_items(context),), notice=text(f"return.notice_{context.use}"))]
    recipients = _recipients(context)
    if recipients is not None:
        blocks.append(Block(text("return.recipients"), (text("return.recipients_intro"),), tables=recipients))
    if context.use is Use.ESTATE and in_us(context):
        blocks += _estate(context)
    oath = context.use is Use.ESTATE and context.job.assignment.under_oath is True
    if oath:
        blocks.append(_oath(context))
    intro = text("return.intro", day=context.effective_day, currency=context.printer.currency)
    return Chapter(heading, (intro,), tuple(blocks), signatures(context) if oath else ())


def _items(context: Context) -> Table:
    text, printer = context.text, context.printer
    rows = []
    for number, one in enumerate(context.summaries, start=1):
        item = one.item
        acquired, cost = _acquired(context, item)
        described = "\n".join([context.named_with_serial(item), printer.cell(item.description)]).strip()
        cells = (context.number(item), described, _condition(context, item), acquired, cost, _value_day(context))
        rows.append(Row(cells, (_market_value(context, one),), key=item_key(number)))
    total = next((one.total for one in context.inputs.totals if one.value_type is ValueType.FAIR_MARKET), None)
    if total is not None:
        whole = printer.printed(total, Form.WHOLE_PLAIN)
        rows.append(Row(("", text("common.total"), "", "", "", ""), (whole,), strong=True))
    heads = ("number", "item", "condition", "acquired", "cost", "value_date")
    notes = [text("return.costs_note"), *_lacking(context)]
    return Table(
        text("return.caption"),
        tuple(text(f"head.{one}") for one in heads),
        tuple(rows),
        " ".join(notes),
        (context.value_head(ValueType.FAIR_MARKET),),
    )


def _lacking(context: Context) -> Iterator[str]:
    """Yield which items the total lacks, since they are not concluded."""
    for total in context.inputs.totals:
        if total.value_type is ValueType.FAIR_MARKET and total.lacking:
            name = context.words.word(total.value_type)
            yield context.text("schedule.lacking", value_type=name, items=context.numbers_of(total.lacking))


def _value_day(context: Context) -> str:
    return context.printer.day(context.job.assignment.effective_date)


def _market_value(context: Context, summary: Summary) -> str:
    value = next((one for one in summary.item_values if one.value_type is ValueType.FAIR_MARKET), None)
    return context.text("common.dash") if value is None else context.value_cell(value)


def _condition(context: Context, item: Item) -> str:
    """Return the condition in short, or why the item was not seen; all of it stands in the item's section.

    In short is the first sentence of what is typed on structure, finish and playability.
    """
    shown = context.printer.shown
    if not given(item.inspected_on):
        return context.text("item.not_inspected", reason=shown(item.not_inspected_reason))
    judged = (item.structure, item.finish_condition, item.playability)
    said = [shown(one).partition(". ")[0].rstrip(".") for one in judged if given(one)]
    return "; ".join(said) or context.text("common.not_stated")


def _acquired(context: Context, item: Item) -> tuple[str, str]:
    """Return when and how the owner acquired an item, and what it cost."""
    text, printer = context.text, context.printer
    lines: list[HistoryLine] = context.history.get(str(item.id), [])
    found = [one for one in lines if one.kind is History.ACQUIRED]
    if not found:
        return text("return.acquired_unknown"), text("common.unknown")
    said = "\n".join(", ".join(part for part in (printer.day(one.day), printer.cell(one.how)) if part) for one in found)
    costs = [printer.money(one.price, value_or(one.currency, "")) for one in found if given(one.price)]
    return said or text("return.acquired_unknown"), "\n".join(costs) or text("common.not_stated")


def _recipients(context: Context) -> tuple[Table, ...] | None:
    """Return one table a recipient with its total; None where nobody is named."""
    uses, text, printer = context.inputs.uses, context.text, context.printer
    if not uses.portions or uses.by_recipient is None:
        return None
    tables = []
    heads = (text("head.item"), text("head.part_of_item"), text("head.own_remark"))
    for recipient, total in uses.by_recipient.items():
        rows = [
            Row(
                (
                    context.title(one.line.item),
                    printer.percent(one.line.share) or text("return.whole"),
                    printer.cell(one.line.remark),
                ),
                (printer.printed(one.value, Form.WHOLE_PLAIN),),
            )
            for one in uses.portions
            if str(one.line.recipient) == recipient
        ]
        rows.append(Row((text("common.total"), "", ""), (printer.printed(total, Form.WHOLE_PLAIN),), strong=True))
        tables.append(Table(text("return.recipient", name=recipient), heads, tuple(rows), "", (money_head(context),)))
    return tuple(tables)


#: Limits of the law on an estate's return: on totals, and on the single article.
_ESTATE_SUMS = ("us-estate-oath", "us-estate-collection")
_ESTATE_ARTICLE = "us-estate-article"


def _estate(context: Context) -> Iterator[Block]:
    """Yield what the totals of an estate ask for under the limits in force on the effective date."""
    text, printer = context.text, context.printer
    day = context.job.assignment.effective_date
    if not given(day):
        return
    total = next((one.total for one in context.inputs.totals if one.value_type is ValueType.FAIR_MARKET), None)
    if not isinstance(total, Figure):
        return
    heads = (text("head.limit_rule"), text("head.citation"), text("transfer.reached"))
    rows = [Row((text("return.class_total"), "", ""), (printer.printed(total, Form.WHOLE_PLAIN),), strong=True)]
    for name in _ESTATE_SUMS:
        limit = limit_on(name, day)
        if limit is not None:
            reached = text("common.yes" if limit.reached(total.number) else "common.no")
            rows.append(
                Row((limit_text(context, limit), limit.citation.source, reached), (printer.amount(limit.figure),))
            )
    article = limit_on(_ESTATE_ARTICLE, day)
    if article is not None:
        above = _above(context, article)
        said = context.numbers_of(above) if above else text("common.no")
        rows.append(
            Row((limit_text(context, article), article.citation.source, said), (printer.amount(article.figure),))
        )
    note = translated_note(context)
    table = Table(text("return.limits_caption"), heads, tuple(rows), note, (money_head(context),))
    yield Block(text("return.limits"), (text("return.limits_intro"),), tables=(table,))


def _above(context: Context, limit: Threshold) -> list[str]:
    return [
        str(one.item.id)
        for one in context.summaries
        for value in one.item_values
        if value.value_type is ValueType.FAIR_MARKET
        and isinstance(value.rounded, Figure)
        and limit.reached(value.rounded.number)
    ]


def _oath(context: Context) -> Block:
    clause = official_clause(context, _OATH)
    return Block(
        context.text("return.oath"),
        (context.text("return.oath_text"),),
        quotation=str(clause.official) if clause else "",
        quotation_source=quotation_source(context, clause) if clause else "",
    )


#: Rules of the law that a reader of a tax report should see, in printed order, by kind of misstatement.
_OVER = ("us-overstatement-substantial", "us-overstatement-gross")
_UNDER = ("us-understatement-substantial", "us-understatement-gross")
_BOTH = (
    "us-misstatement-substantial-rate",
    "us-misstatement-gross-rate",
    "us-misstatement-underpayment",
    "us-appraiser-penalty-share",
    "us-appraiser-penalty-least",
    "us-appraiser-penalty-fee-share",
)

#: Every limit of the law whose words are printed here; each has to be translated.
LIMITS = (*_ESTATE_SUMS, _ESTATE_ARTICLE, *_OVER, *_UNDER, *_BOTH)


def penalties(context: Context) -> Chapter:
    """Return what US law calls a misstatement of value, by citation, with the band around each opinion."""
    text = context.text
    heading = text("section.penalties")
    day = context.job.assignment.effective_date
    if context.use not in RETURN_USES or not in_us(context) or not given(day):
        return Chapter(heading, (), ())
    names = ((_OVER if context.use is Use.DONATION else _UNDER), _BOTH)
    rows = tuple(_rule(context, name, day) for group in names for name in group if limit_on(name, day) is not None)
    heads = (text("head.limit_rule"), text("head.citation"), text("penalties.limit"))
    blocks = [Block("", tables=(Table(text("penalties.caption"), heads, rows, translated_note(context)),))]
    bands = context.inputs.uses.bands
    if bands:
        blocks.append(_bands(context))
    side = "over" if context.use is Use.DONATION else "under"
    return Chapter(heading, (text("penalties.intro"), text(f"penalties.{side}")), tuple(blocks))


def _rule(context: Context, name: str, day: date) -> Row:
    limit = limit_on(name, day)
    assert limit is not None
    return Row((limit_text(context, limit), limit.citation.source, _with_unit(context, limit.figure, limit.unit)))


def _with_unit(context: Context, figure: Decimal, unit: str) -> str:
    printer = context.printer
    if unit == "percent":
        return printer.percent(figure)
    if len(unit) == 3 and unit.isupper():
        return printer.money(figure, unit)
    return context.text("penalties.ratio", figure=printer.shown(figure))


def _bands(context: Context) -> Block:
    text, printer = context.text, context.printer
    rows = []
    for one in context.summaries:
        band = context.inputs.uses.bands.get(str(one.item.id))
        if band is None:
            continue
        outcomes: tuple[Outcome, ...] = (band.opinion, band.substantial, band.gross)
        figures = tuple(printer.printed(outcome, Form.WHOLE_PLAIN) for outcome in outcomes)
        rows.append(Row((context.title(one.item.id),), figures))
    side = "over" if context.use is Use.DONATION else "under"
    heads = (text("penalties.opinion"), text(f"penalties.{side}_substantial"), text(f"penalties.{side}_gross"))
    table = Table(text("penalties.bands_caption"), (text("head.item"),), tuple(rows), "", heads)
    return Block(text("penalties.bands"), (text("penalties.bands_intro"),), tables=(table,))
