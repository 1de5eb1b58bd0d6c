"""How a sheet and its columns are declared."""

from collections.abc import Iterator
from dataclasses import field, fields
from enum import Enum, StrEnum
from functools import cache
from typing import Any, TypeVar

from appraise.model.frozen import frozen
from appraise.model.missing import BLANK
from appraise.model.place import Place

R = TypeVar("R")


class ColumnKind(Enum):
    """How a cell of the column is typed, read and written."""

    TEXT = "text"
    LONG_TEXT = "long text"
    #: Kept as text whatever it looks like: leading zeros, dates of manufacture, serials.
    VERBATIM = "verbatim text"
    #: A date of manufacture in words or as year, year-month: text; read by `dating`.
    WORDING = "date of manufacture"
    #: The permanent id of the row.
    IDENTITY = "id"
    #: The id of a row on another sheet.
    REFERENCE = "reference"
    #: An id of the appraiser's tables or of the published facts, or a code or number: text.
    FACT = "id, code or number"
    CHOICE = "choice"
    AMOUNT = "amount of money"
    NUMBER = "number"
    WHOLE = "whole number"
    #: Percent as a number of percents: 15 and the cell value 0.15 shown as 15 % are both 15.
    PERCENT = "percent"
    #: Several percents in one cell, separated by semicolons: `50; 10`.
    PERCENTS = "percents"
    DAY = "day"
    #: A month of an index: `2024-07`.
    MONTH = "month"
    YES_NO = "yes or no"
    CURRENCY = "currency"
    #: A file name relative to the workbook's folder.
    FILE = "file"


@frozen
class Column:
    """The declaration of one column.

    key        permanent name; the field's name
    heading    what stands above it (English); `former` are headings it had in older formats
    kind       how it is typed
    choices    the closed list, for CHOICE
    refers_to  sheet whose ids it holds, for REFERENCE
    required   "" (may be blank), "always", or a condition in words, checked where its rule lives
    uses       the uses that need it; empty: all
    signed     a number below zero means something here; elsewhere it is refused
    """

    key: str
    heading: str
    kind: ColumnKind
    hint: str
    example: str
    choices: type[StrEnum] | None
    refers_to: str
    required: str
    former: tuple[str, ...]
    uses: frozenset[str]
    signed: bool


@frozen
class Sheet:
    """The declaration of one sheet.

    form     True: one record, written as lines "label, value"; False: a table, one record a row
    uses     the uses whose workbook shows it; empty: all
    library  True: it may also stand in the appraiser's library
    """

    name: str
    record: type[Any]
    purpose: str
    columns: tuple[Column, ...]
    form: bool
    uses: frozenset[str]
    library: bool

    def column(self, key: str) -> Column:
        """Return the column with that key; an unknown key is our own mistake."""
        return next(column for column in self.columns if column.key == key)


def column(
    heading: str,
    kind: ColumnKind = ColumnKind.TEXT,
    *,
    hint: str,
    example: str = "",
    choices: type[StrEnum] | None = None,
    refers_to: str = "",
    required: str = "",
    former: tuple[str, ...] = (),
    uses: tuple[str, ...] = (),
    signed: bool = False,
) -> Any:
    """Return a dataclass field that declares a column."""
    declared = Column("", heading, kind, hint, example, choices, refers_to, required, former, frozenset(uses), signed)
    return field(metadata={"column": declared})


def declare_sheet(
    record: type[R],
    name: str,
    purpose: str,
    *,
    form: bool = False,
    uses: tuple[str, ...] = (),
    library: bool = False,
) -> Sheet:
    """Return the sheet declared by a record class: its fields other than `row` are the columns."""
    columns = []
    for one in fields(record):  # type: ignore[arg-type]
        if one.name == "row":
            continue
        declared: Column = one.metadata["column"]
        values = {name: getattr(declared, name) for name in Column.__dataclass_fields__ if name != "key"}
        columns.append(Column(key=one.name, **values))
    return Sheet(name, record, purpose, tuple(columns), form, frozenset(uses), library)


def filled(record: type[R], *, row: int = 0, **values: object) -> R:
    """Return a record with the given values and every other field blank (for tests and readers)."""
    known = _keys(record)  # type: ignore[arg-type]
    unknown = set(values) - set(known)
    if unknown:
        raise TypeError(f"{record.__name__} has no field {', '.join(sorted(unknown))}")
    return record(row=row, **{key: values.get(key, BLANK) for key in known})  # type: ignore[call-arg]


@cache
def _keys(record: type[Any]) -> tuple[str, ...]:
    return tuple(one.name for one in fields(record) if one.name != "row")


def place_of(sheet: Sheet, record: Any, key: str) -> Place:
    """Return the place of one value of a record."""
    return Place(sheet.name, record.row, key)


def place_columns(sheet: Sheet) -> Iterator[str]:
    """Yield the keys of the columns in the order of the sheet."""
    return (one.key for one in sheet.columns)
