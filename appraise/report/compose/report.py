"""The whole report, from its inputs to a composition the engine can render."""

from collections.abc import Iterator
from dataclasses import fields
from datetime import date

from appraise.model.missing import given, value_or
from appraise.records.job import Job
from appraise.report.compose import assignment, certification, closing, front, limiting, manifest, schedule, scope
from appraise.report.compose.context import Context
from appraise.report.compose.inputs import ReportInputs
from appraise.report.compose.item.section import item_view
from appraise.report.compose.printing import PrintedFigures, Printer
from appraise.report.compose.uses import (
    alternate,
    claim,
    derived,
    division,
    expert,
    policy,
    return_figures,
    selling,
    transfer,
)
from appraise.report.compose.yearly.section import yearly
from appraise.report.engine.views import Edges, Properties
from appraise.report.item_view import ItemView
from appraise.report.view import Chapter, Composed, ReportView
from appraise.wording.numbers import language
from appraise.wording.texts import texts

#: The file's date where the report's day is blank; a stop says that it is missing, so only drafts carry it.
_NO_DAY = date(2000, 1, 1)

#: Territories that use letter paper (CLDR, paper size data; from memory).
_LETTER_PAPER = frozenset({"BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"})


def compose(inputs: ReportInputs, figures: PrintedFigures | None = None) -> Composed:
    """Return the report as finished texts; item sections are made one by one as they are asked for.

    figures  takes note of every figure printed
    """
    context = Context(inputs, printer_for(inputs.job, figures))
    report = _report(context)
    return Composed(
        properties=_properties(context, report.title),
        edges=_edges(context),
        sections=manifest.sections(context.use, inputs.draft, _silent(report)),
        report=report,
        items=_items(context),
    )


def printer_for(job: Job, figures: PrintedFigures | None = None) -> Printer:
    """Return the printer of a job: its language, the appraiser's own texts, its currency.

    figures  takes note of every figure printed
    """
    a = job.assignment
    lang = language(value_or(a.report_language, "en"), value_or(a.workbook_locale, ""))
    replaced = {one.key: one.text for one in job.clauses if given(one.key) and given(one.text)}
    return Printer(lang, texts(lang.code, replaced), value_or(a.currency, "USD"), figures)


def _items(context: Context) -> Iterator[ItemView]:
    for number, result in enumerate(context.inputs.results(), start=1):
        yield item_view(context, result, number)


def _report(context: Context) -> ReportView:
    return ReportView(
        title=context.printer.shown(context.job.assignment.title),
        draft=context.inputs.draft,
        table_label=context.text("common.table"),
        figure_label=context.text("common.figure"),
        cover=front.cover(context),
        letter=front.letter(context),
        contents_heading=context.text("section.contents"),
        open_points=front.open_points(context),
        summary=front.summary(context),
        assignment=assignment.assignment(context),
        assumptions=assignment.assumptions(context),
        scope=scope.scope(context),
        market=assignment.market(context),
        schedule=schedule.schedule(context),
        yearly=yearly(context),
        transfer=transfer.transfer(context),
        return_figures=return_figures.return_figures(context),
        penalties=return_figures.penalties(context),
        alternate=alternate.alternate(context),
        claim=claim.claim(context),
        policy=policy.policy(context),
        division=division.division(context),
        proceeds=selling.proceeds(context),
        liquidation=selling.liquidation(context),
        derived=derived.derived(context),
        expert=expert.expert(context),
        answered=closing.answered(context),
        certification=certification.certification(context),
        limiting=limiting.limiting(context),
        qualifications=closing.qualifications(context),
        glossary=closing.glossary(context),
        sources=closing.sources(context),
        elements=closing.elements(context),
    )


def _silent(report: ReportView) -> frozenset[str]:
    """Return the names of the sections that have nothing to say in this report."""
    chapters = {one.name: getattr(report, one.name) for one in fields(report)}
    silent = {name for name, held in chapters.items() if isinstance(held, Chapter) and not held.blocks}
    return frozenset(silent if report.answered.table else {*silent, manifest.ANSWERED})


def _properties(context: Context, title: str) -> Properties:
    a = context.job.assignment
    return Properties(
        title=title,
        language=context.printer.lang.tag,
        created=value_or(a.report_date, _NO_DAY),
        author=", ".join(front.signers(context)),
        subject=context.text(f"use.{context.use}"),
        paper="letter" if context.printer.lang.locale.territory in _LETTER_PAPER else "A4",
    )


def _edges(context: Context) -> Edges:
    a, text = context.job.assignment, context.text
    return Edges(
        header_left=context.printer.shown(a.title),
        header_right=text("edges.effective", day=context.effective_day),
        footer_left=text("edges.report_of", day=context.printer.shown(a.report_date))
        if given(a.report_date)
        else text("edges.undated"),
        page=text("common.page"),
        of=text("common.of"),
        draft=text("common.draft_mark"),
    )
