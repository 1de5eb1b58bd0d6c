"""Reads a job, dates and values it, runs every check: what `check` prints and what `report` starts from."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import field
from datetime import date
from pathlib import Path

from appraise.checks.context import CheckContext, ItemResults, PhotoFact
from appraise.checks.elements import element_findings
from appraise.checks.run import run_checks
from appraise.findings.answers import Counts, Judged, counted, judge
from appraise.findings.entries import Severity, entry_of
from appraise.jobs.compute import Computation, named
from appraise.jobs.history import histories_of, ids_of_years
from appraise.model.figure import Figure
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.ledger import RecordingLedger
from appraise.model.place import Place
from appraise.photos.files import photo_facts
from appraise.records.job import Job
from appraise.schedule.history import Histories, history_findings
from appraise.schedule.of_job import Revaluation
from appraise.schedule.revaluation import RevaluedLine
from appraise.valuing.use_results import UseResults
from appraise.workbook.layout import Layout
from appraise.workbook.reading.read import ReadResult, read_job

#: "Needed and not given", "no such index, scale, sale": what follows where a cell is unreadable or names nothing there.
_FOLLOWING = frozenset(("VAL-01", "VAL-02", "VAL-05", "CMP-20"))
#: Shows progress: what is being done, how much of it is done, of how much.
Progress = Callable[[str, int, int], None]


@frozen
class Examined:
    """A job with everything that was found in it.

    results  window and opinions by item id, without the figures that led to them
    judged   every finding with where it stands, sorted by place
    yearly   the schedule revalued, by type of value; empty without lines on Treatments
    histories  records of earlier years found beside the workbook; empty without lines on Treatments
    figures    of the job as a whole, by id; those of its items are made again where they are needed
    uses       what the use asks for beside the opinions of the items
    """

    path: Path
    read: ReadResult
    computation: Computation
    results: dict[str, ItemResults]
    photos: dict[str, PhotoFact]
    judged: list[Judged]
    yearly: tuple[Revaluation, ...] = ()
    histories: Histories = field(default_factory=Histories)
    figures: Mapping[str, Figure] = field(default_factory=dict)
    uses: UseResults = field(default_factory=UseResults)

    @property
    def job(self) -> Job:
        """The job as read."""
        return self.read.job

    @property
    def layout(self) -> Layout:
        """Where everything stands in the user's file."""
        return self.read.layout

    def where(self, place: Place) -> str:
        """Return a place as it is printed."""
        return self.read.layout.cell(place)

    @property
    def counts(self) -> Counts:
        """How many findings there are of each kind."""
        return counted(self.judged)

    @property
    def open_stops(self) -> int:
        """Number of stops that are neither released nor answered."""
        return sum(one.stops for one in self.judged)


def _not_said_yet(raised: Iterable[Finding], read: Iterable[Finding]) -> Iterator[Finding]:
    """Yield the findings but those that only repeat, for a figure, what was said when the cell was read.

    Only a stop that no answer releases makes the repetition needless: the cell has to be put right for it anyway.
    """
    said = {one.place for one in read if entry_of(one).severity is Severity.IMPOSSIBLE}
    return (one for one in raised if not (one.code in _FOLLOWING and one.place in said))


def examine(path: Path, *, today: date, progress: Progress | None = None, figures_later: bool = False) -> Examined:
    """Return the job at `path` examined. Raises UnusableFile where the workbook as a whole cannot be read.

    figures_later  the figures of the items will be asked for; see `Computation.computed`
    """
    read = read_job(path)
    job = read.job
    computation = Computation(job, today=today)
    results: dict[str, ItemResults] = {}
    raised: list[Finding] = [*computation.findings]
    lines: list[RevaluedLine] = []
    for number, computed in enumerate(computation.computed(figures_later=figures_later), 1):
        results[named(computed.item)] = ItemResults.of(computed.window, computed.valuations)
        raised += computed.findings
        lines += computed.lines
        if progress is not None:
            progress("Valuing item", number, len(job.items))
    whole = RecordingLedger("schedule")
    yearly, yearly_findings = computation.yearly(whole, lines)
    histories = histories_of(path, ids_of_years(job)) if job.treatments else Histories()
    uses = computation.uses(whole.under("uses"), (one for held in results.values() for one in held.valuations))
    raised += [*yearly_findings, *uses.findings, *history_findings(job, histories)]
    photos, photo_findings = photo_facts(path.parent, job.photos)
    raised = list(dict.fromkeys([*read.findings, *_not_said_yet(raised, read.findings), *photo_findings]))
    context = CheckContext(job, results, photos, made=computation.sale_windows[0], raised=tuple(raised))
    checked = run_checks(context)
    lacking = element_findings(context, checked)
    judged = judge(dict.fromkeys([*raised, *checked, *lacking]), job.answers)
    return Examined(path, read, computation, results, photos, judged, yearly, histories, whole.figures, uses)
