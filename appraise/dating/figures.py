"""The ends of a window as figures, so that a proof can work them out again.

Months are numbers here: 12 x year + month - 1. Only windows of plain intervals are written: the first month is the
latest of the starts, the last the earliest of the ends. Statements with several runs are resolved by the sweep.
"""

from collections.abc import Callable, Iterable
from decimal import Decimal

from appraise.dating.operations import EARLIEST_MONTH, LATEST_MONTH
from appraise.dating.result import DateWindow, Statement, Verdict
from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import COUNT
from appraise.model.ledger import Ledger
from appraise.model.months import Month, Months


def record_window(ledger: Ledger, window: DateWindow) -> dict[str, Outcome]:
    """Return the figures `first`, `last`, `inner_first`, `inner_last` of a window, those that it has.

    ledger  under the item's id; ids become `ITEM.window.first` with arguments `ITEM.window.<statement>.first`

    A firm or edge window only, and only if every binding statement is one run. An open end has no figure; the
    examination bounds from above and is never an end. Inner ends are given for a firm window.
    """
    binding = [one for one in window.statements if one.binding]
    if window.verdict is Verdict.CONFLICT or any(len(one.outer.runs) > 1 for one in binding):
        return {}
    under = ledger.under("window")
    found = _ends(under, binding, window.outer, "", lambda one: one.outer)
    if window.verdict is Verdict.FIRM and all(len(one.inner.runs) == 1 for one in binding):
        found |= _ends(under, binding, window.inner, "inner_", lambda one: one.inner)
    return found


def _ends(
    ledger: Ledger, statements: Iterable[Statement], window: Months, prefix: str, months: Callable[[Statement], Months]
) -> dict[str, Outcome]:
    known = list(statements)
    found: dict[str, Outcome] = {}
    if window.first is not None:
        name = f"{prefix}first"
        arguments = _typed(ledger, known, name, lambda one: months(one).first)
        found[name] = ledger.figure(name, COUNT, LATEST_MONTH, *arguments)
    if window.last is not None:
        name = f"{prefix}last"
        arguments = _typed(ledger, known, name, lambda one: months(one).last)
        found[name] = ledger.figure(name, COUNT, EARLIEST_MONTH, *arguments)
    return found


def _typed(
    ledger: Ledger, statements: list[Statement], name: str, end: Callable[[Statement], Month | None]
) -> list[Figure]:
    """Return the known ends of the statements as typed figures."""
    return [
        ledger.under(one.id).typed(name, Decimal(month), one.place, kind=COUNT)
        for one in statements
        if (month := end(one)) is not None
    ]
