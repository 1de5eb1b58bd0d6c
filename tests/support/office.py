"""Recalculates small workbooks in LibreOffice, so that a formula is compared with what a spreadsheet makes of it."""

import shutil
import subprocess
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import get_column_letter


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
    program = needs_soffice()
    path = folder / "formulas.xlsx"
    book = openpyxl.Workbook()  # writes no cached values, so that LibreOffice must compute
    sheet = book.active
    for row, (formula, arguments) in enumerate(rows, 1):
        cells = [f"{get_column_letter(column)}{row}" for column in range(2, len(arguments) + 2)]
        sheet.cell(row, 1, "=" + formula.format(*cells))
        for column, value in enumerate(arguments, 2):
            sheet.cell(row, column, value)
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
    values = [book.active.cell(row + 1, 1).value for row in range(len(rows))]
    book.close()
    return [Decimal(format(value, ".15g")) for value in values]
