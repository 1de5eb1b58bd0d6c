"""Step e, together: the percents of one comparison combined to one factor (method rule R11)."""

from collections.abc import Sequence

from appraise.model.figure import NoFigure, Outcome
from appraise.model.kinds import FACTOR
from appraise.model.operations import PRODUCT
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS
from appraise.records.vocabulary import Combine
from appraise.valuing.operations import PERCENTS_ADDED, PERCENTS_MULTIPLIED
from appraise.valuing.steps.line import Line


def after_percents(line: Line, price: Outcome, percents: Sequence[Outcome]) -> Outcome:
    """Return the price after all percents (figures `adj_factor`, `after_pct`); a factor of zero or less is refused."""
    operation = PERCENTS_ADDED if line.inputs.tables.adjustments is Combine.ADD else PERCENTS_MULTIPLIED
    factor = line.work.figure("adj_factor", FACTOR, operation, *percents)
    if not isinstance(factor, NoFigure) and factor.number <= 0:
        place = place_of(COMPARISONS, line.comparison, "")
        return line.work.refuse("after_pct", "CMP-38", place, found=f"{factor.number:f}")
    return line.work.figure("after_pct", line.report_money, PRODUCT, price, factor)
