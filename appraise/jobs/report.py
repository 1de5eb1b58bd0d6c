"""`appraise report`: the formal report as a Word document, or a draft of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import BinaryIO

from appraise.checks.elements import element_states
from appraise.findings.terminal import all_lines, count_line
from appraise.jobs.compute import Computed, named
from appraise.jobs.examine import Examined, Progress, examine
from appraise.jobs.outputs import Outputs
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import given, value_or
from appraise.photos.files import locate
from appraise.photos.prepare import Prepared, prepare_all
from appraise.records.vocabulary import ValueType
from appraise.report.compose.inputs import AnsweredFinding, ItemResult, PreparedPhoto, ReportInputs, Total
from appraise.report.compose.printing import PrintedFigures
from appraise.report.compose.report import compose
from appraise.report.compose.sums import bridge, totals
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.inspect import require_sound
from appraise.report.engine.render import render

#: Prepared copies of photographs are kept here, inside the output folder, from one run to the next.
KEPT_PHOTOS = "prepared"


@dataclass(frozen=True, slots=True)
class Reported:
    """What `report` did.

    written  the files written, the report first; empty if open stops kept it from being written
    """

    examined: Examined
    written: tuple[Path, ...]
    draft: bool

    @property
    def open_stops(self) -> int:
        """Number of open stops."""
        return self.examined.open_stops

    def lines(self) -> Iterator[str]:
        """Yield the open stops, the count, and what was or was not written."""
        stops = [one for one in self.examined.judged if one.stops]
        yield from all_lines(stops, self.examined.where, how_to_answer=True)
        yield count_line(self.examined.counts)
        if not self.written:
            yield "No report written. Settle the stops, or write a draft with --draft."
            return
        yield f"{'Draft' if self.draft else 'Report'}: {self.written[0]}"
        if self.examined.counts.warnings or self.examined.counts.notes:
            yield f"For the other findings run: appraise check {self.examined.path}"


def write_report(
    path: Path,
    out: Path | None,
    *,
    draft: bool,
    overwrite: bool,
    today: date,
    progress: Progress | None = None,
) -> Reported:
    """Write the report of the job at `path`.

    out    folder for the outputs; None: beside the workbook, named after it
    draft  write even with open stops, marked on every page
    Raises UnusableFile where a file cannot be read or written.
    """
    examined = examine(path, today=today, progress=progress)
    if examined.open_stops and not draft:
        return Reported(examined, (), draft)
    outputs = Outputs(out if out is not None else path.with_suffix(""), overwrite=overwrite)
    name = f"{path.stem}-draft.docx" if draft else f"{path.stem}-report.docx"
    outputs.check(name)
    inputs = report_inputs(examined, _prepared_photos(examined, outputs.folder / KEPT_PHOTOS), draft=draft)
    composed = compose(inputs, PrintedFigures())
    templates = TemplateFinder.with_own(_own_templates(examined))

    def write(stream: BinaryIO) -> None:
        render(
            stream,
            composed.sections,
            composed.report,
            composed.items,
            templates=templates,
            properties=composed.properties,
            edges=composed.edges,
            draft=draft,
        )
        stream.flush()
        require_sound(stream)

    return Reported(examined, (outputs.write(name, write),), draft)


def report_inputs(examined: Examined, photos: dict[str, tuple[PreparedPhoto, ...]], *, draft: bool) -> ReportInputs:
    """Return what the report is composed from. Items are computed anew, with all their figures, when asked for."""
    job = examined.job

    def results() -> Iterator[ItemResult]:
        currency = value_or(job.assignment.currency, "")
        for computed, ledger in examined.computation.items(RecordingLedger):
            yield _with_bridge(computed, ledger, currency)

    return ReportInputs(
        job=job,
        results=results,
        totals=_totals(examined),
        findings=tuple(AnsweredFinding(one.finding, one.answer) for one in examined.judged),
        elements=element_states(job, examined.results),
        photos=photos,
        draft=draft,
    )


def _with_bridge(computed: Computed, ledger: Ledger, currency: str) -> ItemResult:
    steps = bridge(ledger.under("bridge"), computed.valuations, currency) if currency else {}
    return ItemResult(computed.item, computed.window, computed.valuations, computed.findings, steps)


def _totals(examined: Examined) -> tuple[Total, ...]:
    job = examined.job
    types = [terms.value_type for terms in job.value_terms if given(terms.value_type)]
    left_out: set[tuple[str, ValueType]] = {
        (one.item, one.value_type)
        for one in job.opinions
        if given(one.not_valued) and given(one.item) and given(one.value_type)
    }
    results = (
        ItemResult(item, window, found.valuations)
        for item in job.items
        if (found := examined.results[named(item)]) and (window := found.window)
    )
    currency = value_or(job.assignment.currency, "USD")
    return totals(RecordingLedger("schedule"), results, types, frozenset(left_out), currency)


def _prepared_photos(examined: Examined, keep_in: Path) -> dict[str, tuple[PreparedPhoto, ...]]:
    """Return the printable copies by item id; a file that cannot be printed has its finding and is left out."""
    folder = examined.path.parent
    rows = [
        (photo.item, photo.file, file)
        for photo in examined.job.photos
        if given(photo.item) and given(photo.file) and isinstance(file := locate(folder, photo.file), Path)
    ]
    found: dict[str, list[PreparedPhoto]] = {}
    copies = prepare_all((file for _item, _name, file in rows), keep_in=keep_in)
    for (item, name, _file), copy in zip(rows, copies, strict=True):
        if isinstance(copy, Prepared):
            photo = PreparedPhoto(name, copy.source, copy.sha256, copy.width, copy.height)
            found.setdefault(item, []).append(photo)
    return {item: tuple(photos) for item, photos in found.items()}


def _own_templates(examined: Examined) -> Path | None:
    folder = examined.job.assignment.template_folder
    return examined.path.parent / folder if given(folder) else None
