"""Step f: lump sums, the adjusted price, and how much was adjusted (method rule R12)."""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.kinds import PERCENT
from appraise.model.operations import PERCENT_ABOVE, SUM
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS
from appraise.valuing.operations import GROSS
from appraise.valuing.steps.line import Line, typed_report_money


def adjusted_price(line: Line, before: Outcome, after: Outcome, percents: Sequence[Outcome]) -> Outcome:
    """Return the adjusted price (figures `adjusted`, `net_pct`, `gross_pct`).

    before    the time-adjusted price, of which net and gross are percents
    after     the price after the percents
    percents  the percents that were combined
    """
    work = line.work
    kind = typed_report_money(line.inputs)
    lump = work.cell(COMPARISONS, line.comparison, "lump", blank=Decimal(0), kind=kind)
    if isinstance(after, Figure) and isinstance(lump, Figure) and (left := _left(line, after, lump)) <= 0:
        place = place_of(COMPARISONS, line.comparison, "lump")
        return work.refuse("adjusted", "CMP-39", place, found=str(lump.number), adjusted=left)
    adjusted = work.figure("adjusted", line.report_money, SUM, after, lump)
    if isinstance(adjusted, NoFigure):
        return adjusted
    work.figure("net_pct", PERCENT, PERCENT_ABOVE, adjusted, before)
    work.figure("gross_pct", PERCENT, GROSS, lump, before, *percents)
    return adjusted


def _left(line: Line, after: Figure, lump: Figure) -> Decimal:
    """Return what the lump sum leaves: the sum itself, or the nothing it is rounded to."""
    left = after.number + lump.number
    rounded = SUM.result([after.number, lump.number], line.report_money.places)
    return left if rounded else rounded
