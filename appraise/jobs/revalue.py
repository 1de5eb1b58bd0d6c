"""`appraise revalue`: next year's workbook from this year's. The file of this year is only read."""

import os
import shutil
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, BinaryIO

from appraise.files.inside import inside
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.answers import Judged, answer_key
from appraise.jobs.examine import Examined, Progress, examine
from appraise.jobs.history import FOLDER, found_histories, ids_of_years, record_files, record_folders
from appraise.jobs.outputs import Outputs
from appraise.jobs.proof import proof_name, write_job_proof
from appraise.jobs.words import UnknownWordError
from appraise.model.frozen import frozen
from appraise.model.missing import given, value_or
from appraise.photos.files import locate
from appraise.records.assignment import Assumption
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.tables import Answer
from appraise.records.vocabulary import AssumptionKind, Treatment
from appraise.records.yearly import LineTreatment
from appraise.schedule.propose import Years, proposed_lines, split_lines
from appraise.wording.numbers import day_text, language
from appraise.wording.texts import texts
from appraise.workbook.renewing.carried_over import carried_over_sheet
from appraise.workbook.renewing.next_year import Left, NextYear, Renewed, next_year
from appraise.workbook.renewing.renewal import ANSWERED_CELLS, last_year_heading
from appraise.workbook.rows import OWN
from appraise.workbook.writing.write import write_job


@frozen
class Revalued:
    """What `revalue` did.

    proof       the proof of the values proposed in it
    lines_made  the lines of next year's schedule
    left        cells that stay behind or were moved, each with its reason
    open_again  findings answered this year that are found again
    recorded    the record of this year's final report was found and lies with the new workbook
    """

    examined: Examined
    written: Path
    proof: Path
    lines_made: tuple[LineTreatment, ...]
    left: tuple[Left, ...]
    open_again: int
    recorded: bool = False

    @property
    def open_stops(self) -> int:
        """Number of open stops in this year's workbook: its values are those of a draft."""
        return self.examined.open_stops

    def lines(self) -> Iterator[str]:
        """Yield what was written and what is to be done."""
        yield f"Written: {self.written}"
        yield f"Proof of the values proposed: {self.proof}"
        counted = Counter(str(one.treatment) for one in self.lines_made)
        proposed = ", ".join(f"{counted[str(word)]} {word}" for word in Treatment if counted[str(word)])
        yield f"{_count(len(self.lines_made), 'line')}, proposed: {proposed or 'none'}."
        if self.left:
            yield f"{_count(len(self.left), 'cell')} not carried as before; each with its reason on sheet Carried over."
        if self.open_again:
            yield f"{_count(self.open_again, 'answer')} of last year to be given again on sheet Answers."
        if not self.recorded:
            yield (
                "No record of this year's final report was found; make that report first, so that next year's history "
                "has it."
            )
        if self.open_stops:
            yield f"{self.examined.path.name} has {_count(self.open_stops, 'open stop')}: its values are a draft's."
        yield f"Fill it, then run: appraise check {self.written}"


def revalue_job(
    path: Path,
    effective: date,
    out: Path | None,
    *,
    overwrite: bool,
    today: date,
    progress: Progress | None = None,
) -> Revalued:
    """Write next year's workbook of the job at `path` into the output folder, with the files it names.

    effective  the new effective date, later than this year's
    out        folder; None: beside the workbook, named after it
    Raises UnusableFile where a file cannot be read or written, UnknownWordError for a date that is not later.
    """
    examined = examine(path, today=today, progress=progress)
    last = examined.job.assignment.effective_date
    if not given(last):
        sentence = f"{path.name} has no effective date, so nothing can be carried on. Type it on Assignment."
        raise UnusableFile(Trouble.FOREIGN, path, sentence)
    if effective <= last:
        raise UnknownWordError(f"The new effective date {effective} is not later than that of {path.name}, {last}.")
    outputs = Outputs(out if out is not None else path.with_suffix(""), overwrite=overwrite)
    name = f"{next_stem(path.stem, last, effective)}.xlsx"
    outputs.check(name, proof_name(Path(name)))
    if (outputs.folder / name).resolve() == path.resolve():
        raise UnusableFile(
            Trouble.EXISTS, path, f"{path} would be replaced by itself. Choose another folder with --out."
        )
    lines = _lines(examined, last, effective)
    renewed = _renewed(examined, lines, last, effective)
    made = next_year(examined.read, renewed)
    _copy_files(examined, outputs)
    recorded = _copy_records(examined, outputs, last)
    again = _answers_again(made, examined.job, outputs.folder, today)
    if again:
        made.rows["answers"] = again

    def write(stream: BinaryIO) -> None:
        with tempfile.TemporaryDirectory() as folder:
            _copy(stream, _written(made, Path(folder) / name, last))

    written = outputs.write(name, write)
    coming = examine(written, today=today)
    proof = outputs.write(proof_name(Path(name)), lambda stream: write_job_proof(stream, coming))
    return Revalued(examined, written, proof, lines, tuple(made.left), len(again), recorded)


def next_stem(stem: str, last: date, effective: date) -> str:
    """Return the name of next year's workbook: the year behind the name, in place of this year's if it stands there.

    >>> next_stem("marsk", date(2025, 6, 30), date(2026, 6, 30))
    'marsk-2026'
    >>> next_stem("marsk-2025", date(2025, 6, 30), date(2026, 6, 30))
    'marsk-2026'
    """
    return f"{stem.removesuffix(f'-{last.year}')}-{effective.year}"


def _lines(examined: Examined, last: date, effective: date) -> tuple[LineTreatment, ...]:
    years = Years.of(examined.job, last, effective)
    proposed = proposed_lines(years, {item: result.valuations for item, result in examined.results.items()})
    return (*proposed, *split_lines(years, [one.item for one in proposed]))


def _renewed(examined: Examined, lines: Iterable[LineTreatment], last: date, effective: date) -> Renewed:
    a = examined.job.assignment
    lang = language(value_or(a.report_language, "en"), value_or(a.workbook_locale, ""))
    words = texts(lang.code)
    key = "yearly.prior_service_reported" if given(a.report_date) else "yearly.prior_service"
    reported = day_text(a.report_date, lang) if given(a.report_date) else ""
    disclosed = words.text(key, day=day_text(last, lang), report_day=reported)
    before = value_or(a.prior_services, "").strip()
    silent = before.strip(".").casefold() in ("", "none", "-", "n/a")
    staying = [str(one.item) for one in lines if one.treatment not in (Treatment.REMOVED, Treatment.ADDED)]
    says_so = any(
        one.kind is AssumptionKind.EXTRAORDINARY and given(one.text) and "not inspected" in one.text.casefold()
        for one in examined.job.assumptions
    )
    assumption = None
    if staying and not says_so:
        assumption = filled(
            Assumption,
            id=f"NI-{effective.year}",
            kind=AssumptionKind.EXTRAORDINARY,
            items="; ".join(dict.fromkeys(staying)),
            text=words.text("yearly.assumed"),
            effect=words.text("yearly.assumed_effect"),
        )
    return Renewed(
        effective=effective,
        last=last,
        prior_services=disclosed if silent else f"{before} {disclosed}",
        lines=tuple(lines),
        assumption=assumption,
    )


def _copy_files(examined: Examined, outputs: Outputs) -> None:
    """Copy what the workbook names to the new one's folder, under the same names: none may lead out of a folder."""
    home = examined.path.parent
    if home.resolve() == outputs.folder.resolve():
        return
    a, job = examined.job.assignment, examined.job
    named = [*(one.file for one in job.photos), *(one.evidence_file for one in job.sales)]
    found = [locate(home, name) for name in dict.fromkeys(one for one in named if given(one))]
    files = [one for one in found if isinstance(one, Path)]
    if given(a.library) and (library := inside(home, a.library)) is not None and library.is_file():
        files.append(library)
    if given(a.template_folder) and (folder := inside(home, a.template_folder)) is not None:
        files += [one for one in sorted(folder.rglob("*.docx")) if one.is_file()]
    for file in files:
        name = file.relative_to(home.resolve()).as_posix()
        (outputs.folder / name).parent.mkdir(parents=True, exist_ok=True)
        outputs.write(name, partial(_copy, source=file))


def _copy_records(examined: Examined, outputs: Outputs, last: date) -> bool:
    """Copy the intact records of this schedule to the new workbook's folder; say whether this year's is among them."""
    files = record_files(record_folders(examined.path, outputs.folder))
    histories = found_histories(files, ids_of_years(examined.job))
    by_name = {file.name: file for file in reversed(files)}
    for one in histories.schedules:
        if one.edited or one.day > last:
            continue
        name = f"{FOLDER}/{one.file}"
        source = by_name[one.file]
        if source.resolve() == (outputs.folder / name).resolve():
            continue
        (outputs.folder / FOLDER).mkdir(exist_ok=True)
        outputs.write(name, partial(_copy, source=source))
    return any(one.day == last and not one.edited for one in histories.schedules)


def _copy(stream: BinaryIO, source: Path) -> None:
    with source.open("rb") as content:
        shutil.copyfileobj(content, stream)


def _written(made: NextYear, path: Path, last: date) -> Path:
    return write_job(path, made.rows, extra=(*made.sheets, carried_over_sheet(made.left, last)))


def _answers_again(made: NextYear, job: Job, folder: Path, today: date) -> list[dict[str, Any]]:
    """Return a row of Answers for each finding answered this year that is found in the new workbook too.

    Its reason is blank: an answer is given anew each year. What was said last year stands beside it.
    """
    # In the folder itself, because library and photographs are found from there.
    draft = folder / f".{os.urandom(4).hex()}.xlsx"
    try:
        found = _about_the_same(examine(_written(made, draft, today), today=today).judged)
    finally:
        draft.unlink(missing_ok=True)
    rows = []
    for answer in job.answers:
        now = found.get(_loose(answer))
        if now is None:
            continue
        key = answer_key(now.finding)
        rows.append(
            {
                "code": key.code,
                "subjects": key.about or None,
                "column_key": key.column or None,
                "found_mark": key.mark,
                OWN: {
                    last_year_heading("answers", name): value
                    for name in ANSWERED_CELLS
                    if given(value := getattr(answer, name))
                },
            }
        )
    return rows


def _about_the_same(judged: Iterable[Judged]) -> dict[tuple[str, str, str], Judged]:
    found: dict[tuple[str, str, str], Judged] = {}
    for one in judged:
        key = answer_key(one.finding)
        found.setdefault((key.code, key.about, key.column), one)
    return found


def _loose(answer: Answer) -> tuple[str, str, str]:
    return value_or(answer.code, ""), value_or(answer.subjects, ""), value_or(answer.column_key, "")


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
