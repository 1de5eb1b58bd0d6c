"""Compares our cell reader with openpyxl on one file, cell by cell."""

import warnings
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula

from appraise.workbook.cells import Book, Cell, Kind
from appraise.workbook.number_formats import Shown

Cells = dict[tuple[str, int, int], tuple[Any, ...]]


def our_cells(path: Path) -> Cells:
    """Return (kind, value, is percent, formula) by sheet, row and column, as our reader gives it."""
    found: Cells = {}
    with Book(path) as book:
        for sheet in book.sheets:
            for row in book.rows(sheet):
                for cell in row.cells:
                    found[sheet.name, row.number, cell.column] = _ours(cell)
    return found


def _ours(cell: Cell) -> tuple[Any, ...]:
    value: Any = cell.value
    if cell.kind is Kind.NUMBER and cell.shown is Shown.TIME:
        return "time", None, False, cell.formula
    if cell.kind is Kind.NOTHING:
        return "nothing", None, False, cell.formula
    return cell.kind.value, value, cell.shown is Shown.PERCENT, cell.formula


def openpyxl_cells(path: Path) -> Cells:
    """Return the same, as openpyxl gives it in two passes."""
    found: Cells = {}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        typed = openpyxl.load_workbook(path)
        results = openpyxl.load_workbook(path, data_only=True)
    for name in typed.sheetnames:
        if not hasattr(typed[name], "_cells"):
            continue
        # The cells that are there, not every address up to the last one: that would be a million rows.
        for cell in typed[name]._cells.values():
            formula = _formula(cell)
            result = results[name].cell(cell.row, cell.column)
            if result.value is not None or formula:
                found[name, cell.row, cell.column] = (*_theirs(result), formula)
    return found


def _formula(cell: Any) -> str:
    if cell.data_type != "f":
        return ""
    value = cell.value
    if isinstance(value, ArrayFormula):
        value = value.text
    if isinstance(value, DataTableFormula):
        return "?"
    return str(value).removeprefix("=")


def _theirs(cell: Any) -> tuple[Any, ...]:
    value = cell.value
    if value is None:
        return "nothing", None, False
    if cell.data_type == "e":
        return "error", value, False
    if isinstance(value, bool):
        return "yes or no", value, False
    if isinstance(value, time | timedelta):
        return "time", None, False
    if isinstance(value, datetime):
        return "day", value.date(), False
    if isinstance(value, date):
        return "day", value, False
    if isinstance(value, int | float):
        return "number", Decimal(format(value, ".15g")), "%" in cell.number_format.replace("\\%", "")
    return "text", value, False
