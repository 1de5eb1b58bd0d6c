"""A collection by decade of manufacture, for the schedule."""

from collections.abc import Iterable
from enum import StrEnum

from appraise.dating.result import DateWindow
from appraise.model.frozen import frozen


class Span(StrEnum):
    """How a window lies to the decades."""

    WITHIN = "within"
    ACROSS = "across"
    NOT_BEFORE = "not before"
    NOT_AFTER = "not after"
    NONE = "no window"


@frozen
class DecadeLine:
    """The items whose window lies so: `within` 1950, `across` 1950 and 1960, `not before` 1950.

    first, last  first years of the decades of the window's ends; None where the end is open or there is no window
    provisional  those of the items whose window is provisional, because evidence was set aside
    """

    span: Span
    first: int | None
    last: int | None
    items: tuple[str, ...]
    provisional: tuple[str, ...]


def by_decade(windows: Iterable[DateWindow]) -> tuple[DecadeLine, ...]:
    """Return one line for each stretch of decades, earliest first; items without a window last.

    An item counts once, by the outer window that is shown; no window is spread over decades.
    """
    groups: dict[tuple[Span, int | None, int | None], list[DateWindow]] = {}
    for window in windows:
        groups.setdefault(_stretch(window), []).append(window)
    lines = [
        DecadeLine(
            span,
            first,
            last,
            tuple(one.item for one in own),
            tuple(one.item for one in own if one.shown is not None and one.shown.provisional),
        )
        for (span, first, last), own in groups.items()
    ]
    return tuple(sorted(lines, key=_order))


def _stretch(window: DateWindow) -> tuple[Span, int | None, int | None]:
    if window.shown is None:
        return Span.NONE, None, None
    first, last = (None if month is None else month // 120 * 10 for month in _ends(window))
    if first is None and last is None:
        return Span.NONE, None, None
    if first is None:
        return Span.NOT_AFTER, None, last
    if last is None:
        return Span.NOT_BEFORE, first, None
    return (Span.WITHIN if first == last else Span.ACROSS), first, last


def _ends(window: DateWindow) -> tuple[int | None, int | None]:
    assert window.shown is not None
    return window.shown.outer.first, window.shown.outer.last


def _order(line: DecadeLine) -> tuple[bool, int, int, str]:
    known = [year for year in (line.first, line.last) if year is not None]
    return line.span is Span.NONE, min(known, default=0), max(known, default=0), line.span.value
