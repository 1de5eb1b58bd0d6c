"""What the report of a witness tells beside its opinions: case, pay, record, and all that was considered."""

from collections.abc import Iterator

from appraise.model.missing import given
from appraise.records.declare import filled
from appraise.records.transfers import CourtCase, ExpertRecord
from appraise.records.vocabulary import ExpertRecordKind, Use
from appraise.report.compose.context import Context, is_word
from appraise.report.compose.uses.parts import entries, lines
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Row, Table

_TESTIMONY = (ExpertRecordKind.TRIAL, ExpertRecordKind.DEPOSITION)


def expert(context: Context) -> Chapter:
    """Return the particulars of an expert's report; without blocks for other uses."""
    text, case = context.text, context.job.court_case
    heading = text("section.expert")
    if context.use is not Use.EXPERT or case == filled(CourtCase):
        return Chapter(heading, (), ())
    typed = (
        ("expert.court", case.court),
        ("expert.case", case.case),
        ("expert.engaged_for", case.engaged_for),
        ("expert.disclosure_due", case.disclosure_due),
        ("expert.compensation", case.compensation),
    )
    blocks = [Block("", lines=lines(context, typed)), *_considered(context), *_records(context)]
    return Chapter(heading, (text("expert.intro"),), tuple(blocks))


def _considered(context: Context) -> Iterator[Block]:
    """Yield what was considered, kept apart by where it came from."""
    text, case = context.text, context.job.court_case
    yield Block(text("expert.considered"), (text("expert.considered_text"),))
    for key, value in (
        ("facts_supplied", case.facts_supplied),
        ("assumptions_supplied", case.assumptions_supplied),
        ("data_considered", case.data_considered),
        ("exhibits", case.exhibits),
    ):
        said = (text("expert.none"),) if is_word(value, "none") else entries(context.printer.shown(value))
        yield Block(text(f"expert.{key}"), said)


def _records(context: Context) -> Iterator[Block]:
    text = context.text
    for person in context.job.people:
        own = [one for one in context.job.expert_record if given(person.id) and one.person == person.id]
        if not own:
            continue
        name = context.printer.shown(person.name)
        yield _record(context, text("expert.publications", name=name), "expert.no_publications", own, False)
        yield _record(context, text("expert.testimony", name=name), "expert.no_testimony", own, True)


def _record(context: Context, heading: str, none: str, own: list[ExpertRecord], testimony: bool) -> Block:
    printer, text = context.printer, context.text
    kinds = _TESTIMONY if testimony else (ExpertRecordKind.PUBLICATION,)
    rows = tuple(
        Row((printer.day(one.day), printer.shown(one.kind), printer.shown(one.what)))
        for one in own
        if one.kind in kinds
    )
    if not rows:
        return Block(heading, (text(none),))
    heads = (text("head.day"), text("head.kind"), text("expert.what"))
    return Block(heading, tables=(Table(heading, heads, rows),))
