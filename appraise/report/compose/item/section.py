"""The section of one item, put together."""

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.missing import given
from appraise.report.compose.context import Context, is_word, item_key
from appraise.report.compose.inputs import ItemResult
from appraise.report.compose.item import body
from appraise.report.compose.item.age import age_lines
from appraise.report.compose.item.opinion import bridge_view, missing_opinion, opinion_view
from appraise.report.compose.item.window import window_view
from appraise.report.compose.yearly.opinion import carried_opinion, is_carried
from appraise.report.item_view import ItemView, OpinionView
from appraise.valuing.result import Valuation


def item_view(context: Context, result: ItemResult, number_of_item: int) -> ItemView:
    """Return the section of an item as finished texts; items are counted from 1."""
    item, text = result.item, context.text
    named = context.named(item)
    number = context.number(item)
    key = "item.heading_serial" if given(item.serial) and not is_word(item.serial, "none") else "item.heading"
    return ItemView(
        id=context.printer.shown(item.id),
        key=item_key(number_of_item),
        number=number,
        group_heading=text("section.items") if number_of_item == 1 else "",
        heading=text(key, number=number, name=named, serial=context.printer.cell(item.serial)),
        identification_heading=text("part.identification"),
        identification=body.identification(context, item),
        window=window_view(context, result.window, named),
        originality=body.originality(context, item, _originality(result), named),
        condition_heading=text("part.condition"),
        condition=body.condition(context, item),
        condition_notes=body.condition_notes(context, item),
        inspection=body.inspection_table(context, item, named),
        provenance_heading=text("part.provenance"),
        provenance=body.provenance(context, item),
        history=body.history(context, item, named),
        cautions_heading=text("part.cautions"),
        cautions=_cautions(context, result),
        photos_heading=text("part.photographs"),
        photo_rows=body.photographs(context, item, named),
        photos_note=body.photo_note(context, item),
        opinions=_opinions(context, result, named),
        bridge=bridge_view(context, result, named),
    )


def _cautions(context: Context, result: ItemResult) -> tuple[str, ...]:
    """Return the cautions; the age limits of all laws stand in one paragraph, each on a line of its own."""
    ages = "\n".join(age_lines(context, result.item, result.window))
    return (*body.cautions(context, result.item), *((ages,) if ages else ()))


def _originality(result: ItemResult) -> Outcome | None:
    """Return the item's originality as a figure out of 100, None where no opinion works with one."""
    found = (one.subject.get("originality") for one in result.valuations)
    return next((one for one in found if isinstance(one, NoFigure | Figure) and not _is_word(one)), None)


def _is_word(outcome: Outcome) -> bool:
    return isinstance(outcome, Figure) and isinstance(outcome.value, str)


def _opinions(context: Context, result: ItemResult, named: str) -> tuple[OpinionView, ...]:
    """Return one opinion for each type of value of the job, in its order."""
    by_type = {one.value_type: one for one in result.valuations}
    return tuple(
        _opinion(context, result, by_type[terms.value_type], named)
        if terms.value_type in by_type
        else missing_opinion(context, result.item, terms)
        for terms in context.job.value_terms
        if given(terms.value_type)
    )


def _opinion(context: Context, result: ItemResult, valuation: Valuation, named: str) -> OpinionView:
    """Return one opinion; that of a line carried from last year tells how it was carried."""
    line = context.year_lines.get((str(result.item.id), valuation.value_type))
    if line is not None and not valuation.comparisons and is_carried(line):
        return carried_opinion(context, line, valuation, named)
    return opinion_view(context, result.item, valuation, named)
