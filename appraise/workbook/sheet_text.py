"""Reads the rows of a sheet from its text: quick, for the plain form in which every known writer writes rows.

Nothing is taken on trust. A row is read this way only if all of it matches a strict pattern; any other row goes to
the XML parser. What could hide rows from the pattern (comments, CDATA sections, another encoding, a prefix on the
elements) sends the whole sheet there. The end of the sheet is always parsed as XML.
"""

import re
from codecs import getincrementaldecoder
from collections.abc import Callable, Iterator
from itertools import islice
from typing import IO
from xml.parsers.expat import ExpatError

from appraise.files.xml_parts import UnsafeXml, parse_small
from appraise.workbook.cell import Cell, Kind, Row, Value, column_number
from appraise.workbook.number_formats import Shown
from appraise.workbook.sheet_xml import MAIN, SheetReader, Surroundings, read_xml_rows

_BLOCK = 1 << 17
_HEAD_LIMIT = 1 << 20
_DECLARATION = re.compile(
    r"""<\?xml version=["']1\.0["'](?: encoding=["'](?i:utf-8)["'])?(?: standalone=["']\w+["'])?\s*\?>\s*"""
)
_ROOT = re.compile(r"<worksheet(?=[ >])[^<>]*>")
_ROW = re.compile(r'<row r="([0-9]+)"((?: [\w:]+="[^"<>&]*")*)>')
_EMPTY_ROWS = re.compile(r'(?:<row r="[0-9]+"(?: [\w:]+="[^"<>&]*")*/>\s*)+')
_ROW_NUMBERS = re.compile(r'<row r="([0-9]+)"')
_CELL = '<c r="'
_LETTERS = re.compile(r"[A-Z]{1,3}")
#: A cell behind its reference: style, type, formula, value; spaces up to the next cell.
_REST = re.compile(
    r'"(?: s="([0-9]+)")?(?: t="([a-z]+)")?(?:/>|>(?:<f>([^<&\r]+)</f>)?(?:<v>([^<&\r]*)</v>|<v/>)?</c>)\s*'
)
#: How many different contents are remembered before starting again: of a sheet, and as cells of one of its columns.
_REMEMBERED, _REMEMBERED_OF_A_COLUMN = 1 << 13, 1 << 10

#: What a cell holds: kind, value, how it is shown, formula.
Content = tuple[Kind, Value, Shown, str]


_EMPTY: Content = (Kind.NOTHING, None, Shown.PLAIN, "")
_NO_CELL = Cell(0, *_EMPTY)


class _NotPlain(Exception):
    """The sheet as a whole is not written in the plain form."""


def read_text_rows(reopen: Callable[[], IO[bytes]], book: Surroundings, merged: list[str]) -> Iterator[Row]:
    """Yield the rows that hold something; `reopen` gives the sheet from its beginning."""
    yielded = 0
    try:
        with reopen() as stream:
            for row in _plain_rows(stream, SheetReader(book, merged)):
                yielded += 1
                yield row
    except _NotPlain:
        merged.clear()
        with reopen() as stream:
            yield from islice(read_xml_rows(stream, SheetReader(book, merged)), yielded, None)


def _plain_rows(stream: IO[bytes], reader: SheetReader) -> Iterator[Row]:
    blocks = _decoded(stream)
    root, rest = _head(blocks)
    plain = _PlainReader(reader, root)
    while True:
        end = rest.find("</sheetData>")
        pieces = (rest if end < 0 else rest[:end]).split("</row>")
        left = pieces.pop()
        for piece in pieces:
            row = plain.row(piece)
            if row is not None:
                yield row
        if end >= 0:
            break
        # Empty rows need no end tag of their own, so they may go on for megabytes; one cell may be as long.
        left = plain.skip_empty(left)
        more = "".join(_at_least(blocks, len(left)))
        if not more:
            raise _NotPlain
        rest = left + more
    plain.only_empty(left)
    _read_tail(root, rest[end + len("</sheetData>") :] + "".join(blocks), reader.merged)


def _at_least(blocks: Iterator[str], least: int) -> Iterator[str]:
    """Yield the next blocks until they are as long as what is still waiting: so time grows with the length alone."""
    length = 0
    for block in blocks:
        yield block
        length += len(block)
        if length >= least:
            return


def _decoded(stream: IO[bytes]) -> Iterator[str]:
    """Yield the text of the sheet block by block; anything that could hide rows is not plain."""
    decoder = getincrementaldecoder("utf-8")("strict")
    before = ""
    first = True
    while block := stream.read(_BLOCK):
        try:
            text = decoder.decode(block)
        except UnicodeDecodeError as error:
            raise _NotPlain from error
        if first:
            declaration = _DECLARATION.match(text)
            text = text[declaration.end() :] if declaration else text
            first = False
        # A mark may be cut in two by the end of a block.
        if "<!" in text or "<?" in text or (before == "<" and text[:1] in ("!", "?")):
            raise _NotPlain
        before = text[-1:] or before
        yield text
    if decoder.getstate()[0]:
        raise _NotPlain


def _head(blocks: Iterator[str]) -> tuple[str, str]:
    """Return the start tag of the sheet and what follows the start of its data."""
    text = ""
    while "<sheetData>" not in text:
        more = next(blocks, None)
        if more is None or len(text) > _HEAD_LIMIT:
            raise _NotPlain
        text += more
    head, _, rest = text.partition("<sheetData>")
    root = _ROOT.match(head)
    if root is None or f' xmlns="{MAIN}"' not in root[0]:
        raise _NotPlain
    try:
        parse_small(f"{head}</worksheet>".encode())
    except UnsafeXml as error:
        raise _NotPlain from error
    return root[0], rest


def _read_tail(root: str, tail: str, merged: list[str]) -> None:
    """Note the merged areas, which stand behind the rows. Raises `UnsafeXml`."""
    for one in parse_small(f"{root}{tail}".encode()).iter(f"{{{MAIN}}}mergeCell"):
        merged.append(one.get("ref", ""))


class _PlainReader:
    """Reads rows in the plain form, and hands any other row to the XML parser."""

    def __init__(self, reader: SheetReader, root: str) -> None:
        self.reader = reader
        self.root = root
        self.columns: dict[str, tuple[int, dict[str, Cell]]] = {}
        self.contents: dict[str, Content] = {}

    def row(self, piece: str) -> Row | None:
        """Return the row that ends `piece` (its end tag is cut off), None if it holds nothing."""
        if piece[:1] != "<" or piece[:5] != "<row " or "/><row " in piece:
            piece = self.skip_empty(piece)
        head, *pieces = piece.split(_CELL)
        start = _ROW.fullmatch(head.rstrip())
        if start is None:
            return self.by_parser(piece)
        digits = start[1]
        number = int(digits)
        cells: list[Cell] = []
        columns = self.columns
        for cell in pieces:
            letters, _, rest = cell.partition(digits)
            column = columns.get(letters)
            if column is None:
                if not _LETTERS.fullmatch(letters):
                    return self.by_parser(piece)
                column = columns[letters] = column_number(letters), {}
            made = column[1].get(rest)
            if made is None:
                content = self.content(rest)
                if content is None:
                    return self.by_parser(piece)
                made = _NO_CELL if content is _EMPTY else Cell(column[0], *content)
                if len(column[1]) >= _REMEMBERED_OF_A_COLUMN:
                    column[1].clear()
                column[1][rest] = made
            if made is not _NO_CELL:
                cells.append(made)
        self.reader.row = number
        if not cells:
            return None
        attributes = start[2]
        hidden = ' hidden="' in attributes and (' hidden="1"' in attributes or ' hidden="true"' in attributes)
        return Row(number, hidden, cells)

    def content(self, rest: str) -> Content | None:
        """Return what a cell holds, by the rules of the XML reader, and remember it; None: the row needs the parser."""
        known = self.contents.get(rest)
        if known is not None:
            return known
        found = _REST.fullmatch(rest)
        if found is None:
            return None
        style, kind, formula, value = found.groups("")
        if kind == "s" and value and not formula:
            content: Content = (Kind.TEXT, self.reader.book.shared_text(int(value)), Shown.PLAIN, "")
        elif value:
            reader = self.reader
            reader.type = kind or "n"
            reader.style = int(style or "0")
            reader.formula_of = {} if formula else None
            content = (*reader.typed(value), formula)
            if content[0] is Kind.NOTHING or kind == "inlineStr":
                return None
        elif kind in ("str", "inlineStr"):
            return None
        else:
            content = (*_EMPTY[:3], formula) if formula else _EMPTY
        if len(self.contents) >= _REMEMBERED:
            self.contents.clear()
        self.contents[rest] = content
        return content

    def skip_empty(self, piece: str) -> str:
        """Return `piece` without the empty rows and spaces in front of its row."""
        piece = piece.lstrip()
        empty = _EMPTY_ROWS.match(piece)
        if empty is None:
            return piece
        self.reader.row = int(_ROW_NUMBERS.findall(empty[0])[-1])
        return piece[empty.end() :]

    def only_empty(self, piece: str) -> None:
        """Make sure that nothing but empty rows stands behind the last row that was read."""
        if self.skip_empty(piece):
            raise _NotPlain

    def by_parser(self, piece: str) -> Row | None:
        """Return a row read by the XML parser. The piece may begin with rows of its own without content."""
        reader = self.reader
        parser = reader.parser()
        try:
            parser.Parse(f"{self.root}<sheetData>{piece}</row></sheetData></worksheet>", True)
        except ExpatError as error:
            raise _NotPlain from error
        rows = reader.rows.copy()
        reader.rows.clear()
        if len(rows) > 1:
            raise _NotPlain
        return rows[0] if rows else None
