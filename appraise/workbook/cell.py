"""What a cell and a row are, whatever reads them: kinds, numbers to fifteen digits, letters of columns."""

import re
from datetime import date
from decimal import Decimal, InvalidOperation
from enum import Enum
from typing import NamedTuple

from appraise.workbook.number_formats import Shown


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
