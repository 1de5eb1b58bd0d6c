"""How a workbook's cells are read: the one module that knows the inside of a sheet.

Yields every cell that holds something, row by row, in one pass that keeps formula and result together. It knows
nothing of our sheets and columns. What it leaves out: styles other than percent, currency, day and time; comments;
text boxes; pictures.
"""

import posixpath
import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal, InvalidOperation
from enum import Enum
from pathlib import Path
from types import TracebackType
from typing import NamedTuple, Self
from xml.etree.ElementTree import Element
from zipfile import BadZipFile, ZipFile

from appraise.files.unusable import Trouble, UnusableFile
from appraise.files.xml_parts import UnsafeXml, feed, parse_small, strict_parser
from appraise.files.zips import open_package
from appraise.workbook.number_formats import Shown, shown_as

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_LINK_ID = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_DAY_ZERO_1900 = date(1899, 12, 30)
_DAY_ZERO_1904 = date(1904, 1, 1)
_DAY_MILLISECONDS = 86_400_000
#: What the standard library raises on a package that is broken inside.
_BROKEN = (UnsafeXml, BadZipFile, zlib.error, LookupError, ValueError, EOFError, OSError, NotImplementedError)


class Kind(Enum):
    """What a cell holds; of a formula, what its result is. NOTHING: a formula without a result."""

    NOTHING = "nothing"
    NUMBER = "number"
    TEXT = "text"
    YES_NO = "yes or no"
    DAY = "day"
    ERROR = "error"


Value = Decimal | str | bool | date | None


class Cell(NamedTuple):
    """One cell.

    column   counted from 1
    kind     of the value (of a formula: of its result)
    value    Decimal (15 significant digits), text, bool, date, the error's name, or None
    shown    whether a number is shown as a percent, an amount or a time of day
    formula  without the sign of equality; "" where there is none
    """

    column: int
    kind: Kind
    value: Value
    shown: Shown = Shown.PLAIN
    formula: str = ""


class Row(NamedTuple):
    """One row that holds something: its number from 1, whether it is hidden, its cells from left to right."""

    number: int
    hidden: bool
    cells: list[Cell]


@dataclass(frozen=True, slots=True)
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
    merged: list[str] = field(default_factory=list)

    def __iter__(self) -> Iterator[Row]:
        return _read_rows(self.book, self.sheet, self.merged)


class Book:
    """An opened workbook. Use it with `with`; `rows` may be called for several sheets, one after the other.

    Raises `UnusableFile` for whatever makes the file as a whole unreadable.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._package: ZipFile = open_package(path)
        try:
            self._names = {name.lower(): name for name in self._package.namelist()}
            book_part = self._find_book_part()
            root = self._small(book_part)
            self._check_main(root)
            settings = root.find(f"{{{_MAIN}}}workbookPr")
            self.from_1904 = settings is not None and settings.get("date1904") in ("1", "true")
            links = self._links(book_part)
            self.sheets = self._find_sheets(root, links)
            by_kind = dict(links.values())
            self._shared = self._read_shared(by_kind.get("sharedStrings"))
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

    def rows(self, sheet: SheetPart) -> SheetRows:
        """Return the rows of `sheet`. While they are iterated `UnusableFile` is raised where the part is damaged."""
        return SheetRows(self, sheet)

    def tables(self, sheet: SheetPart) -> tuple[str, ...]:
        """Return the areas of the tables on `sheet`, such as `A2:F40`."""
        try:
            links = self._links(sheet.part)
            return tuple(self._small(target).get("ref", "") for kind, target in links.values() if kind == "table")
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
        if "mimetype" in self._names and b"opendocument" in self._package.read("mimetype"):
            raise UnusableFile(
                Trouble.OPEN_DOCUMENT,
                self.path,
                f"{self.path.name} is an OpenDocument file. Open it in your spreadsheet program and save it as .xlsx.",
            )
        if "_rels/.rels" not in self._names:
            raise UnusableFile(
                Trouble.NOT_A_WORKBOOK,
                self.path,
                f"{self.path.name} is a zip file, but not an .xlsx workbook. Name the workbook you filled in.",
            )
        for kind, target in self._links("").values():
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
        if root.tag != f"{{{_MAIN}}}workbook":
            raise UnusableFile(
                Trouble.NOT_A_WORKBOOK,
                self.path,
                f"{self.path.name} is an office file, but not a workbook. Name the workbook you filled in.",
            )

    def _find_sheets(self, root: Element, links: dict[str, tuple[str, str]]) -> tuple[SheetPart, ...]:
        found = []
        for one in root.iterfind(f"{{{_MAIN}}}sheets/{{{_MAIN}}}sheet"):
            kind, target = links.get(one.get(_LINK_ID, ""), ("", ""))
            if kind == "worksheet":
                found.append(SheetPart(one.get("name", ""), target, one.get("state", "visible") != "visible"))
        if not found:
            raise UnusableFile(
                Trouble.NO_SHEETS, self.path, f"{self.path.name} has no sheets. Take the workbook you filled in."
            )
        return tuple(found)

    def _part(self, name: str) -> str:
        # Some writers spell part names in the wrong case; packages are compared without it (ECMA-376 part 2).
        return self._names[name.lower()]

    def _small(self, part: str) -> Element:
        return parse_small(self._package.read(self._part(part)))

    def _links(self, part: str) -> dict[str, tuple[str, str]]:
        """Return, by id, the kind (last word of its type) and the target part of each link of `part`."""
        folder, name = posixpath.split(part)
        links_part = posixpath.join(folder, "_rels", f"{name}.rels")
        if links_part.lower() not in self._names:
            return {}
        links = {}
        for one in self._small(links_part).iterfind(f"{{{_LINKS}}}Relationship"):
            if one.get("TargetMode") == "External":
                continue
            target = one.get("Target", "")
            whole = target[1:] if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
            links[one.get("Id", "")] = (one.get("Type", "").rpartition("/")[2], whole)
        return links

    def _read_shared(self, part: str | None) -> list[str]:
        if part is None or part.lower() not in self._names:
            return []
        return _read_shared_texts(self._package, self._part(part))

    def _read_styles(self, part: str | None) -> list[Shown]:
        if part is None or part.lower() not in self._names:
            return []
        root = self._small(part)
        codes = {
            int(one.get("numFmtId", "0")): one.get("formatCode", "")
            for one in root.iterfind(f"{{{_MAIN}}}numFmts/{{{_MAIN}}}numFmt")
        }
        ids = [int(one.get("numFmtId", "0")) for one in root.iterfind(f"{{{_MAIN}}}cellXfs/{{{_MAIN}}}xf")]
        return [shown_as(one, codes.get(one)) for one in ids]

    def shared_text(self, index: int) -> str:
        """Return a text of the shared list."""
        return self._shared[index]

    def style(self, index: int) -> Shown:
        """Return how numbers of a cell style are shown."""
        return self._shown[index] if index < len(self._shown) else Shown.PLAIN


def _read_shared_texts(package: ZipFile, part: str) -> list[str]:
    """Return the shared texts in order; runs of rich text are joined, phonetic guides left out."""
    entry, text, guide = (f"{_MAIN} {name}" for name in ("si", "t", "rPh"))
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


def _read_rows(book: Book, sheet: SheetPart, merged: list[str]) -> Iterator[Row]:
    reader = _SheetReader(book, merged)
    parser = strict_parser()
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    rows = reader.rows
    try:
        with book._package.open(book._part(sheet.part)) as stream:
            for _ in feed(parser, stream):
                yield from rows
                rows.clear()
    except _BROKEN as error:
        raise book._damaged() from error


class _SheetReader:
    """The state of one pass over the XML of a sheet."""

    def __init__(self, book: Book, merged: list[str]) -> None:
        self.book = book
        self.rows: list[Row] = []
        self.merged = merged
        self.row = 0
        self.hidden = False
        self.column = 0
        self.cells: list[Cell] = []
        self.type = "n"
        self.style = 0
        self.value: list[str] = []
        self.formula: list[str] = []
        self.formula_of: dict[str, str] | None = None
        self.shared_formulas: dict[str, tuple[str, str]] = {}
        self.into: list[str] | None = None
        self.in_guide = False
        self.day_zero = _DAY_ZERO_1904 if book.from_1904 else _DAY_ZERO_1900

    def text(self, data: str) -> None:
        if self.into is not None:
            self.into.append(data)

    def start(self, name: str, attributes: dict[str, str]) -> None:
        if name == _C:
            reference = attributes.get("r")
            self.column = column_number(reference) if reference else self.column + 1
            self.type = attributes.get("t", "n")
            self.style = int(attributes.get("s", "0"))
            self.value = []
            self.formula = []
            self.formula_of = None
        elif name == _V or (name == _T and not self.in_guide and self.type == "inlineStr"):
            self.into = self.value
        elif name == _F:
            self.formula_of = attributes
            self.into = self.formula
        elif name == _ROW:
            number = attributes.get("r")
            self.row = int(number) if number else self.row + 1
            self.hidden = attributes.get("hidden") in ("1", "true")
            self.column = 0
            self.cells = []
        elif name == _GUIDE:
            self.in_guide = True
        elif name == _MERGE:
            self.merged.append(attributes.get("ref", ""))

    def end(self, name: str) -> None:
        if name in (_V, _F, _T):
            self.into = None
        elif name == _C:
            if self.value or self.formula_of is not None:
                cell = self.cell()
                if cell is not None:
                    self.cells.append(cell)
        elif name == _ROW:
            if self.cells:
                self.rows.append(Row(self.row, self.hidden, self.cells))
        elif name == _GUIDE:
            self.in_guide = False

    def cell(self) -> Cell | None:
        """Return the cell just read, None where it holds nothing."""
        formula = "" if self.formula_of is None else self.whole_formula(self.formula_of)
        raw = "".join(self.value)
        kind, value, shown = self.typed(raw)
        if kind is Kind.NOTHING and not formula:
            return None
        return Cell(self.column, kind, value, shown, formula)

    def typed(self, raw: str) -> tuple[Kind, Value, Shown]:
        kind = self.type
        if kind == "s":
            return (Kind.TEXT, self.book.shared_text(int(raw)), Shown.PLAIN) if raw else _NOTHING
        if kind == "n":
            return self.number(raw.strip())
        if kind in ("str", "inlineStr"):
            # An empty text as the result of a formula is a result.
            return (Kind.TEXT, raw, Shown.PLAIN) if raw or self.formula_of is not None else _NOTHING
        if not raw:
            return _NOTHING
        if kind == "b":
            return Kind.YES_NO, raw.strip() in ("1", "true"), Shown.PLAIN
        if kind == "d":
            return Kind.DAY, datetime.fromisoformat(raw.strip()).date(), Shown.DAY
        return Kind.ERROR, raw, Shown.PLAIN

    def number(self, raw: str) -> tuple[Kind, Value, Shown]:
        if not raw:
            return _NOTHING
        shown = self.book.style(self.style)
        number = to_decimal(raw)
        if number is None:
            return Kind.ERROR, "#NUM!", Shown.PLAIN
        if shown is Shown.DAY:
            if 0 <= number < 1:
                return Kind.NUMBER, number, Shown.TIME
            try:
                return Kind.DAY, self.day(number), shown
            except OverflowError:
                return Kind.ERROR, "#VALUE!", Shown.PLAIN
        return Kind.NUMBER, number, shown

    def day(self, serial: Decimal) -> date:
        days = int(serial)
        if serial != days:
            # To the millisecond, as spreadsheets do: a hair before midnight is the next day.
            days = int(round(serial * _DAY_MILLISECONDS) // _DAY_MILLISECONDS)
        if serial < 0:
            raise OverflowError("before the first day")
        # Day 60 of the 1900 system is a 29 February that never was: days before it are one short.
        if not self.book.from_1904 and 0 < days < 60:
            days += 1
        return self.day_zero + timedelta(days=days)

    def whole_formula(self, attributes: dict[str, str]) -> str:
        text = "".join(self.formula)
        index = attributes.get("si")
        if attributes.get("t") != "shared" or index is None:
            return text or "?"
        here = f"{column_letters(self.column)}{self.row}"
        if text:
            self.shared_formulas[index] = (text, here)
            return text
        return _moved(self.shared_formulas.get(index), here)


_NOTHING = (Kind.NOTHING, None, Shown.PLAIN)
_C, _V, _F, _T, _ROW, _GUIDE, _MERGE = (f"{_MAIN} {name}" for name in ("c", "v", "f", "t", "row", "rPh", "mergeCell"))


def to_decimal(raw: str) -> Decimal | None:
    """Return a number of the file to 15 significant digits, None for what is no finite number.

    Fifteen digits is what a spreadsheet shows and what a binary number holds: 0.1 + 0.2 is 0.3 in every reader.
    """
    if not _NUMBER.fullmatch(raw):
        return None
    if len(raw) <= 15 and "e" not in raw and "E" not in raw:
        return Decimal(raw)
    try:
        number = Decimal(format(float(raw), ".15g"))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")


def _moved(master: tuple[str, str] | None, here: str) -> str:
    """Return a shared formula as it reads in the cell `here`."""
    if master is None:
        return "?"
    from openpyxl.formula.translate import Translator, TranslatorError

    text, origin = master
    try:
        return str(Translator(f"={text}", origin).translate_formula(here))[1:]
    except TranslatorError:
        return text


_numbers_of_letters: dict[str, int] = {}


def column_number(reference: str) -> int:
    """Return the number of the column in a cell reference, counted from 1.

    >>> column_number("A1"), column_number("AB12")
    (1, 28)
    """
    letters = reference.rstrip("0123456789").lstrip("$").rstrip("$")
    number = _numbers_of_letters.get(letters)
    if number is None:
        number = 0
        for letter in letters:
            if not "A" <= letter <= "Z":
                raise ValueError(f"no cell: {reference}")
            number = number * 26 + ord(letter) - 64
        _numbers_of_letters[letters] = number
    return number


def column_letters(number: int) -> str:
    """Return the letters of a column counted from 1.

    >>> column_letters(1), column_letters(28)
    ('A', 'AB')
    """
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
