"""What is worked out for a job as a whole, beside the opinions of its items: estate, cover, sets, sales, quotations.

Each function takes the rows of the job and the opinions concluded, by item; a job without the sheet gives nothing.
"""

from collections.abc import Mapping, Sequence

from appraise.model.figure import NoFigure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.records.alternate import AlternateLine
from appraise.records.assignment import ASSIGNMENT
from appraise.records.claims import Policy
from appraise.records.declare import filled, place_of
from appraise.valuing.inputs import each_once
from appraise.valuing.job import JobRows
from appraise.valuing.methods import alternate_date, coverage, landed_cost, liquidation, net_proceeds, sets
from appraise.valuing.methods.inflation_guard import guarded_limit
from appraise.valuing.working import Worked, names_of

Concluded = Mapping[str, Outcome]


@frozen
class AlternateSchedule:
    """An estate at both dates: the figures of each line of Alternate date, and the totals."""

    lines: tuple[tuple[AlternateLine, Worked], ...]
    totals: Worked
    findings: tuple[Finding, ...]


def alternate_schedule(ledger: Ledger, rows: JobRows, at_death: Concluded) -> AlternateSchedule | None:
    """Return the estate at the alternate date; None where no line is typed.

    at_death  fair market value before rounding by item, for lines without a typed one
    """
    job, currency = rows.job, rows.tables.currency
    if not job.alternate or not given(currency):
        return None
    place = place_of(ASSIGNMENT, job.assignment, "death_date")
    days = alternate_date.estate_days(ledger, job.assignment.death_date, place)
    if days is None:
        reason = finding("ALT-12", place)
        return AlternateSchedule((), Worked({"alternate_total": NoFigure((reason,))}, (reason,)), (reason,))
    lines = tuple(
        (
            line,
            alternate_date.alternate_value(
                ledger.under(name),
                line,
                days=days,
                tables=rows.tables,
                at_death=at_death.get(line.item) if given(line.item) else None,
                currency=currency,
            ),
        )
        for line, name in zip(job.alternate, names_of(job.alternate, "id"), strict=True)
    )
    worked = [one for _, one in lines]
    total = alternate_date.totals(ledger, worked, job.counsel_figures, currency=currency)
    findings = [one for line in worked for one in line.findings]
    shares = alternate_date.share_findings(job.alternate)
    return AlternateSchedule(lines, total, each_once([*findings, *total.findings, *shares]))


@frozen
class CoverOfJob:
    """What the policy covers: blanket limit against values, sets that lost a piece, and what is paid of a loss."""

    blanket: Worked | None
    sets: tuple[tuple[str, Worked], ...]
    payments: tuple[tuple[str, Worked], ...]
    findings: tuple[Finding, ...]


def cover_of_job(
    ledger: Ledger, rows: JobRows, values: Concluded, losses: Concluded, *, loss_value: Outcome | None = None
) -> CoverOfJob:
    """Return the cover of a job.

    values      what each item is worth on the policy's basis, for items without a value on Cover
    losses      the loss of each item hurt (a set's loss is worked out here from Sets)
    loss_value  value of everything at the time of the loss; None: the total worked out here
    """
    job, currency = rows.job, rows.tables.currency
    if not given(currency):
        return CoverOfJob(None, (), (), ())
    blanket = _blanket(ledger, rows, values, currency)
    hurt = tuple(
        (
            name,
            sets.set_loss(
                ledger.under(name),
                line,
                pieces=[piece for piece in job.pieces if piece.set_id == line.set_id],
                clause=job.policy.set_clause,
                currency=currency,
            ),
        )
        for line, name in zip(job.sets, names_of(job.sets, "set_id"), strict=True)
    )
    covered = {**losses, **{name: worked["covered_loss"] for name, worked in hurt}}
    value = loss_value if loss_value is not None else None if blanket is None else blanket["total_value"]
    payments = () if value is None else _payments(ledger, rows, covered, value, currency)
    parts = [*([] if blanket is None else [blanket]), *(one for _, one in hurt), *(one for _, one in payments)]
    return CoverOfJob(blanket, hurt, payments, each_once([one for part in parts for one in part.findings]))


def _blanket(ledger: Ledger, rows: JobRows, values: Concluded, currency: str) -> Worked | None:
    if not rows.job.covers or not given(rows.job.policy.limit):
        return None
    items = [
        coverage.insured_item(ledger, cover, name=name, concluded=values.get(cover.item) if given(cover.item) else None)
        for cover, name in zip(rows.job.covers, names_of(rows.job.covers, "item"), strict=True)
    ]
    return coverage.blanket_limit(ledger, rows.job.policy, items, currency=currency)


def _payments(
    ledger: Ledger, rows: JobRows, losses: Concluded, value: Outcome, currency: str
) -> tuple[tuple[str, Worked], ...]:
    """Return what is paid of each loss, with the limit as an inflation guard has raised it by the day of the loss."""
    policy, day = rows.job.policy, rows.job.assignment.loss_date
    if not losses or policy == filled(Policy):
        return ()
    limit = None
    if given(policy.inflation_guard) and given(day):
        limit = guarded_limit(ledger.under("guard"), policy, day, currency=currency)["limit_then"]
    return tuple(
        (
            name,
            coverage.coinsurance(
                ledger.under(name).under("paid"),
                policy,
                loss=loss,
                value=value,
                loss_day=day,
                currency=currency,
                limit=limit,
            ),
        )
        for name, loss in losses.items()
    )


def liquidation_of_job(
    ledger: Ledger, rows: JobRows, unit_values: Concluded
) -> tuple[tuple[Worked, ...], Worked] | None:
    """Return every lot and the totals of the sale, rounded once; None where no lot is typed.

    unit_values  fair market value by item, for lots without a typed one
    """
    job, currency = rows.job, rows.tables.currency
    if not job.liquidation or not given(currency):
        return None
    lots = tuple(
        liquidation.liquidation_lot(
            ledger.under(name),
            lot,
            job.liquidation_terms,
            absorption=rows.uses.absorption.get(lot.id, ()) if given(lot.id) else (),
            unit_value=unit_values.get(lot.item) if given(lot.item) else None,
            currency=currency,
        )
        for lot, name in zip(job.liquidation, names_of(job.liquidation, "id"), strict=True)
    )
    return lots, liquidation.totals(ledger, lots, job.liquidation_terms, currency=currency)


def proceeds_totals(ledger: Ledger, rows: JobRows, lines: Sequence[Worked]) -> Worked | None:
    """Return the total of the net proceeds of a job's items; None where there are none."""
    currency = rows.tables.currency
    return net_proceeds.totals(ledger, lines, currency=currency) if lines and given(currency) else None


def landed_costs(ledger: Ledger, rows: JobRows) -> tuple[tuple[str, Worked], ...]:
    """Return the landed cost of every quotation that Costs names, by sale id, in the order of Sales."""
    currency = rows.tables.currency
    if not given(currency):
        return ()
    found: dict[str, Worked] = {}
    for sale in rows.job.sales:
        if not given(sale.id) or sale.id in found:
            continue
        if costs := rows.uses.quoted.get(sale.id):
            scope = ledger.under(sale.id).under("landed")
            found[sale.id] = landed_cost.landed_cost(
                scope, sale, costs=costs, rates=rows.tables.rates, currency=currency
            )
    return tuple(found.items())
