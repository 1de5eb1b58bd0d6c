"""Reconciliation: from adjusted prices with weights to mean, median and range (method rule R13)."""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import SHOWN_PERCENT, WEIGHT, Kind
from appraise.model.operations import LARGER, SMALLER, SUM, WEIGHTED_MEAN, WEIGHTED_MEDIAN
from appraise.valuing.operations import SPREAD
from appraise.valuing.working import Working


@frozen
class Weighted:
    """One price with its weight above zero, under the name of its line."""

    name: str
    price: Figure
    weight: Figure


def reconcile(work: Working, lines: Sequence[Weighted], kind: Kind) -> None:
    """Make the figures of the reconciliation; without any line none is made.

    Figures: weight_total, mean, running weight of each line, median, median_kind (`plain` or `tie`), low, high,
    spread_pct. `kind` is that of the prices.
    """
    if not lines:
        return
    total = work.figure("weight_total", WEIGHT, SUM, *(line.weight for line in lines))
    pairs = [outcome for line in lines for outcome in (line.weight, line.price)]
    work.figure("mean", kind, WEIGHTED_MEAN, *pairs)
    median = _median(work, lines, total, kind)
    low = work.figure("low", kind, SMALLER, *(line.price for line in lines))
    high = work.figure("high", kind, LARGER, *(line.price for line in lines))
    work.figure("spread_pct", SHOWN_PERCENT, SPREAD, high, low, median)


def _median(work: Working, lines: Sequence[Weighted], total: Outcome, kind: Kind) -> Outcome:
    arguments: list[Outcome] = []
    running: Outcome | None = None
    tie = False
    for line in sorted(lines, key=lambda one: (one.price.number, one.name)):
        before = () if running is None else (running,)
        running = work.ledger.under(line.name).figure("running_weight", WEIGHT, SUM, *before, line.weight)
        arguments += (running, line.price)
        tie = tie or (2 * _number(running) == _number(total) and running is not total)
    work.note("median_kind", "tie" if tie else "plain")
    return work.figure("median", kind, WEIGHTED_MEDIAN, total, *arguments)


def _number(outcome: Outcome) -> Decimal:
    if not isinstance(outcome, Figure):
        raise TypeError("a weight without a figure")
    return outcome.number
