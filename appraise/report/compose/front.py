"""Cover, letter of transmittal, summary of values, open points: what is read first."""

from appraise.findings.entries import action, entry_of, message
from appraise.model.missing import given
from appraise.records.vocabulary import AssumptionKind
from appraise.report.compose.context import Context, capital, item_key
from appraise.report.compose.printing import Form
from appraise.report.compose.yearly.sentences import letter_sentences, not_seen_anew
from appraise.report.view import Cover, Letter, Signature
from appraise.report.view import Summary as SummaryView
from appraise.report.view_parts import Line, Passage, Row, Table


def cover(context: Context) -> Cover:
    """Return the cover."""
    a, printer, text = context.job.assignment, context.printer, context.text
    lines = [
        Line(text("label.prepared_for"), printer.shown(a.client)),
        Line(text("label.intended_use"), printer.shown(a.intended_use)),
        Line(text("label.owner"), printer.shown(a.owner)),
        Line(text("label.effective"), printer.shown(a.effective_date)),
        Line(text("label.report_date"), printer.shown(a.report_date)),
        Line(text("label.option"), printer.shown(a.report_option)),
        Line(text("label.prepared_by"), printer.joined(signers(context)) or text("common.not_stated")),
    ]
    if given(a.issue_number):
        lines.append(Line(text("label.issue"), printer.shown(a.issue_number)))
    if given(a.replaces_issue):
        lines.append(Line(text("label.replaces"), a.replaces_issue))
    if context.inputs.redacted:
        lines.insert(0, Line(text("redacted.label"), text("redacted.note")))
    use = text(f"use.{context.use}") if context.use_given else text("common.not_stated")
    return Cover(
        kicker=_kicker(context),
        title=printer.shown(a.title),
        subtitle=text("cover.subtitle", use=use, value_types=context.value_type_words, day=context.effective_day),
        lines=tuple(lines),
        draft_note=text("cover.draft") if context.inputs.draft else "",
        caution=text("cover.caution"),
    )


def _kicker(context: Context) -> str:
    kicker = context.text("section.cover")
    return context.text("redacted.kicker", kicker=kicker) if context.inputs.redacted else kicker


def signers(context: Context) -> list[str]:
    """Return the names of those who sign, in the order typed; the appraisers where nobody is marked."""
    people = [one for one in context.job.people if given(one.name)]
    signing = [str(one.name) for one in people if one.signs is True]
    return signing or [str(one.name) for one in people if given(one.role) and "appraiser" in one.role]


def signatures(context: Context) -> tuple[Signature, ...]:
    """Return a place to sign for each person who signs; one without a name if nobody is named."""
    by_name = {one.name: one for one in context.job.people}
    sign, day = context.text("certification.signature"), context.text("certification.date")
    names = signers(context)
    if not names:
        return (Signature(context.text("common.not_stated"), "", sign, day),)
    return tuple(Signature(name, context.printer.cell(by_name[name].role), sign, day) for name in names)


def letter(context: Context) -> Letter:
    """Return the letter of transmittal with the totals."""
    a, printer, text = context.job.assignment, context.printer, context.text
    count = context.words.number("items_count", len(context.summaries))
    together = len(signers(context)) > 1
    if not_seen_anew(context):
        key = "letter.opening_unseen_we" if together else "letter.opening_unseen"
    else:
        key = "letter.opening_we" if together else "letter.opening"
    opening = text(
        key,
        items=count,
        use=printer.shown(a.intended_use).rstrip("."),
        day=context.effective_day,
        section=text("section.scope"),
    )
    people = {one.name: one for one in context.job.people}
    sender: list[str] = []
    for name in signers(context):
        sender += [name, *_lines(printer.cell(people[name].address))]
    return Letter(
        heading=text("section.letter"),
        sender=tuple(sender),
        day=printer.shown(a.report_date, text("letter.undated")),
        addressee=(printer.shown(a.client), *_lines(printer.cell(a.client_address))),
        subject=text(
            "letter.subject",
            title=printer.shown(a.title),
            value_types=context.value_type_words,
            day=context.effective_day,
        ),
        salutation=text("letter.salutation", client=printer.shown(a.client)),
        opening=(opening, text("letter.values", currency=printer.currency)),
        totals=totals_table(context),
        paragraphs=tuple(_letter_body(context)),
        closing=text("letter.closing"),
        signatures=signatures(context),
    )


def _lines(address: str) -> list[str]:
    return [one.strip() for one in address.replace("\n", ",").split(",") if one.strip()]


def _letter_body(context: Context) -> list[str]:
    text = context.text
    kinds = [one.kind for one in context.job.assumptions]
    extraordinary, hypothetical = (kinds.count(kind) for kind in AssumptionKind)
    body = [*letter_sentences(context), text("letter.reliance")]
    if extraordinary or hypothetical:
        stated = []
        if extraordinary:
            stated.append(context.words.number("letter.extraordinary", extraordinary))
        if hypothetical:
            stated.append(context.words.number("letter.hypothetical", hypothetical))
        body.append(
            text("letter.assumptions", stated=context.printer.joined(stated), section=text("section.assumptions"))
        )
    else:
        body.append(text("letter.no_assumptions"))
    body.append(text("letter.whole"))
    if context.inputs.draft:
        body.append(text("letter.draft"))
    return body


def totals_table(context: Context) -> Table:
    """Return one row for each type of value with its total, and what a total lacks."""
    text, printer = context.text, context.printer
    rows, notes = [], []
    for total in context.inputs.totals:
        name = context.words.word(total.value_type)
        rows.append(Row((capital(name), printer.printed(total.total, Form.WHOLE)), strong=True))
        if total.lacking:
            notes.append(text("schedule.lacking", value_type=name, items=context.numbers_of(total.lacking)))
    return Table(text("caption.totals"), (text("head.value_type"), text("common.total")), tuple(rows), " ".join(notes))


def summary(context: Context) -> SummaryView:
    """Return the summary of values: one row for each item, totals below."""
    text, printer = context.text, context.printer
    heads = [text("head.number"), text("head.item"), text("head.made"), text("head.photo")]
    rows = []
    for number, one in enumerate(context.summaries, start=1):
        item = one.item
        described = context.named_with_serial(item)
        photographed = bool(context.inputs.photos.get(str(item.id)))
        photo = text("summary.photo_cell", number=context.number(item), index="1") if photographed else ""
        cells = [context.number(item), described, one.made, photo]
        amounts = tuple(context.value_cell(value) for value in one.item_values)
        rows.append(Row(tuple(cells), amounts, key=item_key(number)))
    totals = tuple(printer.printed(total.total, Form.WHOLE_PLAIN) for total in context.inputs.totals)
    total_row = Row(("", text("common.total"), "", ""), totals, strong=True)
    lacking = [
        text(
            "schedule.lacking", value_type=context.words.word(total.value_type), items=context.numbers_of(total.lacking)
        )
        for total in context.inputs.totals
        if total.lacking
    ]
    return SummaryView(
        heading=text("section.summary"),
        intro=text("summary.intro"),
        table=Table(text("caption.summary"), tuple(heads), (*rows, total_row), figure_heads=context.value_heads),
        note=" ".join(lacking),
    )


def open_points(context: Context) -> Passage:
    """Return the findings without an answer that a draft lists at its front; stops come first."""
    text = context.text
    still = [one.finding for one in context.inputs.findings if one.answer is None]
    rank = {"stop, impossible": 0, "stop, contrary to practice": 1, "warn": 2, "note": 3}
    still.sort(key=lambda one: (rank[entry_of(one).severity], one.place, one.code))
    rows = tuple(
        Row((one.code, context.words.word(entry_of(one).severity), context.place(one.place), message(one), action(one)))
        for one in still
        if rank[entry_of(one).severity] < 3
    )
    heads = tuple(text(f"head.{key}") for key in ("code", "severity", "where", "point", "to_do"))
    table = Table(text("caption.open_points"), heads, rows) if rows else None
    stops = any(entry_of(one).severity.stops for one in still)
    intro = text("open_points.intro" if stops else "open_points.none" if rows else "open_points.clear")
    return Passage(text("section.open_points"), (intro,), table)
