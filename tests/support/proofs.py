"""Reads proof workbooks, and has LibreOffice work them out again from their formulas alone."""

import re
import subprocess
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
from support.office import needs_soffice

from appraise.proof.page import HEADINGS
from appraise.proof.summary import NAME

_CACHED = re.compile(rb"(<f>[^<]*</f>)<v>[^<]*</v>")


@dataclass(frozen=True)
class ProofLine:
    """One line: what stands in its cells, as values."""

    sheet: str
    row: int
    id: str
    live: Any
    ours: Any
    difference: Any

    @property
    def compared(self) -> bool:
        """Whether the line has a figure of ours beside the live one."""
        return self.ours is not None


def lines_of(path: Path) -> Iterator[ProofLine]:
    """Yield the lines of every sheet of a proof, with the values kept beside the formulas."""
    book = openpyxl.load_workbook(path, data_only=True)
    for sheet in book.worksheets:
        if sheet.title == NAME:
            continue
        assert [cell.value for cell in sheet[3]][: len(HEADINGS)] == list(HEADINGS)
        for row in sheet.iter_rows(min_row=4, max_col=5):
            id_, _, live, ours, difference = (cell.value for cell in row)
            if live is not None:
                yield ProofLine(sheet.title, row[0].row, id_, live, ours, difference)
    book.close()


def without_cached_values(path: Path, target: Path) -> Path:
    """Copy a workbook and leave out every value kept beside a formula, so that it has to be worked out."""
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as copy:
        for name in source.namelist():
            content = source.read(name)
            if name.startswith("xl/worksheets/"):
                content = _CACHED.sub(rb"\1", content)
                assert content.count(b"<f>") == 0 or b"</f><v>" not in content
            copy.writestr(name, content)
    return target


def recalculated(paths: Iterable[Path], folder: Path) -> list[Path]:
    """Return copies of workbooks as LibreOffice works them out from their formulas; all in one conversion."""
    program = needs_soffice()
    bare, out = folder / "bare", folder / "recalculated"
    bare.mkdir(parents=True)
    copies = [without_cached_values(path, bare / path.name) for path in paths]
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = [program, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(out), *map(str, copies)]
    subprocess.run(command, check=True, capture_output=True, timeout=400)
    return [out / path.name for path in copies]


def unequal(ours: Path, again: Path) -> list[str]:
    """Return what differs between a proof as we wrote it and as a spreadsheet worked it out, line by line.

    The value kept beside each formula, our constant and the recalculated value must be the same to the last decimal
    of the figure; the difference must be zero.
    """
    found = []
    for written, worked in zip(lines_of(ours), lines_of(again), strict=True):
        assert (written.sheet, written.row, written.id) == (worked.sheet, worked.row, worked.id)
        if not written.compared:
            same = _exact(written.live) == _exact(worked.live)
        else:
            live = _exact(worked.live)
            same = (
                isinstance(live, Decimal)
                and live == _exact(written.live) == _exact(written.ours)
                and _exact(worked.difference) == 0
            )
        if not same:
            found.append(f"{written.sheet} {written.id}: {written.live} {written.ours} but {worked.live}")
    return found


def _exact(value: Any) -> Any:
    """Return a number as a decimal of fifteen digits, as spreadsheets show it; sums of fractions end in noise."""
    return Decimal(format(value, ".12g")) if isinstance(value, int | float) else value


def verdict_of(path: Path) -> str:
    """Return the verdict on the sheet Summary."""
    book = openpyxl.load_workbook(path, data_only=True)
    sheet = book[NAME]
    (row,) = [row for row in sheet.iter_rows(min_row=4, max_col=2) if row[0].value == "All"]
    book.close()
    return str(row[1].value)
