"""What a number format says about the number under it: a percent, an amount, a day, a time of day."""

import re
from enum import Enum


class Shown(Enum):
    """How a number is shown, as far as it changes what the number means."""

    PLAIN = ""
    PERCENT = "percent"
    CURRENCY = "currency"
    DAY = "day"
    TIME = "time"


# ECMA-376 part 1, 18.8.30: formats that need not be written out in the file.
_BUILT_IN = {
    **dict.fromkeys((9, 10), Shown.PERCENT),
    **dict.fromkeys((5, 6, 7, 8, 42, 44), Shown.CURRENCY),
    **dict.fromkeys((14, 15, 16, 17, 22, *range(27, 32), 34, 35, 36, *range(50, 59)), Shown.DAY),
    **dict.fromkeys((18, 19, 20, 21, 32, 33, 45, 46, 47), Shown.TIME),
}
_LITERAL = re.compile(r'"[^"]*"|\\.|_.|\*.')
_BRACKET = re.compile(r"\[[^\]]*\]")
_ELAPSED = re.compile(r"\[(?:h+|m+|s+)\]", re.IGNORECASE)
_CURRENCY = re.compile(r"\[\$[^\]\-]+|[$€£¥₣₤₩₹]|\"[^\"]*(?:[A-Z]{3}|[$€£¥₣₤₩₹]|kr|Fr|zł)[^\"]*\"")


def shown_as(format_id: int, code: str | None) -> Shown:
    """Return how a number with this format is shown; `code` is None for a format not written out in the file.

    Only the first section (positive numbers) counts. Quoted and escaped text says nothing but a currency.
    """
    if code is None:
        return _BUILT_IN.get(format_id, Shown.PLAIN)
    section = _first_section(code)
    bare = _LITERAL.sub("", section)
    if _ELAPSED.search(bare):
        return Shown.TIME
    has_currency = _CURRENCY.search(section) is not None
    letters = _BRACKET.sub("", bare).lower()
    if letters.strip() in ("general", "standard", "@"):
        return Shown.CURRENCY if has_currency else Shown.PLAIN
    letters = letters.replace("general", "")
    if "d" in letters or "y" in letters or ("m" in letters and "h" not in letters and "s" not in letters):
        return Shown.DAY
    if "h" in letters or "s" in letters:
        return Shown.TIME
    if "%" in letters:
        return Shown.PERCENT
    return Shown.CURRENCY if has_currency else Shown.PLAIN


def _first_section(code: str) -> str:
    quoted = False
    for position, letter in enumerate(code):
        if letter == '"':
            quoted = not quoted
        elif letter == ";" and not quoted:
            return code[:position]
    return code
