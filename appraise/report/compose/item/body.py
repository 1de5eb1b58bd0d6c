"""Identification, originality, condition, provenance, cautions and photographs of an item."""

from collections.abc import Iterator

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import NOT_INSPECTED, given, value_or
from appraise.records.items import HistoryLine, InspectionLine, Item, Part, Photo
from appraise.records.vocabulary import Combine, History, PartState
from appraise.report.compose.context import Context, is_word
from appraise.report.compose.printing import Form
from appraise.report.compose.scope import combine_words
from appraise.report.engine.views import Picture
from appraise.report.item_view import PhotoRow
from appraise.report.view_parts import Line, Passage, Row, Table

#: Photographs in a row, as `PhotoRow` has places.
IN_A_ROW = 3
#: Columns of the originality table that stand even where no part was changed: part, state, what told it.
ALWAYS_TOLD = 3


def identification(context: Context, item: Item) -> tuple[Line, ...]:
    """Return what the item is, line by line."""
    printer, text = context.printer, context.text
    always: list[tuple[str, object]] = [
        ("maker", item.maker),
        ("model", item.model),
        ("serial", item.serial),
        ("family", item.family),
        ("attribution", item.attribution),
        ("description", item.description),
        ("dimensions", item.dimensions),
        ("finish", item.finish_class),
    ]
    optional: list[tuple[str, object]] = [
        ("markings", item.markings),
        ("attribution_reason", item.attribution_reason),
        ("location", item.location),
        ("room", item.room),
        ("set", item.set_id),
        ("item_id", item.id),
    ]
    lines = [Line(text(f"label.{key}"), printer.shown(value)) for key, value in always]
    lines += [Line(text(f"label.{key}"), printer.shown(value)) for key, value in optional if given(value)]
    if given(item.quantity) and item.quantity != 1:
        lines.append(Line(text("label.quantity"), text("item.quantity", count=printer.shown(item.quantity))))
    lines.append(Line(text("label.inspected"), inspection_sentence(context, item)))
    return tuple(lines)


def inspection_sentence(context: Context, item: Item) -> str:
    """Return when the item was inspected, or why it was not."""
    if given(item.inspected_on):
        return context.text("item.inspected", day=context.printer.shown(item.inspected_on))
    if given(item.not_inspected_reason):
        return context.text("item.not_inspected", reason=item.not_inspected_reason)
    return context.text("item.not_inspected_plain")


def originality(context: Context, item: Item, figure: Outcome | None, named: str) -> Passage:
    """Return the originality table, what is not established, and the figure that follows from it."""
    text, printer = context.text, context.printer
    parts: list[Part] = context.parts.get(str(item.id), [])
    heading = text("part.originality")
    if not parts:
        return Passage(heading, (text("originality.none"),), None)
    paragraphs = [text("originality.intro")]
    unknown = [printer.shown(one.part) for one in parts if one.state is PartState.UNKNOWN or not given(one.state)]
    if unknown:
        paragraphs.append(text("originality.unknown_note", parts=printer.joined(unknown)))
    if figure is not None:
        paragraphs.append(_figure_sentence(context, figure, deducted=any(given(one.deduction) for one in parts)))
    rows = tuple(_part_row(context, one) for one in parts)
    heads = tuple(text(f"head.{one}") for one in ("part", "state", "seen_by", "undone", "deduction", "reason"))
    note = text("originality.table_note")
    if not any(any(row.cells[ALWAYS_TOLD:]) for row in rows):
        heads, note = heads[:ALWAYS_TOLD], ""
        rows = tuple(Row(row.cells[:ALWAYS_TOLD]) for row in rows)
    table = Table(text("caption.parts", item=named), heads, rows, note)
    return Passage(heading, tuple(paragraphs), table)


def _part_row(context: Context, part: Part) -> Row:
    printer = context.printer
    undone = []
    if given(part.reversible):
        undone.append(context.text("originality.reversible" if part.reversible else "originality.not_reversible"))
    if given(part.original_kept):
        undone.append(context.text("originality.kept" if part.original_kept else "originality.not_kept"))
    if given(part.changed):
        undone.append(context.text("originality.changed", when=part.changed))
    deduction = printer.percent(part.deduction)
    return Row(
        (
            printer.shown(part.part),
            printer.shown(part.state),
            printer.cell(part.evidence),
            "; ".join(undone),
            deduction,
            printer.cell(part.deduction_reason),
        )
    )


def _figure_sentence(context: Context, figure: Outcome, *, deducted: bool) -> str:
    a = context.job.assignment
    if isinstance(figure, Figure) and not deducted and figure.number == 100:
        return context.text("originality.figure_whole", figure=context.printer.printed(figure, Form.NUMBER))
    mode = combine_words(context, value_or(a.combine_deductions, Combine.MULTIPLY))
    printed = context.printer.printed(figure, Form.NUMBER)
    if given(a.originality_floor):
        floor = context.printer.shown(a.originality_floor)
        return context.text("originality.figure_floor", figure=printed, mode=mode, floor=floor)
    return context.text("originality.figure", figure=printed, mode=mode)


def condition(context: Context, item: Item) -> tuple[Line, ...]:
    """Return the four judgements, the grade in words and the cost to correct."""
    printer, text = context.printer, context.text
    lines = [
        Line(text("label.structure"), printer.shown(item.structure)),
        Line(text("label.finish_condition"), printer.shown(item.finish_condition)),
        Line(text("label.wear"), printer.shown(item.wear)),
        Line(text("label.playability"), printer.shown(item.playability)),
        Line(text("label.grade"), _grade(context, item)),
    ]
    if given(item.cost_to_correct) and item.cost_to_correct > 0:
        lines.append(Line(text("label.cost_to_correct"), printer.money(item.cost_to_correct)))
    return tuple(lines)


def _grade(context: Context, item: Item) -> str:
    printer = context.printer
    if not given(item.grade):
        return printer.shown(item.grade)
    words = next(
        (
            one.words
            for one in context.job.scales
            if one.scale == item.scale and one.grade == item.grade and given(one.words)
        ),
        "",
    )
    shown = printer.shown(item.grade)
    if words:
        return context.text("item.grade_words", grade=shown, words=str(words))
    return context.text("item.grade_plain", grade=shown)


def condition_notes(context: Context, item: Item) -> tuple[str, ...]:
    """Return the notes below the condition."""
    notes = []
    if given(item.cost_to_correct) and item.cost_to_correct > 0:
        notes.append(context.text("condition.cost_note"))
    lines: list[InspectionLine] = context.inspection.get(str(item.id), [])
    if any(_unseen(one) for one in lines):
        notes.append(context.text("condition.not_inspected_count"))
    return tuple(notes)


def inspection_table(context: Context, item: Item, named: str) -> Table | None:
    """Return the inspection form as filled in, None if nothing was recorded."""
    text, printer = context.text, context.printer
    lines: list[InspectionLine] = context.inspection.get(str(item.id), [])
    rows = []
    for one in lines:
        found = printer.shown(one.found, text("common.not_inspected"))
        if given(one.reason):
            found = text("item.found_reason", found=found, reason=one.reason)
        rows.append(Row((printer.shown(one.line), found)))
    heads = (text("head.looked_at"), text("head.found"))
    return Table(text("caption.inspection", item=named), heads, tuple(rows)) if rows else None


def _unseen(line: InspectionLine) -> bool:
    return line.found is NOT_INSPECTED or not given(line.found) or is_word(line.found, "not inspected")


def provenance(context: Context, item: Item) -> tuple[Line, ...]:
    """Return provenance, title, the check against registers, and the owner's story as the owner's."""
    printer, text = context.printer, context.text
    lines = [
        Line(text("label.provenance"), printer.shown(item.provenance)),
        Line(text("label.title_evidence"), printer.shown(item.title_evidence, text("provenance.no_title"))),
        Line(text("label.theft_check"), printer.shown(item.theft_check, text("provenance.no_theft_check"))),
    ]
    if given(item.owner_statement) and not is_word(item.owner_statement, "none"):
        told = text("provenance.owner_statement", text=item.owner_statement)
        lines.append(Line(text("label.owner_statement"), told))
    if not context.history.get(str(item.id)) or _only_none_known(context, item):
        known = bool(context.history.get(str(item.id)))
        shown = text("provenance.history_none") if known else text("common.not_stated")
        lines.append(Line(text("label.history"), shown))
    return tuple(lines)


def _only_none_known(context: Context, item: Item) -> bool:
    lines: list[HistoryLine] = context.history.get(str(item.id), [])
    return all(one.kind is History.NONE_KNOWN for one in lines)


def history(context: Context, item: Item, named: str) -> Table | None:
    """Return past dealings with the item itself, None if none is known."""
    text, printer = context.text, context.printer
    lines: list[HistoryLine] = context.history.get(str(item.id), [])
    if not lines or _only_none_known(context, item):
        return None
    rows = tuple(
        Row(
            (
                printer.day(one.day) or text("common.not_stated"),
                printer.shown(one.kind),
                printer.cell(one.how),
                printer.money(one.price, value_or(one.currency, "")),
                printer.cell(one.remark),
            )
        )
        for one in lines
    )
    heads = ("day", "kind", "how", "price", "remark")
    return Table(text("caption.history", item=named), tuple(text(f"head.{one}") for one in heads), rows)


def cautions(context: Context, item: Item) -> tuple[str, ...]:
    """Return what is said of restricted materials and of mains voltage."""
    text = context.text
    said = list(_materials(context, item))
    if item.mains_powered is True:
        said.append(text("caution.mains"))
    return tuple(said)


def _materials(context: Context, item: Item) -> Iterator[str]:
    text, printer = context.text, context.printer
    typed = item.restricted_materials
    if not given(typed):
        yield text("caution.materials_unknown")
    elif is_word(typed, "none seen") or is_word(typed, "none"):
        yield text("caution.nothing_seen")
        return
    else:
        yield text("caution.materials_typed", text=typed.rstrip("."))
    if given(item.permits):
        yield text("caution.permits", text=printer.shown(item.permits).rstrip("."))
    yield text("caution.materials")


def photographs(context: Context, item: Item, named: str) -> tuple[PhotoRow, ...]:
    """Return the prepared photographs with captions, three by three, in the order typed."""
    text, printer = context.text, context.printer
    prepared = {one.file: one for one in context.inputs.photos.get(str(item.id), ())}
    typed: list[Photo] = context.photos.get(str(item.id), [])
    pictures: list[Picture] = []
    for photo in typed:
        file = prepared.get(str(photo.file))
        if file is None:
            continue
        fields = {
            "number": context.number(item),
            "index": str(len(pictures) + 1),
            "caption": printer.shown(photo.caption),
        }
        if given(photo.taken):
            caption = text("caption.photo_taken", day=printer.day(photo.taken), **fields)
        else:
            caption = text("caption.photo", **fields)
        alt = text("caption.photo_alt", item=named, caption=printer.shown(photo.caption))
        pictures.append(Picture(file.source, file.sha256, file.width, file.height, alt, caption))
    padded: list[Picture | None] = [*pictures, None, None]
    return tuple(PhotoRow(pictures[at], padded[at + 1], padded[at + 2]) for at in range(0, len(pictures), IN_A_ROW))


def photo_note(context: Context, item: Item) -> str:
    """Return the note below the photographs, naming files that could not be shown."""
    prepared = {one.file for one in context.inputs.photos.get(str(item.id), ())}
    typed: list[Photo] = context.photos.get(str(item.id), [])
    absent = [str(one.file) for one in typed if given(one.file) and one.file not in prepared]
    if not prepared:
        return context.text("photos.unprepared" if absent else "photos.none")
    note = context.text("photos.note")
    return " ".join([note, *(context.text("photos.absent", file=one) for one in absent)])
