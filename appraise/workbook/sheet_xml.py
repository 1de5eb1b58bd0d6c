"""Reads the rows of a sheet from its XML with a real parser: the careful way, right for every file."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import IO, Any, Protocol

from appraise.files.xml_parts import feed, strict_parser
from appraise.workbook.cell import Cell, Kind, Row, Value, column_letters, column_number, to_decimal
from appraise.workbook.number_formats import Shown

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_DAY_ZERO_1900 = date(1899, 12, 30)
_DAY_ZERO_1904 = date(1904, 1, 1)
_DAY_MILLISECONDS = 86_400_000


class Surroundings(Protocol):
    """What a sheet needs of its workbook."""

    @property
    def from_1904(self) -> bool:
        """Whether days are counted from 1904."""

    def shared_text(self, index: int) -> str:
        """Return a text of the shared list."""

    def style(self, index: int) -> Shown:
        """Return how numbers of a cell style are shown."""


def read_xml_rows(stream: IO[bytes], reader: "SheetReader") -> Iterator[Row]:
    """Yield the rows of the sheet in `stream` that hold something."""
    parser = reader.parser()
    for _ in feed(parser, stream):
        yield from reader.rows
        reader.rows.clear()


class SheetReader:
    """The state of one pass over the XML of a sheet."""

    def __init__(self, book: Surroundings, merged: list[str]) -> None:
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

    def parser(self) -> Any:
        """Return a parser that feeds this reader; what was read so far is kept."""
        parser = strict_parser()
        parser.StartElementHandler = self.start
        parser.EndElementHandler = self.end
        parser.CharacterDataHandler = self.text
        return parser

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
_C, _V, _F, _T, _ROW, _GUIDE, _MERGE = (f"{MAIN} {name}" for name in ("c", "v", "f", "t", "row", "rPh", "mergeCell"))


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
