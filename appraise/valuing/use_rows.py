"""The rows of the sheets that only some uses need, by item."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from typing import Any, TypeVar

from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.claims import Cover, Depreciation, Policy, ValueFact
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.losses import Damage, Loss, PairedSale, RepairLine
from appraise.records.market import Cost
from appraise.records.selling import Absorption, CommissionTier, LiquidationLot, LiquidationTerms, Proceeds

R = TypeVar("R")
NO_POLICY = filled(Policy)
NO_TERMS = filled(LiquidationTerms)


@frozen(kw_only=True)
class UseRows:
    """Rows by item id (absorption by lot id, quoted costs by sale id), built once for a job.

    Of two rows that may stand once the first holds.
    """

    depreciation: Mapping[str, Depreciation] = field(default_factory=dict)
    value_facts: Mapping[str, tuple[ValueFact, ...]] = field(default_factory=dict)
    losses: Mapping[str, Loss] = field(default_factory=dict)
    damage: Mapping[str, tuple[Damage, ...]] = field(default_factory=dict)
    repairs: Mapping[str, tuple[RepairLine, ...]] = field(default_factory=dict)
    pairs: Mapping[str, tuple[PairedSale, ...]] = field(default_factory=dict)
    quoted: Mapping[str, tuple[Cost, ...]] = field(default_factory=dict)
    covers: Mapping[str, Cover] = field(default_factory=dict)
    proceeds: Mapping[str, Proceeds] = field(default_factory=dict)
    lots: Mapping[str, tuple[LiquidationLot, ...]] = field(default_factory=dict)
    absorption: Mapping[str, tuple[Absorption, ...]] = field(default_factory=dict)
    policy: Policy = NO_POLICY
    commissions: tuple[CommissionTier, ...] = ()
    liquidation_terms: LiquidationTerms = NO_TERMS


def use_rows(job: Job) -> UseRows:
    """Return the rows of a job by item."""
    return UseRows(
        depreciation=_first(job.depreciation, lambda one: one.item),
        value_facts=_all(job.value_facts, lambda one: one.item),
        losses=_first(job.losses, lambda one: one.item),
        damage=_all(job.damage, lambda one: one.item),
        repairs=_all(job.repairs, lambda one: one.item),
        pairs=_all(job.paired_sales, lambda one: one.item),
        quoted=_all(job.costs, lambda one: one.quotation),
        covers=_first(job.covers, lambda one: one.item),
        proceeds=_first(job.proceeds, lambda one: one.item),
        lots=_all(job.liquidation, lambda one: one.item),
        absorption=_all(job.absorption, lambda one: one.lot),
        policy=job.policy,
        commissions=job.commissions,
        liquidation_terms=job.liquidation_terms,
    )


def _first(rows: Iterable[R], key: Callable[[R], Any]) -> dict[str, R]:
    found: dict[str, R] = {}
    for row in rows:
        if given(key(row)):
            found.setdefault(key(row), row)
    return found


def _all(rows: Iterable[R], key: Callable[[R], Any]) -> dict[str, tuple[R, ...]]:
    found: dict[str, list[R]] = defaultdict(list)
    for row in rows:
        if given(key(row)):
            found[key(row)].append(row)
    return {name: tuple(members) for name, members in found.items()}
