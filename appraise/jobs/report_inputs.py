"""What a report is composed from: results with all their figures, totals, and printable copies of the photographs."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

from appraise.checks.elements import element_states
from appraise.files.hashes import sha256_of
from appraise.findings.answers import Judged, Status
from appraise.findings.order import in_order
from appraise.jobs.compute import Computed, named
from appraise.jobs.counted import counted
from appraise.jobs.examine import Examined, Progress
from appraise.model.figure import Figure
from appraise.model.finding import Finding
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import given, value_or
from appraise.photos.faults import fault_finding
from appraise.photos.files import locate
from appraise.photos.prepare import Prepared, prepare_all
from appraise.records.job import Job
from appraise.records.vocabulary import Treatment, Use, ValueType
from appraise.report.compose.inputs import AnsweredFinding, ItemResult, PreparedPhoto, ReportInputs, Total
from appraise.report.compose.sums import bridge, totals
from appraise.report.redact import Redaction
from appraise.schedule.history import PastSchedule, before, past_totals

#: Uses whose totals an insurer reads, and which come with the schedule as a workbook.
INSURANCE_USES = (Use.INSURANCE, Use.CLAIM, Use.YEARLY)

Photos = dict[str, tuple[PreparedPhoto, ...]]


def report_inputs(
    examined: Examined, photos: Photos, *, draft: bool, redacted: Redaction | None = None
) -> ReportInputs:
    """Return what the report is composed from. Items come with all their figures, one by one, when asked for.

    redacted  the job without what must not be said; figures are those of the job as typed
    """
    job = redacted.job if redacted is not None else examined.job
    items = {named(one): one for one in job.items}
    shown = {(photo.item, photo.file) for photo in job.photos}

    def results() -> Iterator[ItemResult]:
        currency = value_or(job.assignment.currency, "")
        for item in examined.job.items:
            computed, ledger = examined.computation.recorded(item)
            if computed.removed:
                continue
            yield with_bridge(replace(computed, item=items[named(computed.item)]), ledger, currency)

    return ReportInputs(
        job=job,
        results=results,
        totals=job_totals(RecordingLedger("schedule"), examined, job),
        findings=tuple(AnsweredFinding(one.finding, one.answer) for one in examined.judged),
        elements=element_states(examined.job, examined.results),
        photos={item: tuple(one for one in own if (item, one.file) in shown) for item, own in photos.items()},
        yearly=examined.yearly,
        past=_past(examined),
        library=_library(examined),
        past_totals=earlier_totals(RecordingLedger("schedule"), examined),
        uses=examined.uses,
        draft=draft,
        redacted=redacted is not None,
    )


def _library(examined: Examined) -> tuple[str, str] | None:
    library = examined.read.library
    return None if library is None else (library.name, sha256_of(library))


def _past(examined: Examined) -> tuple[PastSchedule, ...]:
    """Return the earlier schedules that may stand beside this one; none without a date and a currency."""
    a = examined.job.assignment
    if not (given(a.effective_date) and given(a.currency)):
        return ()
    return before(examined.histories, a.effective_date, a.currency)


def earlier_totals(ledger: Ledger, examined: Examined) -> dict[tuple[date, ValueType], Figure]:
    """Return the totals of earlier years that stand beside this year's, by day and type of value."""
    return past_totals(ledger, _past(examined), (one.value_type for one in examined.yearly))


def with_bridge(computed: Computed, ledger: Ledger, currency: str) -> ItemResult:
    """Return one item as the report takes it, with the steps between its first two values."""
    steps = bridge(ledger.under("bridge"), computed.valuations, currency) if currency else {}
    return ItemResult(computed.item, computed.window, computed.valuations, computed.findings, steps)


def job_totals(ledger: Ledger, examined: Examined, job: Job) -> tuple[Total, ...]:
    """Return the totals of a job, for each type of value; their figures go through `ledger`."""
    types = [terms.value_type for terms in job.value_terms if given(terms.value_type)]
    left_out: set[tuple[str, ValueType]] = {
        (one.item, one.value_type)
        for one in job.opinions
        if given(one.not_valued) and given(one.item) and given(one.value_type)
    }
    left_out |= {
        (str(line.line.item), revaluation.value_type)
        for revaluation in examined.yearly
        for line in revaluation.lines
        if line.treatment is Treatment.REMOVED
    }
    results = (
        ItemResult(item, window, found.valuations)
        for item in job.items
        if (found := examined.results[named(item)]) and (window := found.window)
    )
    currency = value_or(job.assignment.currency, "USD")
    policy = job.policy if job.assignment.use in INSURANCE_USES else None
    return totals(ledger, results, types, frozenset(left_out), currency, policy)


def prepared_photos(
    examined: Examined, keep_in: Path, progress: Progress | None = None
) -> tuple[Photos, list[Finding]]:
    """Return the printable copies by item id, and a finding for each file of which none can be made.

    keep_in  folder in which copies are kept from one run to the next
    A file that is not there, or may not be used, already has its finding and is only left out.
    """
    folder = examined.path.parent
    rows = [
        (photo, file)
        for photo in examined.job.photos
        if given(photo.item) and given(photo.file) and isinstance(file := locate(folder, photo.file), Path)
    ]
    found: dict[str, list[PreparedPhoto]] = {}
    faults = []
    marks = {file: known.sha256 for photo, file in rows if (known := examined.photos.get(str(photo.file))) is not None}
    copies = prepare_all((file for _photo, file in rows), keep_in=keep_in, marks=marks)
    shown = counted(copies, "Preparing photograph", len(rows), progress)
    for (photo, _file), copy in zip(rows, shown, strict=True):
        if isinstance(copy, Prepared):
            printable = PreparedPhoto(str(photo.file), copy.source, copy.sha256, copy.width, copy.height)
            found.setdefault(str(photo.item), []).append(printable)
        else:
            faults.append(fault_finding(photo, copy))
    return {item: tuple(photos) for item, photos in found.items()}, faults


def with_findings(examined: Examined, found: list[Finding]) -> Examined:
    """Return the job with findings made after it was examined; they are open, since nothing can answer them."""
    known = {one.finding for one in examined.judged}
    new = [Judged(one, Status.OPEN) for one in dict.fromkeys(found) if one not in known]
    if not new:
        return examined
    judged = [*examined.judged, *new]
    place = {one: position for position, one in enumerate(in_order(each.finding for each in judged))}
    return replace(examined, judged=sorted(judged, key=lambda each: place[each.finding]))
