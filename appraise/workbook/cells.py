"""How a workbook's cells are read: the one door to the inside of a workbook.

Yields every cell that holds something, row by row, in one pass that keeps formula and result together. Behind the
door `sheet_text` reads the rows every writer writes, `sheet_xml` all others; nothing else knows them, and either may
be replaced. Left out: styles other than percent, currency, day and time; comments; text boxes; pictures.
"""

import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import TracebackType
from typing import Self
from xml.etree.ElementTree import Element
from zipfile import BadZipFile, ZipFile

from appraise.files.unusable import Trouble, UnusableFile
from appraise.files.xml_parts import UnsafeXml, feed, strict_parser
from appraise.files.zips import open_package
from appraise.model.frozen import frozen
from appraise.workbook.cell import Cell, Kind, Row, Value, column_letters, column_number, to_decimal
from appraise.workbook.number_formats import Shown, shown_as
from appraise.workbook.parts import Parts
from appraise.workbook.sheet_text import read_text_rows
from appraise.workbook.sheet_xml import MAIN, SheetReader, read_xml_rows

__all__ = [
    "Book",
    "Cell",
    "Kind",
    "Row",
    "SheetPart",
    "SheetRows",
    "Value",
    "column_letters",
    "column_number",
    "to_decimal",
]

_STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main"
_LINK_ID = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
#: What the standard library raises on a package that is broken inside.
_BROKEN = (UnsafeXml, BadZipFile, zlib.error, LookupError, ValueError, EOFError, OSError, NotImplementedError)


@frozen
class SheetPart:
    """A worksheet of the workbook: its name as on the tab, the part that holds it, whether it is hidden."""

    name: str
    part: str
    hidden: bool


@dataclass(slots=True)
class SheetRows:
    """The rows of one sheet, to be iterated once; `merged` is complete after the last row."""

    book: "Book"
    sheet: SheetPart
    careful: bool = False
    merged: list[str] = field(default_factory=list)

    def __iter__(self) -> Iterator[Row]:
        return self.book._read_rows(self)


class Book:
    """An opened workbook. Use it with `with`; `rows` may be called for several sheets, one after the other.

    Raises `UnusableFile` for whatever makes the file as a whole unreadable.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._package: ZipFile = open_package(path)
        try:
            self._parts = Parts(self._package)
            book_part = self._find_book_part()
            self.part = book_part
            root = self._parts.small(book_part)
            self._check_main(root)
            settings = root.find(f"{{{MAIN}}}workbookPr")
            self.from_1904 = settings is not None and settings.get("date1904") in ("1", "true")
            links = self._parts.links(book_part)
            self.sheets = self._find_sheets(root, links)
            by_kind = dict(links.values())
            self._shared_part = by_kind.get("sharedStrings")
            self._shared: list[str] | None = None
            self._shown = self._read_styles(by_kind.get("styles"))
        except UnusableFile:
            self._package.close()
            raise
        except _BROKEN as error:
            self._package.close()
            raise self._damaged() from error

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._package.close()

    def rows(self, sheet: SheetPart, *, careful: bool = False) -> SheetRows:
        """Return the rows of `sheet`. While they are iterated `UnusableFile` is raised where the part is damaged.

        `careful` has every row read by the XML parser, not only those that need it (for comparison).
        """
        return SheetRows(self, sheet, careful)

    def tables(self, sheet: SheetPart) -> tuple[str, ...]:
        """Return the areas of the tables on `sheet`, such as `A2:F40`."""
        try:
            links = self._parts.links(sheet.part)
            return tuple(self._parts.small(target).get("ref", "") for kind, target in links.values() if kind == "table")
        except _BROKEN as error:
            raise self._damaged() from error

    def _read_rows(self, rows: SheetRows) -> Iterator[Row]:
        try:
            part = self._parts.name(rows.sheet.part)
            if rows.careful:
                with self._package.open(part) as stream:
                    yield from read_xml_rows(stream, SheetReader(self, rows.merged))
            else:
                yield from read_text_rows(lambda: self._package.open(part), self, rows.merged)
        except _BROKEN as error:
            raise self._damaged() from error

    def _damaged(self) -> UnusableFile:
        return UnusableFile(
            Trouble.DAMAGED,
            self.path,
            f"{self.path.name} is damaged inside. Open it in your spreadsheet program, let it repair the file, and "
            "save it under a new name.",
        )

    def _find_book_part(self) -> str:
        if "mimetype" in self._parts and b"opendocument" in self._parts.read("mimetype"):
            raise UnusableFile(
                Trouble.OPEN_DOCUMENT,
                self.path,
                f"{self.path.name} is an OpenDocument file. Open it in your spreadsheet program and save it as .xlsx.",
            )
        if "_rels/.rels" not in self._parts:
            raise UnusableFile(
                Trouble.NOT_A_WORKBOOK,
                self.path,
                f"{self.path.name} is a zip file, but not an .xlsx workbook. Name the workbook you filled in.",
            )
        for kind, target in self._parts.links("").values():
            if kind == "officeDocument":
                if target.endswith(".bin"):
                    raise UnusableFile(
                        Trouble.BINARY_EXCEL,
                        self.path,
                        f"{self.path.name} is a binary workbook (.xlsb). Save it as .xlsx (Excel workbook).",
                    )
                return target
        raise KeyError("officeDocument")

    def _check_main(self, root: Element) -> None:
        if root.tag == f"{{{_STRICT_MAIN}}}workbook":
            raise UnusableFile(
                Trouble.STRICT,
                self.path,
                f"{self.path.name} is saved as 'Strict Open XML Spreadsheet'. Save it as 'Excel Workbook (.xlsx)'.",
            )
        if root.tag != f"{{{MAIN}}}workbook":
            raise UnusableFile(
                Trouble.NOT_A_WORKBOOK,
                self.path,
                f"{self.path.name} is an office file, but not a workbook. Name the workbook you filled in.",
            )

    def _find_sheets(self, root: Element, links: dict[str, tuple[str, str]]) -> tuple[SheetPart, ...]:
        found = []
        for one in root.iterfind(f"{{{MAIN}}}sheets/{{{MAIN}}}sheet"):
            kind, target = links.get(one.get(_LINK_ID, ""), ("", ""))
            if kind == "worksheet":
                found.append(SheetPart(one.get("name", ""), target, one.get("state", "visible") != "visible"))
        if not found:
            raise UnusableFile(
                Trouble.NO_SHEETS, self.path, f"{self.path.name} has no sheets. Take the workbook you filled in."
            )
        return tuple(found)

    def _read_shared(self) -> list[str]:
        part = self._shared_part
        if part is None or part not in self._parts:
            return []
        return _read_shared_texts(self._package, self._parts.name(part))

    def _read_styles(self, part: str | None) -> list[Shown]:
        if part is None or part not in self._parts:
            return []
        root = self._parts.small(part)
        codes = {
            int(one.get("numFmtId", "0")): one.get("formatCode", "")
            for one in root.iterfind(f"{{{MAIN}}}numFmts/{{{MAIN}}}numFmt")
        }
        ids = [int(one.get("numFmtId", "0")) for one in root.iterfind(f"{{{MAIN}}}cellXfs/{{{MAIN}}}xf")]
        return [shown_as(one, codes.get(one)) for one in ids]

    def shared_text(self, index: int) -> str:
        """Return a text of the shared list, which is read when the first is asked for."""
        if self._shared is None:
            self._shared = self._read_shared()
        return self._shared[index]

    def style(self, index: int) -> Shown:
        """Return how numbers of a cell style are shown."""
        return self._shown[index] if index < len(self._shown) else Shown.PLAIN


def _read_shared_texts(package: ZipFile, part: str) -> list[str]:
    """Return the shared texts in order; runs of rich text are joined, phonetic guides left out."""
    entry, text, guide = (f"{MAIN} {name}" for name in ("si", "t", "rPh"))
    texts: list[str] = []
    pieces: list[str] = []
    in_guide = False
    parser = strict_parser()

    def start(name: str, _: dict[str, str]) -> None:
        nonlocal in_guide
        if name == text and not in_guide:
            parser.CharacterDataHandler = pieces.append
        elif name == guide:
            in_guide = True

    def end(name: str) -> None:
        nonlocal in_guide
        if name == text:
            parser.CharacterDataHandler = None
        elif name == guide:
            in_guide = False
        elif name == entry:
            texts.append("".join(pieces))
            pieces.clear()

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    with package.open(part) as stream:
        for _ in feed(parser, stream):
            pass
    return texts
