"""The stages of the method, in order: one sheet of the proof for each, and which figure stands on which.

A figure that no rule names stands under Values: a new method needs nothing here to be shown.
"""

import re

from appraise.model.figure import Figure
from appraise.model.frozen import frozen


@frozen
class Stage:
    """One sheet of the proof: the name on its tab (a single word, so that formulas need no quotes) and its title."""

    sheet: str
    title: str


INPUTS = Stage("Inputs", "What was typed, with the cell it comes from")
DATING = Stage("Dating", "Windows of manufacture; months are numbers, 12 × year + month − 1")
PRICE = Stage("Price", "Each price on one basis and in the report's currency")
TIME = Stage("Time", "Market level and time")
ADJUSTMENTS = Stage("Adjustments", "Condition, originality, model period and other adjustments")
RECONCILIATION = Stage("Reconciliation", "Weights, mean, median and range")
VALUES = Stage("Values", "Opinions of value, taxes and costs")
SCHEDULE = Stage("Schedule", "The schedule and its totals")
INSURANCE = Stage("Insurance", "What insurance asks of the values")
BRIDGE = Stage("Bridge", "The steps between two values, and from last year's total to this year's")

STAGES = (INPUTS, DATING, PRICE, TIME, ADJUSTMENTS, RECONCILIATION, VALUES, SCHEDULE, INSURANCE, BRIDGE)

#: A part of the id between item and name that decides the stage by itself.
_BY_SCOPE = {
    "window": DATING,
    "bridge": BRIDGE,
    "causes": BRIDGE,
    "printed": BRIDGE,
    "year": SCHEDULE,
    "limits": INSURANCE,
    "cover": INSURANCE,
    "coinsurance": INSURANCE,
    "guard": INSURANCE,
    "paid": INSURANCE,
}
#: Names, each up to its first digit; the first that fits decides.
_BY_NAME = {
    PRICE: r"price|premium\w*|hammer\w*|proof\w*|discount|sold_equivalent|basis|net_of_tax|converted|rate|rate_date",
    TIME: r"level|index\w*|time\w*",
    ADJUSTMENTS: r"pct_\w+|originality|period_\w+|window_\w+|adj_factor|after_pct|adjusted|net_pct|gross_pct|scale\w*",
    RECONCILIATION: r"running_weight|weight_total|mean|median|median_kind|low|high|spread_pct|best_poorer|worst_better",
    INSURANCE: (
        r"limit\w*|total_value|\w+_over_cap|over_item_cap|\w+_capped|capped_sum|effective_cover|required|ratio|penalty\w*"
        r"|coinsurance\w*|insured_to_value\w*|loss_less_deductible|after_deductible|after_ratio|payment\w*|covered_loss"
        r"|set_\w+_cap"
    ),
    BRIDGE: (
        r"continuing\w*|removed_total|added_total|prior_total\w*|new_total\w*|total_change\w*|rounding_difference"
        r"|explained|by_\w+"
    ),
}
_NAMES = tuple((re.compile(rf"(?:{pattern})_?\d*"), stage) for stage, pattern in _BY_NAME.items())


def stage_of(figure: Figure) -> Stage:
    """Return the stage on whose sheet a figure stands; whatever was typed is an input."""
    if figure.operation == "typed":
        return INPUTS
    first, *between, name = figure.id.split(".")
    for part in between:
        if part in _BY_SCOPE:
            return _BY_SCOPE[part]
    for pattern, stage in _NAMES:
        if pattern.fullmatch(name):
            return stage
    return SCHEDULE if first.startswith("schedule") else VALUES
