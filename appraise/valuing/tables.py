"""What valuing looks up for a whole job, built once: its terms and the appraiser's tables."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given, value_or
from appraise.records.assignment import Assignment
from appraise.records.job import Job
from appraise.records.market import Cost
from appraise.records.vocabulary import Combine, PremiumTiers
from appraise.valuing.limits import DEFAULT_LIMITS, Limits
from appraise.valuing.lookup.indexes import Indexes, indexes
from appraise.valuing.lookup.periods import ModelPeriods, model_periods
from appraise.valuing.lookup.premiums import PremiumTables, premium_tables
from appraise.valuing.lookup.rates import RateTable, rate_table
from appraise.valuing.lookup.scales import Scales, scales

#: The item id that stands for every item on the sheet Costs.
EVERY_ITEM = "all"


@frozen(kw_only=True)
class JobTables:
    """The terms and tables that every item of a job is valued with.

    effective    the day as of which values hold; a method with a date of its own replaces it
    deductions   how deductions for originality are combined
    adjustments  how the percents of a comparison are combined
    whole_price  one premium rate on the whole price, instead of each tier on its part
    """

    assignment: Assignment
    currency: str | Missing
    effective: date | Missing
    deductions: Combine
    adjustments: Combine
    floor: Decimal | Missing
    whole_price: bool
    premiums: PremiumTables
    rates: RateTable
    indexes: Indexes
    scales: Scales
    periods: ModelPeriods
    costs: dict[str, tuple[Cost, ...]]
    limits: Limits

    def costs_of(self, item: str | Missing) -> tuple[Cost, ...]:
        """Return the costs of an item; a cost typed for the item replaces those of its kind typed for all."""
        own = self.costs.get(item, ()) if given(item) else ()
        kinds = {cost.kind for cost in own}
        return (*own, *(cost for cost in self.costs.get(EVERY_ITEM, ()) if cost.kind not in kinds))


def build_tables(job: Job, limits: Limits = DEFAULT_LIMITS) -> tuple[JobTables, tuple[Finding, ...]]:
    """Return the tables of a job, and the findings about the tables themselves."""
    terms = job.assignment
    premiums, premium_findings = premium_tables(job.premiums)
    rates, rate_findings = rate_table(job.rates)
    points, index_findings = indexes(job.indexes)
    steps, scale_findings = scales(job.scales)
    periods, period_findings = model_periods(job.model_periods)
    tables = JobTables(
        assignment=terms,
        currency=terms.currency,
        effective=terms.effective_date,
        deductions=value_or(terms.combine_deductions, Combine.MULTIPLY),
        adjustments=value_or(terms.combine_adjustments, Combine.MULTIPLY),
        floor=terms.originality_floor,
        whole_price=terms.premium_tiers is PremiumTiers.WHOLE_PRICE,
        premiums=premiums,
        rates=rates,
        indexes=points,
        scales=steps,
        periods=periods,
        costs=_costs(job.costs),
        limits=limits,
    )
    found = (*premium_findings, *rate_findings, *index_findings, *scale_findings, *period_findings)
    return tables, found


def _costs(rows: Iterable[Cost]) -> dict[str, tuple[Cost, ...]]:
    """Return the costs by item id, without those of a named quotation: they belong to its landed cost."""
    found: dict[str, list[Cost]] = defaultdict(list)
    for row in rows:
        if given(row.item) and not given(row.quotation):
            found[row.item].append(row)
    return {item: tuple(costs) for item, costs in found.items()}
