"""The opinions of a whole job, one at a time: which items, which types of value, from which rows."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import field

from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.model.months import Months
from appraise.records.assignment import ValueTerms
from appraise.records.items import Item, Part
from appraise.records.job import Job
from appraise.records.market import Comparison, Opinion, Sale
from appraise.records.vocabulary import ValueType
from appraise.valuing.inputs import Inputs
from appraise.valuing.limits import DEFAULT_LIMITS, Limits
from appraise.valuing.result import Valuation
from appraise.valuing.tables import JobTables, build_tables
from appraise.valuing.use_rows import UseRows, use_rows

NO_WINDOWS: Mapping[str, Months] = {}
NOTHING_CONCLUDED: Mapping[ValueType, Valuation] = {}


@frozen
class JobRows:
    """The rows of a job by item and type of value, looked up once for all opinions.

    Of two lines of Opinions for one item and type of value, and of two sales of one id, the first holds.
    """

    job: Job
    tables: JobTables
    parts: Mapping[str, list[Part]]
    comparisons: Mapping[tuple[str, ValueType], list[Comparison]]
    opinions: Mapping[tuple[str, ValueType], Opinion]
    sales: Mapping[str, Sale]
    uses: UseRows = field(default_factory=UseRows)

    def terms(self) -> Iterator[ValueTerms]:
        """Yield the lines of Value types that name a type, the first of each type only."""
        seen = set()
        for terms in self.job.value_terms:
            if given(terms.value_type) and terms.value_type not in seen:
                seen.add(terms.value_type)
                yield terms

    def inputs(
        self,
        item: Item,
        terms: ValueTerms,
        *,
        window: Months | None = None,
        sale_windows: Mapping[str, Months] = NO_WINDOWS,
        concluded: Mapping[ValueType, Valuation] = NOTHING_CONCLUDED,
    ) -> Inputs:
        """Return what the opinion of one item under one type of value is made from.

        concluded  opinions of the item concluded before: net proceeds, say, start from the fair market value
        """
        own = item.id if given(item.id) else ""
        value_type = terms.value_type
        key = (own, value_type) if given(value_type) else None
        return Inputs(
            tables=self.tables,
            item=item,
            terms=terms,
            parts=self.parts.get(own, ()),
            comparisons=() if key is None else self.comparisons.get(key, ()),
            sales=self.sales,
            opinion=None if key is None else self.opinions.get(key),
            window=window,
            sale_windows=sale_windows,
            uses=self.uses,
            concluded=concluded,
        )


def job_rows(job: Job, limits: Limits = DEFAULT_LIMITS) -> tuple[JobRows, tuple[Finding, ...]]:
    """Return the rows of a job ready to be valued, and the findings about its tables."""
    tables, findings = build_tables(job, limits)
    parts: dict[str, list[Part]] = defaultdict(list)
    for part in job.parts:
        if given(part.item):
            parts[part.item].append(part)
    comparisons: dict[tuple[str, ValueType], list[Comparison]] = defaultdict(list)
    for line in job.comparisons:
        if given(line.item) and given(line.value_type):
            comparisons[line.item, line.value_type].append(line)
    opinions: dict[tuple[str, ValueType], Opinion] = {}
    for opinion in job.opinions:
        if given(opinion.item) and given(opinion.value_type):
            opinions.setdefault((opinion.item, opinion.value_type), opinion)
    sales: dict[str, Sale] = {}
    for sale in job.sales:
        if given(sale.id):
            sales.setdefault(sale.id, sale)
    return JobRows(job, tables, dict(parts), dict(comparisons), opinions, sales, use_rows(job)), findings
