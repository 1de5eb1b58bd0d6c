"""What valuing one item under one type of value gives."""

from collections.abc import Mapping

from appraise.model.figure import Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.records.market import Comparison, Sale
from appraise.records.vocabulary import Conclusion, Route, ValueType


@frozen
class ComparisonResult:
    """One comparison brought to the subject.

    steps     outcome by name in the order made: premium, premium_tax, basis, converted, level, index, time_factor,
              time, pct_cond, originality, pct_orig, adj_factor, after_pct, adjusted, net_pct, gross_pct ...
              (steps that do not apply are absent)
    adjusted  the adjusted price, or why there is none
    used      it has a price and a weight above zero
    line      the name of the line in the ids of figures: its id, or its row where the id cannot serve
    """

    comparison: Comparison
    sale: Sale | None
    steps: Mapping[str, Outcome]
    adjusted: Outcome
    used: bool
    findings: tuple[Finding, ...]
    line: str = ""


@frozen
class Valuation:
    """The opinion for one item and one value type, with all that led to it.

    subject  outcomes about the item itself: originality, model period share ...
    figures  outcome by name: weight_total, mean, median, median_kind, low, high, spread_pct, value, value_rounded,
             low_rounded, high_rounded; for a build-up also base, base_rounded, taxable_sum, sales_tax, set_up,
             freight, transit_insurance ...; where they must stand beside the value, rounded values under
             without_later (later evidence left out), first_month and last_month (ends of the window)
    value    the value before rounding; `rounded` after it
    """

    item: str
    value_type: ValueType
    route: Route
    conclusion: Conclusion
    subject: Mapping[str, Outcome]
    comparisons: tuple[ComparisonResult, ...]
    figures: Mapping[str, Outcome]
    value: Outcome
    rounded: Outcome
    findings: tuple[Finding, ...]
