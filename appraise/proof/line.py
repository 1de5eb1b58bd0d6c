"""What one line of the proof says beside its numbers: what the figure is, in which unit, how far it is compared."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure
from appraise.model.kinds import Kind, minor_unit
from appraise.model.months import month_text
from appraise.model.operations import OPERATIONS
from appraise.model.place import Place
from appraise.records.job import SHEETS

_SHEETS = {one.name: one for one in SHEETS.values()}

#: A sentence about more figures than this names their number instead.
_MOST_NAMED = 30
_LONGEST_SENTENCE = 600
#: Decimals to which a figure that is never rounded is compared: binary arithmetic is exact no further.
_UNROUNDED = 6
#: Operations whose arguments may stand as a range of cells in their formula, and in any number.
OVER_RANGES = frozenset({"sum", "larger", "smaller", "latest month", "earliest month"})


def what(figure: Figure, scope: str) -> str:
    """Return what a figure is, as a sentence with the names of the figures it is made from.

    scope  what the names of the block begin with; it is left out where it can be
    """
    if figure.operation == "typed":
        return "; ".join(dict.fromkeys(_heading(place) for place in figure.places)) or "as typed"
    if figure.operation == "noted":
        return "looked up or decided"
    names = [_short(one, scope) for one in figure.arguments]
    if len(names) > _MOST_NAMED:
        return f"{figure.operation} of {len(names)} figures, {names[0]} to {names[-1]}"
    sentence = OPERATIONS[figure.operation].words(names)
    return sentence if len(sentence) <= _LONGEST_SENTENCE else f"{sentence[: _LONGEST_SENTENCE - 1]}…"


def unit(figure: Figure, *, months: bool = False) -> str:
    """Return the unit of a figure: its currency, "%", or for a month of manufacture the month itself."""
    kind = figure.kind
    if kind.currency:
        return kind.currency
    if months and kind.name == "count" and isinstance(figure.value, Decimal):
        return month_text(int(figure.value))
    return "%" if "percent" in kind.name else ""


def compared_to(kind: Kind) -> int:
    """Return the decimals to which a figure recalculated in a spreadsheet must agree with ours.

    Those it was rounded to; an amount that is never rounded two more than its currency has.
    """
    if kind.places is not None:
        return kind.places
    return minor_unit(kind.currency) + 2 if kind.currency else _UNROUNDED


def constant(figure: Figure) -> float | str:
    """Return the value of a figure as a cell holds it: a number, or a text (days as ISO 8601 writes them)."""
    value = figure.value
    if isinstance(value, Decimal):
        return float(value)
    return value.isoformat() if isinstance(value, date) else value


def ranges(cells: Sequence[tuple[str, int]], letter: str, sheet: str) -> list[str]:
    """Return references to cells (sheet, row) of one column, neighbours joined; those on `sheet` without its name.

    >>> ranges([("Price", 3), ("Price", 4), ("Price", 7), ("Time", 8)], "C", "Price")
    ['C3:C4', 'C7', 'Time!C8']
    """
    found: list[list[tuple[str, int]]] = []
    for cell in cells:
        if found and found[-1][-1] == (cell[0], cell[1] - 1):
            found[-1].append(cell)
        else:
            found.append([cell])
    texts = []
    for run in found:
        (name, first), last = run[0], run[-1][1]
        text = f"{letter}{first}" if first == last else f"{letter}{first}:{letter}{last}"
        texts.append(text if name == sheet else f"{name}!{text}")
    return texts


def _heading(place: Place) -> str:
    """Return what is typed in a cell: the heading of its column, and its sheet."""
    sheet = _SHEETS.get(place.sheet)
    column = None if sheet is None else next((one for one in sheet.columns if one.key == place.column), None)
    return place.sheet if column is None else f"{column.heading} ({place.sheet})"


def _short(figure_id: str, scope: str) -> str:
    return figure_id.removeprefix(f"{scope}.")
