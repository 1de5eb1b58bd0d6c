"""`appraise check`: every fault at once, as lines, as JSON, as a workbook; and the chain of figures of one item."""

import os
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import BinaryIO

from appraise.files.atomic import write_whole
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.record import findings_json
from appraise.findings.terminal import all_lines, count_line
from appraise.jobs.compute import named
from appraise.jobs.examine import Examined, Progress, examine
from appraise.jobs.words import unknown
from appraise.model.figure import Figure
from appraise.model.frozen import frozen
from appraise.model.ledger import RecordingLedger
from appraise.valuing.explain import explained, plain


@frozen
class Checked:
    """A job that was checked."""

    examined: Examined

    @property
    def open_stops(self) -> int:
        """Number of open stops."""
        return self.examined.open_stops

    def lines(self) -> Iterator[str]:
        """Yield the findings sorted by place, then their count."""
        yield from all_lines(self.examined.judged, self.examined.where, how_to_answer=True)
        yield count_line(self.examined.counts)

    def as_json(self) -> str:
        """Return the findings as JSON, without the last line break."""
        return findings_json(self.examined.judged, self.examined.where).rstrip("\n")

    def write_findings(self, path: Path, *, overwrite: bool) -> Path:
        """Write the findings as a workbook whose rows lead to the cells of the user's file."""
        from appraise.workbook.writing.findings_book import Files, write_findings_book

        self._check_target(path, overwrite=overwrite)
        library = self.examined.read.library
        files = Files(
            _relative(self.examined.path, path.parent), "" if library is None else _relative(library, path.parent)
        )
        return write_whole(
            path, lambda stream: write_findings_book(stream, self.examined.judged, self.examined.layout, files)
        )

    def write_annotated(self, path: Path, *, overwrite: bool) -> tuple[Path, str]:
        """Write a copy of the user's workbook with a comment at every faulty cell; return its path and a sentence."""
        from appraise.workbook.marking.annotate import Annotated, annotate

        source = self.examined.path
        self._check_target(path, overwrite=overwrite)
        if path.suffix.lower() != source.suffix.lower():
            sentence = f"A copy of {source.name} must end in {source.suffix} too, or no program will open it."
            raise UnusableFile(Trouble.CANNOT_WRITE, path, sentence)
        done: list[Annotated] = []

        def write(stream: BinaryIO) -> None:
            done.append(annotate(source, stream, self.examined.judged, self.examined.layout))

        written = write_whole(path, write)
        (made,) = done
        said = f"Annotated copy: {written} ({made.findings} open findings at {made.cells} cells)."
        library = self.examined.read.library
        if made.elsewhere and library is not None:
            said += f" {made.elsewhere} more are about {library.name}, which was not copied."
        return written, said

    def _check_target(self, path: Path, *, overwrite: bool) -> None:
        """Raise UnusableFile where a file may not be replaced; a file that was read never is."""
        library = self.examined.read.library
        for mine in (self.examined.path, *(() if library is None else (library,))):
            if path.resolve() == mine.resolve() or (path.exists() and path.samefile(mine)):
                sentence = f"{path} is a file this job is read from; it is never replaced. Choose another name."
                raise UnusableFile(Trouble.EXISTS, path, sentence)
        if path.exists() and not overwrite:
            sentence = f"{path} is already there. Choose another name, or give --overwrite to replace it."
            raise UnusableFile(Trouble.EXISTS, path, sentence)

    def explain(self, item_id: str) -> Iterator[str]:
        """Yield how each figure of one item came about, in the order made; UnknownWordError for an unknown item."""
        computation = self.examined.computation
        items = {named(item): item for item in self.examined.job.items}
        if item_id not in items:
            raise unknown("item", item_id, items)
        ledger = RecordingLedger(item_id)
        computed = computation.compute(items[item_id], ledger)
        yield f"{item_id}: made {computed.window.outer.edtf()}, {computed.window.verdict.printed}"
        for line in explained(ledger.figures):
            where = "; ".join(self.examined.where(place) for place in line.places)
            unit = f" {line.currency}" if line.currency else ""
            yield f"{line.id} = {line.result}{unit}  ({where or line.sentence})"
        beside = computation.stability(items[item_id], computed, RecordingLedger(item_id))
        if beside:
            yield "How much rests on one comparison or one step (of a replacement value: before tax and costs):"
        for name, outcome in beside.items():
            yield f"{name}: {plain(outcome) if isinstance(outcome, Figure) else 'no figure'}"


def check_job(path: Path, *, today: date, progress: Progress | None = None) -> Checked:
    """Return the job at `path` checked. Raises UnusableFile where it cannot be read at all."""
    return Checked(examine(path, today=today, progress=progress))


def _relative(file: Path, folder: Path) -> str:
    return Path(os.path.relpath(file.resolve(), folder.resolve())).as_posix()
