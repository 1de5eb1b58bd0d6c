"""From cells to values: every kind of column against what a person might type, and what a spreadsheet makes of it."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, UNREADABLE
from appraise.records.assignment import ASSIGNMENT
from appraise.records.dating import EVIDENCE
from appraise.records.declare import Column, ColumnKind
from appraise.records.items import ITEMS, PARTS
from appraise.records.job import SHEETS
from appraise.records.market import COMPARISONS, SALES
from appraise.records.tables import INDEXES, RATES
from appraise.records.vocabulary import FinishClass, PartState
from appraise.workbook.cells import Cell, Kind
from appraise.workbook.number_formats import Shown
from appraise.workbook.reading.values import Fault, Typing, converter

US, GERMANY, NOWHERE = Typing.of("en_US"), Typing.of("de-DE"), Typing.of("")

AMOUNT = SALES.column("price")
PERCENT = COMPARISONS.column("level")
LUMP = COMPARISONS.column("lump")
PERCENTS = COMPARISONS.column("deductions")
WHOLE = EVIDENCE.column("strength")
NUMBER = RATES.column("rate")
DAY = SALES.column("day")
WORDING = EVIDENCE.column("from_")
SERIAL = ITEMS.column("serial")
LOT = SALES.column("lot")
ID = ITEMS.column("id")
FINISH = ITEMS.column("finish_class")
STATE = PARTS.column("state")
YES_NO = PARTS.column("reversible")
CURRENCY = SALES.column("currency")
MONTH = INDEXES.column("month")
TEXT = SALES.column("house")
FILE = ASSIGNMENT.column("library")


def text(words: str) -> Cell:
    return Cell(1, Kind.TEXT, words)


def number(figure: str, shown: Shown = Shown.PLAIN) -> Cell:
    return Cell(1, Kind.NUMBER, Decimal(figure), shown)


def day(year: int, month: int, of_month: int) -> Cell:
    return Cell(1, Kind.DAY, date(year, month, of_month), Shown.DAY)


def read(column: Column, cell: Cell, typing: Typing = US) -> Any:
    return converter(column, typing)(cell)


GOOD: list[tuple[Column, Cell, Typing, Any]] = [
    (AMOUNT, number("1234.5"), US, Decimal("1234.5")),
    (AMOUNT, number("1234.5", Shown.CURRENCY), US, Decimal("1234.5")),
    (AMOUNT, text("1,234.56"), US, Decimal("1234.56")),
    (AMOUNT, text("1.234,56"), GERMANY, Decimal("1234.56")),
    (AMOUNT, text("1.234"), GERMANY, Decimal("1234")),
    (AMOUNT, text("1,234"), US, Decimal("1234")),
    (AMOUNT, text("12,34,567.8"), Typing.of("en_IN"), Decimal("1234567.8")),
    (AMOUNT, text("1\u202f234,5"), Typing.of("fr_FR"), Decimal("1234.5")),
    (AMOUNT, text("1\u2019234.5"), Typing.of("de_CH"), Decimal("1234.5")),
    (LUMP, text("\u2212350"), US, Decimal("-350")),
    (AMOUNT, text("1,234.56"), NOWHERE, Decimal("1234.56")),
    (AMOUNT, text(" \u00a0 "), US, BLANK),
    (AMOUNT, text("unknown"), US, UNKNOWN),
    (AMOUNT, text("Not inspected"), US, NOT_INSPECTED),
    (PERCENT, number("-0.15", Shown.PERCENT), US, Decimal("-15")),
    (PERCENT, number("0.0035", Shown.PERCENT), US, Decimal("0.35")),
    (PERCENT, number("-15"), US, Decimal("-15")),
    (PERCENT, text("-15 %"), US, Decimal("-15")),
    (PERCENT, text("0.35%"), US, Decimal("0.35")),
    (PERCENTS, text("50; 10"), US, "50; 10"),
    (PERCENTS, text("12,5 %;10"), GERMANY, "12.5; 10"),
    (PERCENTS, number("50"), US, "50"),
    (PERCENTS, number("0.5", Shown.PERCENT), US, "50"),
    (WHOLE, number("3"), US, Decimal(3)),
    (DAY, day(2024, 3, 16), US, date(2024, 3, 16)),
    (DAY, text("2024-03-16"), US, date(2024, 3, 16)),
    (DAY, text("16.3.2024"), GERMANY, date(2024, 3, 16)),
    (DAY, text("16. März 2024"), GERMANY, date(2024, 3, 16)),
    (DAY, text("March 16, 2024"), US, date(2024, 3, 16)),
    (DAY, text("13/04/2024"), US, date(2024, 4, 13)),
    (DAY, text("4/4/2024"), US, date(2024, 4, 4)),
    (DAY, text("unknown"), US, UNKNOWN),
    (WORDING, text("early 1936"), US, "early 1936"),
    (WORDING, number("1937"), US, "1937"),
    (WORDING, text("1959-03"), US, "1959-03"),
    (SERIAL, text("00423"), US, "00423"),
    (SERIAL, text("unknown"), US, UNKNOWN),
    (ID, number("17"), US, "17"),
    (ID, text(" G\u200d01 "), US, "G01"),
    (FINISH, text("Over sprayed"), US, FinishClass.OVERSPRAYED),
    (FINISH, text("unknown"), US, UNKNOWN),
    (STATE, text("unknown"), US, PartState.UNKNOWN),
    (YES_NO, Cell(1, Kind.YES_NO, True), US, True),
    (YES_NO, text("No"), US, False),
    (YES_NO, text("ja"), GERMANY, True),
    (CURRENCY, text("usd"), US, "USD"),
    (MONTH, text("2024-7"), US, "2024-07"),
    (MONTH, day(2024, 7, 1), US, "2024-07"),
    (TEXT, number("1937"), US, "1937"),
    (TEXT, text("two\r\nlines_x000D_"), US, "two\nlines"),
    (FILE, text("tables\\library.xlsx"), US, "tables/library.xlsx"),
]  # fmt: skip


@pytest.mark.parametrize(("column", "cell", "typing", "value"), GOOD)
def test_one_reading(column: Column, cell: Cell, typing: Typing, value: Any) -> None:
    found = read(column, cell, typing)
    assert found == value
    assert type(found) is type(value)


STOPPED: list[tuple[Column, Cell, Typing, str]] = [
    (AMOUNT, text("1,234"), NOWHERE, "CEL-04"),
    (AMOUNT, text("1.234,56"), US, "CEL-03"),
    (AMOUNT, text("1,23,4"), US, "CEL-03"),
    (AMOUNT, text("$1,200"), US, "CEL-03"),
    (AMOUNT, text("about 900"), US, "CEL-03"),
    (AMOUNT, text("1e3"), US, "CEL-03"),
    (AMOUNT, Cell(1, Kind.YES_NO, True), US, "CEL-03"),
    (AMOUNT, number("0.15", Shown.PERCENT), US, "CEL-05"),
    (AMOUNT, text("15 %"), US, "CEL-05"),
    (AMOUNT, day(2024, 5, 3), US, "CEL-06"),
    (AMOUNT, number("0.5", Shown.TIME), US, "CEL-06"),
    (AMOUNT, Cell(1, Kind.ERROR, "#DIV/0!"), US, "CEL-02"),
    (AMOUNT, Cell(1, Kind.NOTHING, None, formula="A1*2"), US, "CEL-01"),
    (AMOUNT, number("1E+15"), US, "CEL-32"),
    (WHOLE, number("3.5"), US, "CEL-07"),
    (PERCENTS, text("50, 10"), US, "CEL-33"),
    (PERCENTS, text("50; much"), US, "CEL-33"),
    (PERCENTS, day(2024, 10, 5), US, "CEL-06"),
    (DAY, text("2026-14-03"), US, "CEL-09"),
    (DAY, text("last spring"), US, "CEL-09"),
    (DAY, text("03/04/2024"), US, "CEL-10"),
    (DAY, text("3-4-2024"), GERMANY, "CEL-10"),
    (DAY, text("16/3/24"), US, "CEL-09"),
    (DAY, day(1905, 7, 16), US, "CEL-11"),
    (DAY, number("45000"), US, "CEL-12"),
    (DAY, number("0.5", Shown.TIME), US, "CEL-12"),
    (WORDING, day(1905, 4, 20), US, "CEL-11"),
    (WORDING, day(1959, 3, 1), US, "CEL-13"),
    (WORDING, number("21550"), US, "CEL-16"),
    (WORDING, number("1937.5"), US, "CEL-16"),
    (SERIAL, day(2024, 12, 3), US, "CEL-13"),
    (SERIAL, day(1905, 4, 20), US, "CEL-11"),
    (SERIAL, number("1234567890123450"), US, "CEL-32"),
    (SERIAL, number("0.15", Shown.PERCENT), US, "CEL-32"),
    (ID, day(2024, 12, 3), US, "CEL-13"),
    (ID, text("G01; G02"), US, "CEL-34"),
    (FINISH, text("refinnished"), US, "CEL-17"),
    (YES_NO, text("perhaps"), US, "CEL-18"),
    (YES_NO, number("1"), US, "CEL-18"),
    (CURRENCY, text("$"), US, "CEL-19"),
    (CURRENCY, text("ABC"), US, "CEL-19"),
    (MONTH, text("July"), US, "CEL-20"),
    (MONTH, text("2024-13"), US, "CEL-20"),
    (MONTH, day(1905, 7, 16), US, "CEL-11"),
]


@pytest.mark.parametrize(("column", "cell", "typing", "code"), STOPPED)
def test_no_value_where_it_is_doubtful(column: Column, cell: Cell, typing: Typing, code: str) -> None:
    found = read(column, cell, typing)
    assert isinstance(found, Fault)
    assert (found.code, found.value) == (code, UNREADABLE)


@pytest.mark.parametrize(
    ("column", "cell", "code", "value"),
    [
        (PERCENT, number("0.15"), "CEL-08", Decimal("0.15")),
        (SERIAL, number("423"), "CEL-14", "423"),
        (LOT, number("41"), "CEL-15", "41"),
        (TEXT, text("a\u0007b"), "CEL-26", "ab"),
        (TEXT, text("safe\u202eexe"), "CEL-27", "safeexe"),
        (TEXT, day(2024, 6, 3), "CEL-31", "2024-06-03"),
    ],
)
def test_a_value_with_a_remark(column: Column, cell: Cell, code: str, value: Any) -> None:
    found = read(column, cell)
    assert isinstance(found, Fault)
    assert (found.code, found.value) == (code, value)


def test_both_readings_are_named() -> None:
    found = read(DAY, text("03/04/2024"))
    assert dict(found.details)["readings"] == "2024-03-04 or 2024-04-03"
    assert dict(read(AMOUNT, text("1.234"), NOWHERE).details)["readings"] == "1.234 or 1234"


def test_the_year_behind_a_date_cell_is_named() -> None:
    assert dict(read(WORDING, day(1905, 4, 20)).details)["year"] == "1937"


def test_the_nearest_words_are_named() -> None:
    assert "'over-sprayed'" in dict(read(FINISH, text("oversprayd")).details)["nearest"]
    nothing_like_it = dict(read(STATE, text("zzz")).details)["nearest"]
    assert all(f"'{word}'" in nothing_like_it for word in PartState)


@pytest.mark.parametrize("kind", ColumnKind)
def test_every_kind_of_column_can_be_read(kind: ColumnKind) -> None:
    choices = PartState if kind is ColumnKind.CHOICE else None
    column = Column("x", "X", kind, "", "", choices, "", "", (), frozenset(), signed=False)
    assert read(column, text("  ")) is BLANK
    assert read(column, Cell(1, Kind.ERROR, "#N/A")).code == "CEL-02"


NUMERIC = (ColumnKind.AMOUNT, ColumnKind.NUMBER, ColumnKind.WHOLE, ColumnKind.PERCENT)
SIGNED = {
    *(("comparisons", key) for key in ("level", "condition", "configuration", "provenance", "other", "lump")),
    ("model_periods", "effect"),
    ("treatments", "percent"),
    ("treatments", "condition_change"),
}


@pytest.mark.parametrize("name", SHEETS)
def test_a_minus_sign_is_refused_wherever_it_has_no_meaning(name: str) -> None:
    for column in SHEETS[name].columns:
        if column.kind in NUMERIC:
            for cell in (number("-5"), text("-5")):
                found = read(column, cell)
                if (name, column.key) in SIGNED:
                    assert found == -5, column.key
                else:
                    assert isinstance(found, Fault) and found.code == "CEL-39", column.key
            assert read(column, number("5")) == 5
