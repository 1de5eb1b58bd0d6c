"""Qualifications, terms used, sources, findings answered in writing, required elements."""

import re
from datetime import date

from appraise.checks.elements import ElementState
from appraise.findings.entries import entry_of, message
from appraise.model.missing import given, value_or
from appraise.report.compose.context import Context, capital, ids_in
from appraise.report.view import Clause, ClausesView, GlossaryView, SourcesView
from appraise.report.view_parts import Line, Passage, Row, Table
from appraise.rules.cited import NO_EDITION, Citation
from appraise.rules.uses import Element, use_rules
from appraise.wording.texts import originals


def qualifications(context: Context) -> ClausesView:
    """Return what qualifies each person who formed an opinion or helped."""
    text, printer = context.text, context.printer
    clauses = []
    for one in context.job.people:
        paragraphs = [line.strip() for line in value_or(one.credentials, "").splitlines() if line.strip()]
        if given(one.categories):
            kinds = printer.joined(ids_in(one.categories))
            paragraphs.append(text("qualifications.categories", categories=kinds))
        if given(one.assistance):
            paragraphs.append(text("qualifications.assistance", assistance=one.assistance.strip().rstrip(".")))
        if given(one.address):
            paragraphs.append(text("qualifications.address", address=one.address.replace("\n", ", ")))
        heading = printer.shown(one.name)
        if given(one.role):
            heading = text("qualifications.heading", name=heading, role=context.words.word(one.role))
        clauses.append(Clause(heading, tuple(paragraphs)))
    return ClausesView(text("section.qualifications"), text("qualifications.intro"), tuple(clauses))


def glossary(context: Context) -> GlossaryView:
    """Return the terms used, sorted as the language's texts stand."""
    lines = []
    for key in originals():
        if key.startswith("term."):
            term, _, meaning = context.text(key).partition(":")
            lines.append(Line(term.strip(), meaning.strip()))
    lines.sort(key=lambda one: one.label.casefold())
    return GlossaryView(context.text("section.glossary"), context.text("glossary.intro"), tuple(lines))


def sources(context: Context) -> SourcesView:
    """Return the bibliography as entered, then the rules of law cited for the definitions."""
    entries = [context.printer.shown(one.text) for one in context.job.sources if given(one.text)]
    intro = context.text("sources.intro" if entries else "sources.none")
    return SourcesView(context.text("section.sources"), intro, tuple(entries))


def answered(context: Context) -> Passage:
    """Return the findings with their written answers."""
    text = context.text
    rows = []
    for one in context.inputs.findings:
        if one.answer is None:
            continue
        shown = context.printer.shown
        written = text(
            "answered.signed",
            reason=shown(one.answer.reason),
            initials=shown(one.answer.initials),
            day=context.printer.day(one.answer.day) or text("common.not_stated"),
        )
        severity = context.words.word(entry_of(one.finding).severity)
        rows.append(Row((one.finding.code, severity, _for_readers(context, message(one.finding)), written)))
    heads = (text("head.code"), text("head.severity"), text("head.point"), text("head.answer"))
    table = Table(text("caption.answered"), heads, tuple(rows)) if rows else None
    return Passage(text("section.answered"), (text("answered.intro"),) if rows else (), table)


#: A day as findings write it.
_ISO_DAY = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")


def _for_readers(context: Context, point: str) -> str:
    """Return a finding as the report tells it: statements by their words for their ids, days as the report has them."""
    for one in context.job.evidence:
        if given(one.id):
            said = f'"{context.printer.shown(one.part)}: {context.printer.shown(one.statement)}"'
            point = re.sub(rf"(?<![\w-]){re.escape(one.id)}(?![\w-])", said.replace("\\", r"\\"), point)
    return _ISO_DAY.sub(lambda found: _day(context, found[0]), point)


def _day(context: Context, typed: str) -> str:
    try:
        return context.printer.day(date.fromisoformat(typed))
    except ValueError:
        return typed


def elements(context: Context) -> Passage:
    """Return the required elements with their citation and where each stands; it never says that a report complies."""
    text = context.text
    rules = use_rules(context.use)
    paragraphs = [text("elements.intro")]
    if rules.covered:
        paragraphs.append(
            text(
                "elements.caution_covered",
                covered=context.printer.joined(map(context.printer.territory, rules.covered)),
            )
        )
    if context.words.translated:
        paragraphs.append(text("assignment.translated"))
    notes: dict[str, int] = {}
    rows = tuple(_element_row(context, one, notes) for one in context.inputs.elements)
    heads = (text("head.element"), text("head.citation"), text("head.present"), text("head.section"))
    explained = "\n".join(text("elements.note", number=str(number), text=note) for note, number in notes.items())
    table = Table(text("caption.elements"), heads, rows, explained) if rows else None
    return Passage(text("section.elements"), tuple(paragraphs), table)


def _element_row(context: Context, state: ElementState, notes: dict[str, int]) -> Row:
    """Return one row; what is said of the edition that was read is counted and stands once below the table."""
    element, text = state.element, context.text
    if state.present:
        present = text("elements.present")
    elif state.lacking:
        present = text("elements.partly", items=context.numbers_of(state.lacking) or ", ".join(state.lacking))
    else:
        present = text("elements.absent")
    where = text(f"section.{'items' if element.section == 'item' else element.section}")
    number = notes.setdefault(_edition(context, element.citation), len(notes) + 1)
    citation = text("elements.cited", source=element.citation.source, number=str(number))
    return Row((_statement(context, element), citation, present, where))


def _statement(context: Context, element: Element) -> str:
    """Return what an element asks; one that a use words in its own way is looked for under that use first."""
    general = context.words.rule(f"element.{element.id}", element.statement)
    return context.words.rule(f"element.{context.use}.{element.id}", general)


def _edition(context: Context, citation: Citation) -> str:
    seen = context.words.word(citation.seen)
    if citation.edition == NO_EDITION:
        return capital(context.text("elements.edition_plain", seen=seen))
    if citation.valid_from is None:
        return context.text("elements.edition", edition=citation.edition, seen=seen)
    day = context.printer.shown(citation.valid_from)
    return context.text("elements.edition_from", edition=citation.edition, seen=seen, day=day)
