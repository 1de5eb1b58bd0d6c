"""Fills a workbook as a person does: sheet by sheet, by the labels and headings that are seen, in the file `new` wrote.

Nothing of the program is used here. A page of `typed` entries is a TOML file: a table for each form (label and value),
a list for each sheet of rows (heading and value). The star of a heading that is always needed is not typed.
"""

import tomllib
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet
from PIL import Image

#: By these headings a line that already stands on the sheet is known again; other rows go below the last line.
KNOWN_BY = {
    "Items": ("Item id",),
    "Inspection": ("Item id", "Looked at"),
    "Parts": ("Item id", "Part"),
    "Photos": ("Item id", "Caption"),
}

HEADINGS, FIRST = 2, 3


def fill(book: Path, entries: Path, *, but: str = "", only: str = "") -> None:
    """Type the entries of a page into the workbook and save it; those of all sheets, all `but` one, or `only` one."""
    pages: dict[str, Any] = tomllib.loads(entries.read_text("utf-8"))
    opened = openpyxl.load_workbook(book)
    for sheet, typed in pages.items():
        if sheet == but or (only and sheet != only):
            continue
        if isinstance(typed, dict):
            _fill_form(opened[sheet], typed)
        else:
            _fill_rows(opened[sheet], typed)
    opened.save(book)


def type_over(book: Path, sheet: str, known: str, heading: str, value: object) -> None:
    """Type one cell: on the row of a sheet whose id is `known`, under a heading."""
    opened = openpyxl.load_workbook(book)
    page = opened[sheet]
    columns = {_name(cell.value): number for number, cell in enumerate(page[HEADINGS], 1)}
    (row,) = (cell.row for cell in page["B"] if cell.value == known and not page.cell(cell.row, 1).value)
    page.cell(row, columns[heading]).value = value
    opened.save(book)


def take_photographs(entries: Path, folder: Path) -> None:
    """Put a picture, each another one, wherever the page names a file on Photos."""
    rows = tomllib.loads(entries.read_text("utf-8")).get("Photos", [])
    for number, file in enumerate(row["File"] for row in rows):
        picture = folder / file
        picture.parent.mkdir(exist_ok=True)
        Image.new("RGB", (60, 80), (11 * number % 256, 90, 120)).save(picture)


def _name(label: object) -> str:
    return str(label or "").removesuffix("*").strip()


def _fill_form(sheet: Worksheet, typed: dict[str, Any]) -> None:
    lines = {_name(sheet.cell(row, 1).value): row for row in range(1, sheet.max_row + 1)}
    for label, value in typed.items():
        sheet.cell(lines[label], 2).value = value


def _fill_rows(sheet: Worksheet, rows: list[dict[str, Any]]) -> None:
    columns = {_name(cell.value): number for number, cell in enumerate(sheet[HEADINGS], 1)}
    known_by = KNOWN_BY.get(sheet.title, ())
    used = [row for row in range(FIRST, sheet.max_row + 1) if any(cell.value is not None for cell in sheet[row])]
    standing = {tuple(sheet.cell(row, columns[key]).value for key in known_by): row for row in used}
    free = max(used) + 1
    for typed in rows:
        place = standing.get(tuple(typed[key] for key in known_by)) if known_by else None
        if place is None:
            place, free = free, free + 1
        for heading, value in typed.items():
            sheet.cell(place, columns[heading]).value = value
