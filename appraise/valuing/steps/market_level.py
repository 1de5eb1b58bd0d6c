"""Step c: from the market of the sale to the market of the value, by a typed percent (method rule R7)."""

from appraise.model.figure import Outcome
from appraise.model.missing import BLANK, given
from appraise.model.operations import PLUS_PERCENT
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS
from appraise.valuing.steps.line import Line


def at_market_level(line: Line, price: Outcome) -> Outcome:
    """Return the price at the level of the value's market (figure `level`; zero or blank makes none).

    Stated unknown is not blank: the line has no price then.
    """
    percent = line.comparison.level
    if percent is BLANK or percent == 0:
        return price
    if given(percent) and percent <= -100:
        place = place_of(COMPARISONS, line.comparison, "level")
        return line.work.refuse("level", "CMP-32", place, found=str(percent))
    typed = line.typed_percent("level", "level_percent")
    return line.work.figure("level", line.report_money, PLUS_PERCENT, price, typed)
