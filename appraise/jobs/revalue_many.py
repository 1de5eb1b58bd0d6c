"""`appraise revalue` for several workbooks: each job by itself, a summary of all; a failing job stops no other."""

import traceback
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from datetime import date
from decimal import Decimal
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.examine import Progress
from appraise.jobs.outputs import Outputs
from appraise.jobs.revalue import Revalued, revalue_job
from appraise.jobs.words import UnknownWordError
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.vocabulary import Treatment
from appraise.workbook.writing.summary_file import SummaryRow, write_summary

#: Jobs worked on at a time.
PROCESSES = 2
_OUTCOMES = ("done", "done, open stops", "wrong call", "file unusable", "program fault")
_CLEAN, _STOPS, _WRONG_CALL, _UNUSABLE, _OWN_FAULT = range(len(_OUTCOMES))


@frozen
class JobOutcome:
    """What became of one job.

    code   exit code it would have had by itself
    rows   of the summary
    trace  of a fault of the program, for its log; never shown
    """

    path: Path
    code: int
    rows: tuple[SummaryRow, ...]
    sentence: str = ""
    trace: str = ""


@frozen
class ManyRevalued:
    """What became of all jobs, in the order given."""

    outcomes: tuple[JobOutcome, ...]
    summary: Path

    @property
    def code(self) -> int:
        """The worst exit code."""
        return max((one.code for one in self.outcomes), default=_CLEAN)

    @property
    def traces(self) -> str:
        """The traces of the program's faults, for a log; empty where there were none."""
        return "\n".join(f"{one.path}\n{one.trace}" for one in self.outcomes if one.trace)

    def lines(self) -> Iterator[str]:
        """Yield a line for each job that has something to say, the count, and where the summary is."""
        for one in self.outcomes:
            if one.sentence:
                yield f"{one.path}: {one.sentence}"
        counted = Counter(one.code for one in self.outcomes)
        told = ", ".join(f"{counted[code]} {_OUTCOMES[code]}" for code in sorted(counted))
        yield f"{len(self.outcomes)} jobs: {told}."
        yield f"Summary: {self.summary}"


def workbooks_in(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Return the workbooks named, and those lying in a folder named (not below it), each once.

    Left out in a folder: hidden files and the lock files of office programs. Raises UnusableFile for a folder
    without a workbook.
    """
    found: list[Path] = []
    for path in paths:
        if not path.is_dir():
            found.append(path)
            continue
        inside = sorted(one for one in path.glob("*.xlsx") if not one.name.startswith((".", "~$")))
        if not inside:
            raise UnusableFile(Trouble.MISSING, path, f"There is no workbook (.xlsx) in {path}.")
        found += inside
    return tuple(dict.fromkeys(found))


def revalue_many(
    paths: Sequence[Path],
    effective: date,
    out: Path | None,
    *,
    overwrite: bool,
    today: date,
    processes: int = PROCESSES,
    progress: Progress | None = None,
) -> ManyRevalued:
    """Revalue every workbook by itself, several at a time, and write a summary.

    paths  workbooks and folders of workbooks
    out    folder with a folder for each job and the summary; None: `revalued-YEAR` in the first folder
    Raises UnusableFile only where the summary cannot be written, or a folder holds no workbook.
    """
    books = workbooks_in(paths)
    home = out if out is not None else _home(paths[0]) / f"revalued-{effective.year}"
    outputs = Outputs(home, overwrite=overwrite)
    name = f"revalued-{effective.year}.xlsx"
    outputs.check(name)
    work = {
        book: partial(_one, book, effective, home / folder, overwrite=overwrite, today=today)
        for book, folder in zip(books, _folders(books), strict=True)
    }
    outcomes = _run(work, processes, progress)
    rows = [row for one in outcomes for row in one.rows]
    return ManyRevalued(outcomes, outputs.write(name, partial(write_summary, rows=rows)))


def _home(path: Path) -> Path:
    return path if path.is_dir() else path.parent


def _folders(books: Sequence[Path]) -> list[str]:
    """Return a folder for each workbook: its name, with a number where two have the same."""
    used: Counter[str] = Counter()
    folders = []
    for book in books:
        used[book.stem.casefold()] += 1
        count = used[book.stem.casefold()]
        folders.append(book.stem if count == 1 else f"{book.stem}-{count}")
    return folders


Task = Callable[[], JobOutcome]


def _run(work: Mapping[Path, Task], processes: int, progress: Progress | None) -> tuple[JobOutcome, ...]:
    """Return every outcome in order. A worker that dies takes its pool along: what was not done then runs alone."""
    done = _pooled(work, min(processes, len(work)), progress, 0, len(work))
    for book, task in work.items():
        if book not in done:
            done |= _pooled({book: task}, 1, progress, len(done), len(work))
            done.setdefault(book, _fault(book, "The worker of this job died; it may need more memory."))
    return tuple(done[book] for book in work)


def _pooled(
    work: Mapping[Path, Task], processes: int, progress: Progress | None, before: int, total: int
) -> dict[Path, JobOutcome]:
    done: dict[Path, JobOutcome] = {}
    # Started afresh, not forked: the same on every system, and no thread of this process is copied half-way.
    with ProcessPoolExecutor(max_workers=max(1, processes), mp_context=get_context("spawn")) as pool:
        waiting: dict[Future[JobOutcome], Path] = {pool.submit(task): book for book, task in work.items()}
        for future in as_completed(waiting):
            book, fault = waiting[future], future.exception()
            if isinstance(fault, BrokenProcessPool):
                continue
            done[book] = future.result() if fault is None else _fault(book, *_told(fault))
            if progress is not None:
                progress("Revaluing job", before + len(done), total)
    return done


def _one(path: Path, effective: date, out: Path, *, overwrite: bool, today: date) -> JobOutcome:
    """Return what became of one job; runs in a process of its own."""
    try:
        done = revalue_job(path, effective, out, overwrite=overwrite, today=today)
    except (UnusableFile, UnknownWordError) as fault:
        code = _UNUSABLE if isinstance(fault, UnusableFile) else _WRONG_CALL
        return JobOutcome(path, code, (SummaryRow(path.name, _OUTCOMES[code], remark=str(fault)),), str(fault))
    code = _STOPS if done.open_stops else _CLEAN
    stops = f"{done.open_stops} open stops: its values are a draft's." if done.open_stops else ""
    return JobOutcome(path, code, tuple(_rows(done, code)), stops)


def _rows(done: Revalued, code: int) -> Iterator[SummaryRow]:
    a = done.examined.job.assignment
    types = dict.fromkeys(one.value_type for one in done.lines_made if given(one.value_type))
    for value_type in types:
        lines = [one for one in done.lines_made if one.value_type is value_type]
        counted = Counter(str(one.treatment) for one in lines)
        total = sum((one.prior_rounded for one in lines if given(one.prior_rounded)), Decimal(0))
        yield SummaryRow(
            workbook=done.examined.path.name,
            outcome=_OUTCOMES[code],
            written=str(done.written),
            day=a.effective_date.isoformat() if given(a.effective_date) else None,
            value_type=str(value_type),
            currency=a.currency if given(a.currency) else None,
            total=total,
            lines=len(lines),
            proposed=", ".join(f"{counted[str(word)]} {word}" for word in Treatment if counted[str(word)]),
            stops=done.open_stops,
            remark="" if done.recorded else "no record of the final report found",
        )
    if not types:
        yield SummaryRow(done.examined.path.name, _OUTCOMES[code], str(done.written), remark="no line to carry")


def _told(fault: BaseException) -> tuple[str, str]:
    """Return the sentence for a fault of the program, and its trace."""
    return "This is a fault of the program, not of the file.", "".join(traceback.format_exception(fault))


def _fault(path: Path, sentence: str, trace: str = "") -> JobOutcome:
    row = SummaryRow(path.name, _OUTCOMES[_OWN_FAULT], remark=sentence)
    return JobOutcome(path, _OWN_FAULT, (row,), sentence, trace)
