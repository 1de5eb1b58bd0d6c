"""`appraise workfile`: packs all that a report rests on into one sealed file, and checks such a file years later."""

import tempfile
from collections.abc import Iterator
from datetime import date
from itertools import zip_longest
from pathlib import Path
from typing import Any

from appraise.files.hashes import sha256_of
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.record import findings_json
from appraise.jobs.examine import Examined, Progress, examine
from appraise.jobs.history import record_files, record_folders, record_name
from appraise.jobs.outputs import Outputs
from appraise.jobs.proof import job_figures
from appraise.jobs.report import KEPT_PHOTOS, Reported, write_report
from appraise.jobs.templates import section_names
from appraise.jobs.workfile_parts import figure_lines, figures_file, retention, rules, settings, versions
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.photos.files import locate
from appraise.records.declare import ColumnKind
from appraise.records.job import SHEETS
from appraise.report.engine.find import TemplateFinder
from appraise.workfile.opened import Opened, content_of, open_workfile, unpack
from appraise.workfile.pack import Entry, as_json, write_workfile

INPUTS, FIGURES = "inputs/", "figures.txt"
#: Endings of files that a report may have been issued as.
_ISSUED = (".docx", ".pdf", ".xlsx")
_READ_ME = """\
This is the workfile of an appraisal: all that the report rests on, packed when the report was made.

inputs/        the workbook, the library, photographs and saved pages as given, records of earlier years
report/        the report, its proof workbook and what else goes with it, made anew when this file was packed
issued/        files of the output folder that differ from those: edited, or made by another version
templates/     the templates of the report
findings.json  every finding with its answer
figures.txt    every figure, by its id in report, proof and explanations
settings.json, rules.json, versions.json, retention.json
manifest.json  SHA-256 of each of these files

To check it: appraise workfile --verify THIS_FILE.zip
It works out every hash again, computes every figure anew from inputs/, and names the first that differs.
"""


@frozen
class Packed:
    """What `workfile` did.

    written  where the workfile went; None if open stops kept it from being written
    digest   its content digest
    """

    reported: Reported
    written: Path | None = None
    digest: str = ""
    kept: dict[str, Any] | None = None

    @property
    def open_stops(self) -> int:
        """Number of open stops."""
        return self.reported.open_stops

    def lines(self) -> Iterator[str]:
        """Yield where the workfile is, its digest and until when it is kept, or the stops."""
        if self.written is None or self.kept is None:
            yield from (line for line in self.reported.lines() if not line.startswith("No report written"))
            yield "No workfile written. Settle the stops, or pack a draft with --draft."
            return
        yield f"Workfile: {self.written}"
        yield f"Content digest: {self.digest}"
        day, because = self.kept["keep_until"], self.kept["because"]
        yield (
            f"Keep it until {day} at least: {because}." if day else f"Until when to keep it cannot be said: {because}."
        )
        yield from (f"{one['figure']}: {one['statement']} {one['source']}." for one in self.kept["rules"])
        yield from self.kept["notes"]


def pack_workfile(
    path: Path,
    out: Path | None,
    *,
    draft: bool,
    overwrite: bool,
    today: date,
    progress: Progress | None = None,
    template: Path | None = None,
) -> Packed:
    """Pack the workfile of the job at `path` into the output folder, as STEM-workfile.zip.

    draft     pack a draft where stops are open
    template  folder with the appraiser's own templates; None: the one the workbook names, if any
    Raises UnusableFile where a file cannot be read or written.
    """
    outputs = Outputs(out if out is not None else path.with_suffix(""), overwrite=overwrite)
    name = f"{path.stem}-workfile.zip"
    with tempfile.TemporaryDirectory() as made:
        done = write_report(
            path,
            Path(made),
            draft=draft,
            overwrite=True,
            today=today,
            progress=progress,
            template=template,
            keep_photos=outputs.folder / KEPT_PHOTOS,
        )
        if not done.written:
            return Packed(done)
        examined = done.examined
        day = _day(examined, today)
        facts = {
            "job": f"{INPUTS}{path.name}",
            "computed_on": day.isoformat(),
            "draft": draft,
            "program": versions()["program"],
            "retention": retention(examined),
        }
        outputs.check(name)
        entries = list(_entries(examined, done, outputs.folder, day))
        digest = ""

        def write(stream: Any) -> None:
            nonlocal digest
            digest = write_workfile(stream, entries, facts)

        written = outputs.write(name, write)
    return Packed(done, written, digest, facts["retention"])


def _day(examined: Examined, today: date) -> date:
    """Return the day that stands for "now" when the figures are worked out again: that of the report if it has one."""
    a = examined.job.assignment
    return next((one for one in (a.report_date, a.effective_date) if given(one)), today)


def _entries(examined: Examined, done: Reported, folder: Path, day: date) -> Iterator[Entry]:
    yield Entry("README.txt", _READ_ME.encode())
    yield Entry("findings.json", findings_json(examined.judged, examined.where).encode())
    yield Entry(FIGURES, figures_file(examined))
    yield Entry("settings.json", as_json(settings(examined)))
    yield Entry("rules.json", as_json(rules(examined, day)))
    yield Entry("versions.json", as_json(versions()))
    yield Entry("retention.json", as_json(retention(examined)))
    made = {one.path.name: one.path for one in done.written}
    yield from (Entry(f"report/{name}", made[name]) for name in sorted(made))
    yield from (Entry(f"issued/{file.name}", file) for file in _issued(examined.path.stem, folder, made))
    yield from _templates(done.templates.finder)
    home = examined.path.parent.resolve()
    yield from (Entry(f"{INPUTS}{file.relative_to(home).as_posix()}", file) for file in _inputs(examined))


def _issued(stem: str, folder: Path, made: dict[str, Path]) -> Iterator[Path]:
    """Yield the reports and what goes with them that lie in the output folder and are not what is made today."""
    hashes = {sha256_of(file) for file in made.values()}
    kinds = tuple(f"{stem}-{kind}" for kind in ("report", "draft", "proof", "schedule"))
    for file in sorted(folder.glob(f"{stem}-*")):
        if file.suffix.lower() in _ISSUED and file.name.startswith(kinds) and sha256_of(file) not in hashes:
            yield file


def _templates(finder: TemplateFinder) -> Iterator[Entry]:
    yield Entry("templates/house.docx", finder.house())
    for name in sorted(section_names()):
        yield Entry(f"templates/sections/{name}.docx", finder.section(name))


def _inputs(examined: Examined) -> list[Path]:
    """Return the files given: workbook, library, records of earlier years, own templates, and every file named."""
    home = examined.path.parent.resolve()
    folder = examined.job.assignment.template_folder
    own = TemplateFinder.with_own(home / folder).own_files() if given(folder) else ()
    library = examined.read.library
    files = [examined.path, *([] if library is None else [library]), *own, *_records(examined)]
    for key, sheet in SHEETS.items():
        columns = [one.key for one in sheet.columns if one.kind is ColumnKind.FILE]
        records = getattr(examined.job, key)
        for record in records if isinstance(records, tuple) else (records,):
            for column in columns:
                name = getattr(record, column)
                found = locate(home, name) if given(name) else None
                files += [found] if isinstance(found, Path) else []
    inside = {file.resolve() for file in files}
    return sorted(one for one in inside if one.is_relative_to(home))


def _records(examined: Examined) -> list[Path]:
    """Return the records of earlier years; the record this report itself left is no input."""
    own = record_name(examined.path.stem)
    return [one for one in record_files(record_folders(examined.path)) if one.name != own]


@frozen
class Verified:
    """What the check of a workfile found; `faults` are sentences, empty if everything is as it was packed."""

    opened: Opened
    faults: tuple[str, ...]
    figures: int = 0
    program: str = ""

    def lines(self) -> Iterator[str]:
        """Yield what is as it was packed, or what is not."""
        if self.faults:
            yield from self.faults
            yield "The workfile is not as it was packed, or its figures cannot be worked out again as they were."
            return
        manifest = self.opened.manifest
        yield f"Seal and {len(manifest['files'])} files: as they were packed."
        yield f"Content digest: {manifest['content_digest']}"
        again = f"{self.figures:,} figures worked out again from the packed inputs: all as they were."
        yield again if self.program == manifest["program"] else f"{again} Packed by {manifest['program']}."


def verify_workfile(path: Path) -> Verified:
    """Return what is not as it was packed: seal, hashes, digest, and every figure computed anew.

    Raises UnusableFile where there is no such file. Nothing in a file with a fault is computed.
    """
    opened = open_workfile(path)
    if opened.faults:
        return Verified(opened, opened.faults)
    packed = content_of(opened, FIGURES).decode().splitlines()
    with tempfile.TemporaryDirectory() as folder:
        unpack(opened, INPUTS, Path(folder))
        job = Path(folder) / opened.manifest["job"]
        if not job.is_file():
            raise UnusableFile(Trouble.DAMAGED, path, f"{path.name} holds no job workbook.")
        examined = examine(job, today=date.fromisoformat(opened.manifest["computed_on"]))
        again = list(figure_lines(job_figures(examined)))
    return Verified(opened, tuple(_differences(packed, again)), len(again), versions()["program"])


def _differences(packed: list[str], again: list[str]) -> Iterator[str]:
    """Yield a sentence about the first figure that is not as it was, and how many there are."""
    pairs = [(old, new) for old, new in zip_longest(packed, again, fillvalue="") if old != new]
    if not pairs:
        return
    (old, was), (new, now) = (one.partition("\t")[::2] for one in pairs[0])
    if old == new:
        yield f"{old} was {was}, worked out again it is {now}."
    else:
        yield f"Where {old or 'nothing more'} stood, working out again gives {new or 'nothing more'}."
    yield f"{len(pairs):,} of {max(len(packed), len(again)):,} figures differ."
