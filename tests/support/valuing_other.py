"""Runs the cases of the methods other than sales comparison and the retail build-up."""

from collections.abc import Mapping
from decimal import Decimal

from support.valuing import Part, case_method, texts_of

from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import money
from appraise.model.ledger import RecordingLedger
from appraise.model.operations import SUM
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.schedule import revaluation, totals
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.methods import (
    alternate_date,
    coverage,
    damage,
    depreciated_cost,
    landed_cost,
    liquidation,
    net_proceeds,
    sets,
)
from appraise.valuing.reconcile import Weighted, reconcile
from appraise.valuing.tables import build_tables
from appraise.valuing.working import Working


@case_method("depreciated cost")
def run_depreciated_cost(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    terms = part.job.assignment
    lines = [
        depreciated_cost.depreciated_cost(
            ledger.under(str(line.item)),
            line,
            loss_day=terms.loss_date,
            loss_place=place_of(ASSIGNMENT, terms, "loss_date"),
            rates=rate_table(part.job.rates)[0],
            currency=str(terms.currency),
        )
        for line in part.job.depreciation
    ]
    depreciated_cost.totals(ledger, lines, currency=str(terms.currency))
    return texts_of(ledger)


@case_method("liquidation")
def run_liquidation(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    lots = [
        liquidation.liquidation_lot(
            ledger.under(str(lot.id)),
            lot,
            job.liquidation_terms,
            absorption=[one for one in job.absorption if one.lot == lot.id],
            currency=str(job.assignment.currency),
        )
        for lot in job.liquidation
    ]
    liquidation.totals(ledger, lots, job.liquidation_terms, currency=str(job.assignment.currency))
    return texts_of(ledger)


@case_method("damage")
def run_damage(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    (loss,) = job.losses
    damage.damage(
        ledger,
        loss,
        damages=[one for one in job.damage if one.item == loss.item],
        repairs=[one for one in job.repairs if one.item == loss.item],
        pairs=[one for one in job.paired_sales if one.item == loss.item],
        currency=str(job.assignment.currency),
    )
    return texts_of(ledger)


@case_method("set and coverage")
def run_set_and_coverage(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    currency = str(job.assignment.currency)
    (line,) = job.sets
    loss = sets.set_loss(ledger, line, pieces=job.pieces, clause=job.policy.set_clause, currency=currency)
    items = [coverage.insured_item(ledger, cover) for cover in job.covers]
    blanket = coverage.blanket_limit(ledger, job.policy, items, currency=currency)
    coverage.coinsurance(
        ledger,
        job.policy,
        loss=loss["covered_loss"],
        value=blanket["total_value"],
        loss_day=job.assignment.loss_date,
        currency=currency,
    )
    return texts_of(ledger)


@case_method("landed cost")
def run_landed_cost(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    (quotation,) = job.sales
    landed_cost.landed_cost(
        ledger.under("landed"),
        quotation,
        costs=[one for one in job.costs if one.quotation == quotation.id],
        rates=rate_table(job.rates)[0],
        currency=str(job.assignment.currency),
    )
    return texts_of(ledger)


@case_method("net proceeds")
def run_net_proceeds(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    currency = str(job.assignment.currency)
    lines = [
        net_proceeds.net_proceeds(
            ledger.under(str(line.item)),
            line,
            commissions=job.commissions,
            tables=build_tables(job)[0],
            currency=currency,
        )
        for line in job.proceeds
    ]
    net_proceeds.totals(ledger, lines, currency=currency)
    return texts_of(ledger)


@case_method("alternate date")
def run_alternate_date(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    currency = str(job.assignment.currency)
    place = place_of(ASSIGNMENT, job.assignment, "death_date")
    days = alternate_date.estate_days(ledger, job.assignment.death_date, place)
    assert days is not None
    lines = [
        alternate_date.alternate_value(
            ledger.under(str(line.id)), line, days=days, tables=build_tables(job)[0], currency=currency
        )
        for line in job.alternate
    ]
    alternate_date.totals(ledger, lines, job.counsel_figures, currency=currency)
    return texts_of(ledger)


@case_method("revaluation")
def run_revaluation(part: Part) -> Mapping[str, str]:
    ledger = RecordingLedger(part.scope)
    job = part.job
    currency = str(job.assignment.currency)
    year = revaluation.year_of(
        job.yearly_terms,
        build_tables(job)[0],
        effective=job.assignment.effective_date,
        place=place_of(ASSIGNMENT, job.assignment, "effective_date"),
        currency=currency,
    )
    assert isinstance(year, revaluation.Year)
    fresh = {
        one["item"]: fresh_value(ledger.under(one["item"]), one, currency) for one in part.settings.get("fresh", [])
    }
    lines = [
        revaluation.revalued(ledger.under(str(line.item)), line, year, fresh=fresh.get(str(line.item)))
        for line in job.treatments
    ]
    worked = totals.totals(ledger, lines, currency=currency)
    assert totals.bridge_closes(worked)
    return texts_of(ledger)


def fresh_value(ledger: RecordingLedger, typed: Mapping[str, object], currency: str) -> Outcome:
    """Return the conclusion of comparables of which only weight and adjusted price are given (`comps_value`)."""
    work = Working(RecordingLedger(f"{ledger.scope}.comps", ledger.figures), "VAL-01")
    weights, prices = typed["weights"], typed["prices"]
    assert isinstance(weights, list) and isinstance(prices, list)
    weighted = []
    for number, (weight, price) in enumerate(zip(weights, prices, strict=True), start=1):
        one = work.ledger.typed(f"c{number}_price", Decimal(price), kind=money(currency))
        weighted.append(Weighted(f"c{number}", one, work.ledger.typed(f"c{number}_weight", Decimal(weight))))
    reconcile(work, weighted, money(currency))
    chosen = work.figures["median" if typed["conclusion"] == "weighted median" else "mean"]
    assert isinstance(chosen, Figure)
    return ledger.figure("comps_value", money(currency), SUM, chosen)
