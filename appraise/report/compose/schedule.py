"""The schedule: one line for each item by location, the totals, and the collection by decade."""

from collections.abc import Iterable

from appraise.model.figure import Figure
from appraise.model.missing import given
from appraise.records.vocabulary import Use
from appraise.report.compose.context import Context, Summary
from appraise.report.compose.front import totals_table
from appraise.report.compose.inputs import Exposure, Over, Total
from appraise.report.compose.printing import Form
from appraise.report.view import ScheduleView
from appraise.report.view_parts import Line, Row, Table

#: Uses whose schedule is taken out of the report: each line must identify its object by itself.
_IDENTIFIED_IN_THE_LINE = (Use.INSURANCE, Use.CLAIM, Use.YEARLY)


def schedule(context: Context) -> ScheduleView:
    """Return the schedule with its totals."""
    text = context.text
    notes = [
        text(
            "schedule.rounding",
            value_type=context.words.word(total.value_type),
            amount=context.printer.printed(total.difference, Form.MONEY),
        )
        for total in context.inputs.totals
        if isinstance(total.difference, Figure)
    ]
    return ScheduleView(
        heading=text("section.schedule"),
        intro=text("schedule.intro"),
        groups=tuple(_group(context, place, members) for place, members in _by_place(context.summaries)),
        totals=totals_table(context),
        locations=_locations(context),
        facts=tuple(_facts(context)),
        decades=_decades(context),
        notes=tuple(notes),
    )


def _by_place(summaries: Iterable[Summary]) -> list[tuple[str, list[Summary]]]:
    places: dict[str, list[Summary]] = {}
    for one in summaries:
        places.setdefault(one.item.location if given(one.item.location) else "", []).append(one)
    return list(places.items())


def _group(context: Context, place: str, members: list[Summary]) -> Table:
    text, printer = context.text, context.printer
    heads = [text("head.number"), text("head.item"), text("head.made"), text("head.last_seen")]
    rows = []
    for one in members:
        item = one.item
        described = context.named_with_serial(item)
        if given(item.room):
            described += f" ({item.room})"
        facts = [printer.cell(item.description).rstrip(".")]
        if context.use in _IDENTIFIED_IN_THE_LINE:
            facts.append(printer.cell(item.dimensions))
        described = "\n".join([described, "; ".join(fact for fact in facts if fact)]).strip()
        seen = printer.day(item.inspected_on) or text("common.not_inspected")
        cells = (context.number(item), described, one.made, seen)
        rows.append(Row(cells, tuple(context.value_cell(value) for value in one.item_values)))
    sums = [
        printer.printed(total.by_location[place], Form.WHOLE_PLAIN)
        if place in total.by_location
        else text("common.dash")
        for total in context.inputs.totals
    ]
    rows.append(Row(("", text("common.total"), "", ""), tuple(sums), strong=True))
    caption = text("caption.schedule", location=place) if place else text("caption.schedule_nowhere")
    return Table(caption, tuple(heads), tuple(rows), figure_heads=context.value_heads)


def _locations(context: Context) -> Table | None:
    text, printer = context.text, context.printer
    places = _by_place(context.summaries)
    if len(places) < 2:
        return None
    rows = []
    for place, members in places:
        sums = [
            printer.printed(one.by_location[place], Form.WHOLE_PLAIN)
            if place in one.by_location
            else text("common.dash")
            for one in context.inputs.totals
        ]
        rows.append(Row((place or text("common.not_stated"), str(len(members))), tuple(sums)))
    totals = [printer.printed(one.total, Form.WHOLE_PLAIN) for one in context.inputs.totals]
    rows.append(Row((text("common.total"), str(len(context.summaries))), tuple(totals), strong=True))
    heads = (text("head.location"), text("head.items"))
    return Table(text("caption.by_location"), heads, tuple(rows), figure_heads=context.value_heads)


def _facts(context: Context) -> Iterable[Line]:
    """Yield the largest item and the largest location by each type of value."""
    for total in context.inputs.totals:
        name = context.words.word(total.value_type)
        largest = context.by_id.get(total.largest)
        if largest is None:
            continue
        value = next(one for one in largest.item_values if one.value_type is total.value_type)
        what = f"{context.number(largest.item)} {context.named(largest.item)}"
        yield Line(
            context.text("schedule.largest_item", value_type=name),
            _entry(context, what, context.value_cell(value, Form.WHOLE)),
        )
        yield from _largest_place(context, total, name)
        if total.exposure is not None:
            yield from _exposure(context, total.exposure, name)


def _largest_place(context: Context, total: Total, name: str) -> Iterable[Line]:
    place = total.largest_location
    if place is not None:
        what = place or context.text("common.not_stated")
        amount = context.printer.printed(total.by_location[place], Form.WHOLE)
        yield Line(context.text("schedule.largest_location", value_type=name), _entry(context, what, amount))


def _exposure(context: Context, exposure: Exposure, name: str) -> Iterable[Line]:
    """Yield what is kept away from the main location, and what is above the policy's limit for one item."""
    text, printer = context.text, context.printer
    if exposure.main:
        label = text("schedule.away", location=exposure.main, value_type=name)
        if exposure.value is None:
            yield Line(label, text("schedule.away_none"))
        else:
            amount = printer.printed(exposure.value, Form.WHOLE)
            yield Line(label, _entry(context, context.numbers_of(exposure.away), amount))
    cap = context.job.policy.item_cap
    if given(cap):
        label = text("schedule.over", limit=printer.money(cap), value_type=name)
        entries = [
            _entry(context, _over_name(context, one), printer.printed(one.value, Form.WHOLE)) for one in exposure.over
        ]
        yield Line(label, "\n".join(entries) if entries else text("schedule.over_none"))


def _over_name(context: Context, over: Over) -> str:
    numbers = context.numbers_of(over.items)
    return context.text("schedule.over_set", set=over.set_id, items=numbers) if over.set_id else numbers


def _entry(context: Context, what: str, amount: str) -> str:
    return context.text("schedule.largest_entry", what=what, amount=amount)


def _decades(context: Context) -> Table | None:
    """Return the items by decade of manufacture; none for a single item."""
    if len(context.summaries) < 2:
        return None
    text = context.text
    rows = []
    for line in context.decades:
        first = "" if line.first is None else str(line.first)
        last = "" if line.last is None else str(line.last + 9)
        rows.append(
            Row(
                (
                    text(f"decade.{line.span.name.lower()}", first=first, last=last),
                    str(len(line.items)),
                    context.numbers_of(line.items),
                    context.numbers_of(line.provisional) or text("common.dash"),
                )
            )
        )
    heads = tuple(text(f"head.{one}") for one in ("decade", "items", "which", "provisional"))
    return Table(text("caption.decades"), heads, tuple(rows))
