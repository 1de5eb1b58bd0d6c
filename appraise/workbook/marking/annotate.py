"""A copy of the user's workbook with every faulty cell marked and commented.

Only the parts that have to change are changed, and in them only the places that have to: whatever else a workbook
holds (text boxes, pictures, lists, sparklines, results of formulas, macros) is copied byte by byte.

    xml_patch      where an element stands, and changes of single bytes
    patched        the package with changed and added parts
    marked_sheet   cells with another style
    marked_styles  styles with another fill
    cell_comments  comments, their boxes, answers to conversations
"""

import zlib
from collections.abc import Collection, Iterable, Mapping
from pathlib import Path
from typing import BinaryIO
from zipfile import BadZipFile, ZipInfo

from appraise.files.unusable import Trouble, UnusableFile
from appraise.files.xml_parts import UnsafeXml
from appraise.files.zips import open_package
from appraise.findings.answers import Judged
from appraise.findings.entries import action, message
from appraise.model.frozen import frozen
from appraise.workbook.cell import column_number
from appraise.workbook.cells import Book
from appraise.workbook.layout import LIBRARY_ROWS, Layout
from appraise.workbook.marking.cell_comments import add_comments
from appraise.workbook.marking.marked_sheet import Address, inside, marked_sheet, visible_cells
from appraise.workbook.marking.marked_styles import MarkedStyles
from appraise.workbook.marking.patched import PatchedPackage

#: Larger parts are not patched in memory [bytes].
LARGEST_PART = 200 * 1024**2
#: A comment can hold 32,767 characters; long before that nobody reads it.
_LONGEST_COMMENT = 4000
_STYLES_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
_GRAVITY = ("stop", "warn", "note")
_BROKEN = (UnsafeXml, BadZipFile, zlib.error, LookupError, ValueError, EOFError, OSError, NotImplementedError)


@frozen
class Annotated:
    """How many findings were put into comments, at how many cells; how many are about another file."""

    findings: int
    cells: int
    elsewhere: int


def open_notes(judged: Iterable[Judged], layout: Layout) -> tuple[dict[tuple[str, str], list[Judged]], int]:
    """Return the open findings by tab and cell, and the number of those about the library.

    A finding about a whole sheet stands at its headings; one about the file, or about a sheet that is not there, has
    the tab "".
    """
    notes: dict[tuple[str, str], list[Judged]] = {}
    elsewhere = 0
    for one in judged:
        if not one.open:
            continue
        place = one.finding.place
        if place.row >= LIBRARY_ROWS and layout.library is not None:
            elsewhere += 1
            continue
        address = layout.address(place) if place.sheet else ("", "A1")
        notes.setdefault(address, []).append(one)
    return notes, elsewhere


def annotate(source: Path, stream: BinaryIO, judged: Iterable[Judged], layout: Layout) -> Annotated:
    """Write the copy of the workbook at `source` to `stream`, with the open findings of the job in it.

    The same workbook and findings give the same bytes. Raises `UnusableFile` where a part cannot be changed safely.
    """
    notes, elsewhere = open_notes(judged, layout)
    with Book(source) as book:
        sheets = {one.name: one.part for one in book.sheets}
        first = next((one.name for one in book.sheets if not one.hidden), book.sheets[0].name)
        book_part = book.part
    by_tab: dict[str, dict[Address, list[Judged]]] = {}
    for (tab, cell), found in notes.items():
        known = tab in sheets
        address = _address(cell) if known else (1, 1)
        by_tab.setdefault(tab if known else first, {}).setdefault(address, []).extend(found)
    try:
        with open_package(source) as opened:
            _refuse_large(opened.infolist(), source, {sheets[tab].lower() for tab in by_tab})
            package = PatchedPackage(opened)
            cells = _change(package, book_part, {sheets[tab]: cells for tab, cells in by_tab.items()})
            package.write(stream)
    except _BROKEN as error:
        if isinstance(error, OSError) and error.errno is not None:
            raise
        raise UnusableFile(
            Trouble.DAMAGED,
            source,
            f"{source.name} has a part that cannot be marked without harm. Open it in your spreadsheet program, save "
            "it under a new name, or use --findings instead.",
        ) from error
    return Annotated(sum(len(one) for one in notes.values()), cells, elsewhere)


def _change(package: PatchedPackage, book: str, by_part: Mapping[str, Mapping[Address, list[Judged]]]) -> int:
    """Mark and comment the cells of each sheet; return how many cells there are."""
    count = 0
    part = package.linked(book, "styles")
    styles = MarkedStyles(package.read(part) if part is not None else None)
    for sheet, cells in sorted(by_part.items()):
        content = package.read(sheet)
        shown = visible_cells(content, cells)
        found: dict[Address, list[Judged]] = {}
        for address, notes in cells.items():
            found.setdefault(shown.get(address, address), []).extend(notes)
        count += len(found)
        marks = {address: min((_word(one) for one in notes), key=_GRAVITY.index) for address, notes in found.items()}
        package.put(sheet, marked_sheet(content, marks, styles.marked))
        add_comments(package, sheet, book, {address: _text(notes) for address, notes in found.items()})
    if not by_part:
        return 0
    if part is None:
        part = package.add("xl", "appraiseStyles", "xml", _STYLES_TYPE)
        package.link(book, "styles", part)
    package.put(part, styles.content())
    return count


def _word(one: Judged) -> str:
    return one.severity.word


def _text(notes: Iterable[Judged]) -> str:
    ordered = sorted(notes, key=lambda one: _GRAVITY.index(_word(one)))
    pieces: list[str] = []
    length = 0
    for number, one in enumerate(ordered):
        piece = f"{_word(one)} {one.finding.code}: {message(one.finding)}\n{action(one.finding)}"[:_LONGEST_COMMENT]
        if length + len(piece) > _LONGEST_COMMENT:
            pieces.append(f"... and {len(ordered) - number} more; see the list of findings.")
            break
        pieces.append(piece)
        length += len(piece)
    return "\n\n".join(pieces)


def _address(cell: str) -> Address:
    letters = cell.rstrip("0123456789")
    address = (int(cell[len(letters) :] or 1), column_number(letters or "A"))
    return address if inside(address) else (1, 1)


def _refuse_large(entries: Iterable[ZipInfo], source: Path, parts: Collection[str]) -> None:
    for entry in entries:
        name, size = entry.filename.lower(), entry.file_size
        if size > LARGEST_PART and (name in parts or name.endswith((".vml", "styles.xml", ".rels"))):
            raise UnusableFile(
                Trouble.TOO_LARGE,
                source,
                f"{source.name} has a sheet of {size // 1024**2} MB, too large to be marked. Use --findings instead.",
            )
