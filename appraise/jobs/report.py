"""`appraise report`: the formal report as a Word document, or a draft of it, and what goes beside it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import BinaryIO

from appraise.findings.terminal import all_lines, count_line
from appraise.jobs.counted import counted
from appraise.jobs.examine import Examined, Progress, examine
from appraise.jobs.history import record_name
from appraise.jobs.outputs import Outputs
from appraise.jobs.proof import proof_name, write_job_proof
from appraise.jobs.record import record_of
from appraise.jobs.redacted import STEM, require_nothing_left
from appraise.jobs.report_inputs import INSURANCE_USES, prepared_photos, report_inputs, with_findings
from appraise.jobs.schedule import schedule_rows, schedule_words, total_rows
from appraise.jobs.templates import Templates, templates, where
from appraise.model.frozen import frozen
from appraise.report.compose.inputs import Total
from appraise.report.compose.printing import PrintedFigures
from appraise.report.compose.report import compose, printer_for
from appraise.report.engine.inspect import require_sound
from appraise.report.engine.pdf import NoPdf, make_pdf
from appraise.report.engine.render import render
from appraise.report.redact import Redaction, redaction
from appraise.report.view import Composed
from appraise.workbook.writing.schedule_file import write_schedule

#: Prepared copies of photographs are kept here, inside the output folder, from one run to the next.
KEPT_PHOTOS = "prepared"


@frozen
class Written:
    """One file written: what it is, where it went, and a sentence where that is not where it should be."""

    what: str
    path: Path
    remark: str = ""


@frozen
class Reported:
    """What `report` did.

    written    the files written, the report first; empty if open stops kept it from being written
    templates  the templates used, with what was found in the appraiser's own
    remarks    sentences about what was asked for and could not be made
    """

    examined: Examined
    written: tuple[Written, ...]
    templates: Templates
    remarks: tuple[str, ...] = ()

    @property
    def open_stops(self) -> int:
        """Number of open stops, those of the appraiser's own templates included."""
        return self.examined.open_stops + sum(one.stops for one in self.templates.judged)

    def lines(self) -> Iterator[str]:
        """Yield the faults of templates, the open stops, the count, and what was or was not written."""
        yield from all_lines(self.templates.judged, where)
        stops = [one for one in self.examined.judged if one.stops]
        yield from all_lines(stops, self.examined.where, how_to_answer=True)
        yield count_line(self.examined.counts)
        if not self.written:
            yield self._why_nothing()
            return
        for one in self.written:
            yield f"{one.what}: {one.path}"
            if one.remark:
                yield one.remark
        yield from self.remarks
        if self.examined.counts.warnings or self.examined.counts.notes:
            yield f"For the other findings run: appraise check {self.examined.path}"

    def _why_nothing(self) -> str:
        if self.templates.refused:
            return "No report written. Put the templates right first; a draft needs them too."
        return "No report written. Settle the stops, or write a draft with --draft."


def write_report(
    path: Path,
    out: Path | None,
    *,
    draft: bool,
    overwrite: bool,
    today: date,
    progress: Progress | None = None,
    template: Path | None = None,
    pdf: bool = False,
    redacted: bool = False,
    keep_photos: Path | None = None,
) -> Reported:
    """Write the report of the job at `path`.

    out       folder for the outputs; None: beside the workbook, named after it
    draft     write even with open stops, marked on every page
    template  folder with the appraiser's own templates; None: the one the workbook names, if any
    pdf       write a PDF beside the Word file, if LibreOffice is there
    redacted  write a copy without owner, names, locations and serials, and nothing else
    keep_photos  folder for the prepared copies of photographs; None: in the output folder
    Raises UnusableFile where a file cannot be read or written.
    """
    examined = examine(path, today=today, progress=progress, figures_later=True)
    used = templates(template, path, examined.job.assignment)
    if used.refused or (examined.open_stops and not draft):
        return Reported(examined, (), used)
    outputs = Outputs(out if out is not None else path.with_suffix(""), overwrite=overwrite)
    stem = f"{STEM if redacted else path.stem}-{'draft' if draft else 'report'}"
    insured = examined.job.assignment.use in INSURANCE_USES
    schedule = f"{path.stem}-schedule.xlsx" if insured and not redacted else None
    proof = None if redacted else proof_name(path)
    record = None if draft or redacted else record_name(path.stem)
    names = (f"{stem}.docx", f"{stem}.pdf" if pdf else None, schedule, proof, record)
    outputs.check(*(one for one in names if one is not None))
    photos, faults = prepared_photos(examined, keep_photos or outputs.folder / KEPT_PHOTOS, progress)
    examined = with_findings(examined, faults)
    if examined.open_stops and not draft:
        return Reported(examined, (), used)
    left_out = redaction(examined.job, printer_for(examined.job).words) if redacted else None
    inputs = report_inputs(examined, photos, draft=draft, redacted=left_out)
    composed = compose(inputs, PrintedFigures())
    composed = replace(composed, items=counted(composed.items, "Writing item", len(examined.job.items), progress))
    written = [_write_word(outputs, f"{stem}.docx", composed, used, draft=draft, left_out=left_out)]
    if schedule is not None:
        written.append(_write_schedule(outputs, schedule, examined, inputs.totals))
    if proof is not None:
        written.append(_write_proof(outputs, proof, examined))
    if record is not None:
        written.append(_write_record(outputs, record, examined, written[0].path))
    remarks: list[str] = []
    if pdf:
        _write_pdf(outputs, f"{stem}.pdf", written, remarks, created=composed.properties.created)
    return Reported(examined, tuple(written), used, tuple(remarks))


def _write_word(
    outputs: Outputs, name: str, composed: Composed, used: Templates, *, draft: bool, left_out: Redaction | None
) -> Written:
    if left_out is not None:
        composed = left_out.composed(composed)

    def write(stream: BinaryIO) -> None:
        render(
            stream,
            composed.sections,
            composed.report,
            composed.items,
            templates=used.finder,
            properties=composed.properties,
            edges=composed.edges,
            draft=draft,
        )
        stream.flush()
        require_sound(stream)
        if left_out is not None:
            require_nothing_left(stream, left_out, outputs.folder / name)

    return placed("Draft" if draft else "Report", name, outputs.write(name, used.blamed(write)))


def _write_schedule(outputs: Outputs, name: str, examined: Examined, sums: Sequence[Total]) -> Written:
    """Write the schedule as an underwriter loads it: one flat row for each item, totals on a second sheet."""
    rows, totals = list(schedule_rows(examined)), list(total_rows(examined, sums))
    words = schedule_words(examined)
    path = outputs.write(name, lambda stream: write_schedule(stream, rows, totals, words))
    return placed("Schedule", name, path)


def _write_record(outputs: Outputs, name: str, examined: Examined, report: Path) -> Written:
    """Write what next year's schedule and the histories start from."""
    content = record_of(examined, report)

    def write(stream: BinaryIO) -> None:
        stream.write(content)

    return placed("Record", name, outputs.write(name, write))


def _write_proof(outputs: Outputs, name: str, examined: Examined) -> Written:
    return placed("Proof", name, outputs.write(name, lambda stream: write_job_proof(stream, examined)))


def _write_pdf(outputs: Outputs, name: str, written: list[Written], remarks: list[str], *, created: date) -> None:
    """Write the PDF of the report just written, or say why there is none."""
    made = make_pdf(written[0].path, created=created)
    if isinstance(made, NoPdf):
        remarks.append(made.because)
        return

    def write(stream: BinaryIO) -> None:
        stream.write(made.content)

    written.append(placed("PDF", name, outputs.write(name, write)))


def placed(what: str, name: str, path: Path) -> Written:
    """Return a file that was written, with a sentence if it had to go beside one that is open elsewhere."""
    if path.name == name:
        return Written(what, path)
    return Written(what, path, f"{name} is open in another program; the new one was written beside it.")
