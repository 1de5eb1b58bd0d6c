"""Marks cells of one sheet of somebody else's workbook: another fill, nothing else; the style is the cell's own.

Cells and rows that are not written yet, because nothing stands in them, are put in where they belong.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from appraise.files.xml_parts import SEPARATOR, UnsafeXml, strict_parser
from appraise.workbook.cell import column_letters, column_number
from appraise.workbook.marking.xml_patch import (
    Edit,
    Located,
    append_to,
    edited,
    locate,
    prefix_of,
    tag_end,
    with_attributes,
)
from appraise.workbook.sheet_xml import MAIN

#: Row and column, counted from 1.
Address = tuple[int, int]
#: From the number of a cell's style and the kind of mark to the number of the style with its mark.
Marked = Callable[[int, str], int]

_LARGEST_ROW, _LARGEST_COLUMN = 1_048_576, 16_384
#: What may stand in a sheet before the element that names the drawing of its comments (ECMA-376 part 1, 18.3.1.99).
_BEFORE_DRAWING = frozenset(
    (
        "sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection",
        "protectedRanges", "scenarios", "autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells",
        "phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins",
        "pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors",
        "smartTags", "drawing",
    )
)  # fmt: skip
_DRAWING = "legacyDrawing"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def inside(address: Address) -> bool:
    """Say whether a sheet can hold such a cell."""
    return 1 <= address[0] <= _LARGEST_ROW and 1 <= address[1] <= _LARGEST_COLUMN


def reference(address: Address) -> str:
    """Return an address as a sheet writes it."""
    return f"{column_letters(address[1])}{address[0]}"


def marked_sheet(content: bytes, marks: Mapping[Address, str], marked: Marked) -> bytes:
    """Return the sheet's XML with the cells marked. Raises `UnsafeXml` where it is not well formed."""
    scan = _Scan(content, marks)
    rows = scan.rows
    edits: list[Edit] = []
    for row in scan.wanted:
        edits += rows[row].edits(marked) if row in rows else []
    missing = [row for row in scan.wanted if row not in rows]
    if missing:
        edits += _new_rows(content, scan, missing, marked)
    return edited(content, edits)


def visible_cells(content: bytes, addresses: Iterable[Address]) -> dict[Address, Address]:
    """Return, for cells covered by a merged one, the cell that shows; the others are left out."""
    areas = [
        area
        for one in locate(_outline(content)[0], lambda name, depth: name == "mergeCell" and depth == 2)
        if (area := _area(one.attributes.get("ref", ""))) is not None
    ]
    shown: dict[Address, Address] = {}
    for address in addresses if areas else ():
        for top, left, bottom, right in areas:
            if top <= address[0] <= bottom and left <= address[1] <= right and address != (top, left):
                shown[address] = (top, left)
    return shown


def drawing_link(content: bytes) -> str | None:
    """Return the id of the link to the drawing of comments, None where the sheet has none."""
    for one in locate(_outline(content)[0], lambda name, depth: name == _DRAWING and depth == 1):
        return next((value for name, value in one.attributes.items() if name.rpartition(SEPARATOR)[2] == "id"), None)
    return None


def with_drawing(content: bytes, link: str) -> bytes:
    """Return the sheet's XML with the element that names the drawing of its comments."""
    outline, start, left_out = _outline(content)
    children = locate(outline, lambda _, depth: depth <= 1)
    root = next(one for one in children if one.end == max(each.end for each in children))
    before = [one for one in children if one.name in _BEFORE_DRAWING and one is not root]
    place = max((one.end for one in before), default=root.inside)
    place += left_out if place > start else 0
    one = f'<{prefix_of(content, root)}{_DRAWING} xmlns:r="{_OFFICE}" r:id="{link}"/>'
    return edited(content, [Edit(place, place, one.encode())])


def _outline(content: bytes) -> tuple[bytes, int, int]:
    """Return a sheet without its rows, where they began, and how many bytes they were.

    Rows are most of a sheet, and nothing looked for here stands in them. What could hide an end of them leaves the
    sheet whole.
    """
    begin = _DATA_BEGINS.search(content)
    end = content.rfind(b"</", 0, max(content.rfind(b"sheetData>"), 0))
    if begin is None or end < begin.end() or b"<!" in content or b"<?" in content[begin.end() :]:
        return content, len(content), 0
    return content[: begin.end()] + content[end:], begin.end(), end - begin.end()


_DATA_BEGINS = re.compile(rb"<(?:[\w.-]+:)?sheetData>")


@dataclass(slots=True)
class _RowFound:
    """A row in which cells are to be marked: where it stands, its cells to mark, where the missing ones belong."""

    content: bytes
    start: int
    style: int
    wanted: dict[int, str]
    cells: dict[int, tuple[int, int]] = field(default_factory=dict)
    places: dict[int, int] = field(default_factory=dict)
    close: int = 0
    prefix: str = ""
    number: int = 0
    of_column: Callable[[int], int] = lambda _: 0

    def cell(self, column: int, start: int, style: int) -> None:
        for one in self.wanted:
            if one < column and one not in self.places and one not in self.cells:
                self.places[one] = start
        if column in self.wanted:
            self.cells[column] = (start, style)

    def edits(self, marked: Marked) -> Iterator[Edit]:
        missing = sorted(column for column in self.wanted if column not in self.cells)
        for column, (start, style) in self.cells.items():
            end = tag_end(self.content, start)
            tag = self.content[start:end]
            yield Edit(start, end, with_attributes(tag, {"s": str(marked(style, self.wanted[column]))}))
        if not missing:
            return
        inside = tag_end(self.content, self.start)
        new = {column: self.new(column, marked) for column in missing}
        # `spans` says how far the cells reach; it may be left out, but it may not be wrong.
        tag = with_attributes(self.content[self.start : inside], {"spans": None})
        if tag.endswith(b"/>"):
            cells = b"".join(new.values())
            yield Edit(self.start, inside, tag[:-2].rstrip() + b">" + cells + f"</{self.prefix}row>".encode())
            return
        yield Edit(self.start, inside, tag)
        for column in missing:
            place = self.places.get(column, self.close)
            yield Edit(place, place, new[column])

    def new(self, column: int, marked: Marked) -> bytes:
        style = self.style or self.of_column(column)
        number = marked(style, self.wanted[column])
        return f'<{self.prefix}c r="{reference((self.number, column))}" s="{number}"/>'.encode()


class _Scan:
    """One pass over a sheet that notes where the rows and cells to be marked stand, or belong."""

    def __init__(self, content: bytes, marks: Mapping[Address, str]) -> None:
        self.content = content
        self.by_row: dict[int, dict[int, str]] = {}
        for (row, column), mark in sorted(marks.items()):
            self.by_row.setdefault(row, {})[column] = mark
        self.wanted = sorted(self.by_row)
        self.rows: dict[int, _RowFound] = {}
        self.place_of_row: dict[int, int] = {}
        self.data: Located | None = None
        self.columns: list[tuple[int, int, int]] = []
        self.prefix = ""
        self._next = 0
        self._number = 0
        self._column = 0
        self._row: _RowFound | None = None
        self._data_start = -1
        self._parse()
        if self.data is None:
            raise UnsafeXml("the sheet has no data")

    def style_of_column(self, column: int) -> int:
        return next((style for first, last, style in self.columns if first <= column <= last), 0)

    def _parse(self) -> None:
        self._parser = strict_parser()
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        try:
            self._parser.Parse(self.content, True)
        except (expat.ExpatError, ValueError) as error:
            raise UnsafeXml(str(error)) from error

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        if name == _C:
            if self._row is not None:
                found = attributes.get("r")
                self._column = column_number(found) if found else self._column + 1
                self._row.cell(self._column, self._parser.CurrentByteIndex, _whole(attributes.get("s")))
        elif name == _ROW:
            self._begin_row(attributes)
        elif name == _COL:
            first, last, style = (_whole(attributes.get(one)) for one in ("min", "max", "style"))
            self.columns.append((first, last, style))
        elif name == _DATA:
            self._data_start = self._parser.CurrentByteIndex

    def _begin_row(self, attributes: dict[str, str]) -> None:
        number = attributes.get("r")
        self._number = _whole(number) if number else self._number + 1
        self._column = 0
        at = self._parser.CurrentByteIndex
        while self._next < len(self.wanted) and self.wanted[self._next] < self._number:
            self.place_of_row.setdefault(self.wanted[self._next], at)
            self._next += 1
        if self._number in self.by_row and self._number not in self.rows:
            own = attributes.get("customFormat") in ("1", "true")
            style = _whole(attributes.get("s")) if own else 0
            self._row = _RowFound(self.content, at, style, self.by_row[self._number], number=self._number)
            self._row.of_column = self.style_of_column
            self.rows[self._number] = self._row

    def _end(self, name: str) -> None:
        if name == _ROW and self._row is not None:
            self._row.close = self._parser.CurrentByteIndex
            self._row.prefix = _prefix(self.content, self._row.start)
            self._row = None
        elif name == _DATA and self.data is None:
            start, close = self._data_start, self._parser.CurrentByteIndex
            inside = tag_end(self.content, start)
            empty = self.content[inside - 2 : inside] == b"/>"
            end = close if empty else self.content.index(b">", close) + 1
            self.data = Located("sheetData", MAIN, {}, start, inside, close, end)
            self.prefix = _prefix(self.content, start)


def _new_rows(content: bytes, scan: _Scan, missing: list[int], marked: Marked) -> list[Edit]:
    data = scan.data
    assert data is not None
    at_end = b""
    edits = []
    for row in missing:
        found = _RowFound(content, 0, 0, scan.by_row[row], prefix=scan.prefix, number=row)
        found.of_column = scan.style_of_column
        cells = b"".join(found.new(column, marked) for column in sorted(found.wanted))
        new = f'<{scan.prefix}row r="{row}">'.encode() + cells + f"</{scan.prefix}row>".encode()
        place = scan.place_of_row.get(row)
        if place is None:
            at_end += new
        else:
            edits.append(Edit(place, place, new))
    if at_end:
        edits += append_to(content, data, at_end)
    return edits


def _prefix(content: bytes, start: int) -> str:
    return prefix_of(content, Located("", "", {}, start, tag_end(content, start), 0, 0))


def _whole(text: str | None) -> int:
    return int(text) if text is not None and len(text) < 10 and text.isascii() and text.isdecimal() else 0


def _area(text: str) -> tuple[int, int, int, int] | None:
    found = re.fullmatch(r"([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})", text)
    if found is None:
        return None
    return int(found[2]), column_number(found[1]), int(found[4]), column_number(found[3])


_C, _ROW, _COL, _DATA = (f"{MAIN} {name}" for name in ("c", "row", "col", "sheetData"))
