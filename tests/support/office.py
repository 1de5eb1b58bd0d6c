"""Recalculates small workbooks in LibreOffice, so that a formula is compared with what a spreadsheet makes of it."""

import shutil
import subprocess
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import get_column_letter

from appraise.model.figure import Figure
from appraise.model.operations import OPERATIONS


def needs_soffice() -> str:
    """Return the path of LibreOffice, or skip the test."""
    found = shutil.which("soffice")
    if found is None:
        pytest.skip("LibreOffice is not installed")
    return found


def recalculated(rows: Sequence[tuple[str, Sequence[Decimal]]], folder: Path) -> list[Decimal]:
    """Return what LibreOffice computes for each (formula, arguments).

    The formula names its arguments {0}, {1} ...; they are written in the cells of its row.
    """
    grid: list[list[str | Decimal]] = []
    for row, (formula, arguments) in enumerate(rows, 1):
        cells = [f"{get_column_letter(column)}{row}" for column in range(2, len(arguments) + 2)]
        grid.append(["=" + formula.format(*cells), *arguments])
    return first_column(grid, folder)


def recalculated_figures(figures: Sequence[Figure], folder: Path) -> dict[str, Decimal]:
    """Return what LibreOffice computes for figures by id: each stands in a row and refers to those it is made from.

    Typed and looked-up numbers are written as they are, every other one as the formula of its operation.
    """
    cells = {figure.id: f"A{row}" for row, figure in enumerate(figures, 1)}
    grid: list[list[str | Decimal]] = []
    for figure in figures:
        if figure.operation in ("typed", "noted"):
            grid.append([figure.number])
            continue
        references = [cells[argument] for argument in figure.arguments]
        grid.append(["=" + OPERATIONS[figure.operation].rounded_formula(references, figure.kind.places)])
    return dict(zip(cells, first_column(grid, folder), strict=True))


def first_column(grid: Sequence[Sequence[str | Decimal]], folder: Path) -> list[Decimal]:
    """Return the first column of a sheet as LibreOffice computes it."""
    program = needs_soffice()
    path = folder / "formulas.xlsx"
    book = openpyxl.Workbook()  # writes no cached values, so that LibreOffice must compute
    for row in grid:
        book.active.append(list(row))
    book.save(path)
    out = folder / "recalculated"
    command = [
        program,
        f"-env:UserInstallation={(folder / 'profile').as_uri()}",
        "--headless",
        "--convert-to",
        "xlsx",
        "--outdir",
        str(out),
        str(path),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    book = openpyxl.load_workbook(out / "formulas.xlsx", data_only=True)
    values = [book.active.cell(row + 1, 1).value for row in range(len(grid))]
    book.close()
    return [Decimal(format(value, ".15g")) for value in values]
