"""Serial numbers looked up in the appraiser's ranges: prefix, digits, suffix; a number may lie in several."""

import re
from collections.abc import Iterable

from appraise.dating.line import text_of
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.dating import SerialRange

_PARTS = re.compile(r"(?P<prefix>\D*)(?P<digits>\d+)(?P<suffix>\D*)")


@frozen
class Serial:
    """A serial number in its parts; prefix and suffix in upper case without spaces, hyphens and points."""

    prefix: str
    digits: str
    suffix: str


def read_serial(text: str) -> Serial | None:
    """Return the parts of a serial number, None unless it is one run of digits with what stands before and behind.

    >>> read_serial("A-2217 b")
    Serial(prefix='A', digits='2217', suffix='B')
    """
    match = _PARTS.fullmatch(" ".join(text.split()))
    if match is None:
        return None
    return Serial(_letters(match["prefix"]), match["digits"], _letters(match["suffix"]))


def _letters(text: str) -> str:
    return re.sub(r"[\s.\-]", "", text).upper()


def of_model(ranges: Iterable[SerialRange], model: str) -> list[SerialRange]:
    """Return the ranges of a model, and those that are for every model; a blank model takes all."""
    asked = model.casefold()
    return [one for one in ranges if not asked or text_of(one.model).casefold() in ("", asked)]


def holds(one: SerialRange, serial: Serial) -> bool:
    """Say whether a serial number lies in a range: same prefix and suffix, digits between both ends.

    Leading zeros count: `02217` is not `2217`. A range whose ends have different lengths takes all between.
    """
    ends = range_ends(one)
    if ends is None:
        return False
    first, last = ends
    if (_letters(text_of(one.prefix)), _letters(text_of(one.suffix))) != (serial.prefix, serial.suffix):
        return False
    shortest, longest = sorted((len(first), len(last)))
    return shortest <= len(serial.digits) <= longest and int(first) <= int(serial.digits) <= int(last)


def range_ends(one: SerialRange) -> tuple[str, str] | None:
    """Return first and last number of a range, None where either is missing or not made of digits."""
    if not given(one.first) or not given(one.last):
        return None
    first, last = one.first.strip(), one.last.strip()
    return (first, last) if first.isdecimal() and last.isdecimal() else None


def neighbours(ranges: Iterable[SerialRange], serial: Serial) -> tuple[SerialRange | None, SerialRange | None]:
    """Return the nearest range of the same prefix and suffix below a serial number, and the nearest above it."""
    below: tuple[int, SerialRange] | None = None
    above: tuple[int, SerialRange] | None = None
    number = int(serial.digits)
    for one in ranges:
        ends = range_ends(one)
        if ends is None or (_letters(text_of(one.prefix)), _letters(text_of(one.suffix))) != (
            serial.prefix,
            serial.suffix,
        ):
            continue
        if int(ends[1]) < number and (below is None or int(ends[1]) > below[0]):
            below = int(ends[1]), one
        if int(ends[0]) > number and (above is None or int(ends[0]) < above[0]):
            above = int(ends[0]), one
    return (below[1] if below else None, above[1] if above else None)
