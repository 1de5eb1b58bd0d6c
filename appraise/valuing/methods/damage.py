"""Diminution in value after damage (method rule R19).

Two measures, the smaller is the loss: repair plus what the repaired thing stays worth less; or the value before less
the value as it stands. Basis in tort law: Restatement of Torts, section 928 (difference in value, or reasonable
repair cost with allowance for any difference that remains); for casualty losses 26 CFR 1.165-7(a)(2). Values before
and after are as of the day of the event, in one market and of one type; the value once repaired is a hypothetical
condition until the repair is done. Damage that was there before belongs in the value before and is not counted.
"""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import PERCENT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, given, value_or
from appraise.model.operations import (
    DIFFERENCE,
    LESS_PERCENT,
    PERCENT_BELOW,
    PERCENT_OF,
    SMALLER,
    SUM,
    WEIGHTED_MEAN,
)
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.losses import LOSSES, PAIRED_SALES, REPAIRS, Damage, Loss, PairedSale, RepairLine
from appraise.records.vocabulary import DamageOrigin, RepairState, ValueType
from appraise.valuing.amounts import RISE
from appraise.valuing.inputs import Inputs
from appraise.valuing.opinions import concluded_value, opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.working import Worked, Working, compared, names_of, number_text

VALUES = (ValueType.DIMINUTION,)


#: Names of the method's own figures, which no pair may take.
FIGURES = (
    *("before", "as_it_stands", "stigma_pct", "after_repair", "residual_diminution", "repair_total", "repair_payable"),
    *("doubtful_total", "betterment", "salvage", "before_less_salvage", "threshold", "total_loss_trigger"),
    *("total_loss", "measure1", "measure2", "measure1_if_from_event", "loss", "loss_if_from_event"),
    *(f"{kind}{number}" for kind in ("repair", "doubtful") for number in range(1, 100)),
)


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the diminution in value of an item from its row on Losses, to the cent."""
    loss = inputs.uses.losses.get(inputs.item_id)
    if loss is None:
        return without_row(inputs, "LOS-19", LOSSES)
    currency = inputs.tables.currency
    if not given(currency):
        return without_row(inputs, "LOS-20", ASSIGNMENT)
    worked = damage(
        ledger,
        loss,
        damages=inputs.uses.damage.get(inputs.item_id, ()),
        repairs=inputs.uses.repairs.get(inputs.item_id, ()),
        pairs=inputs.uses.pairs.get(inputs.item_id, ()),
        before=concluded_value(inputs, rounded=False),
        currency=currency,
    )
    return opinion_of(inputs, worked, "loss", "loss")


def damage(
    ledger: Ledger,
    loss: Loss,
    *,
    damages: Sequence[Damage],
    repairs: Sequence[RepairLine],
    pairs: Sequence[PairedSale],
    before: Outcome | None = None,
    currency: str,
) -> Worked:
    """Return the loss on one item with both measures, to the cent and never rounded further.

    `damages`, `repairs` and `pairs` are those of the item; `before` is the value concluded in the workbook, used
    where none is typed. Figures: one percent a pair (by pair id), stigma_pct, after_repair, residual_diminution,
    repair_total, measure1, measure2, total_loss_trigger, total_loss, loss. Repairs of damage from before the event
    are left out; those of which it cannot be told are left out of the loss and shown in loss_if_from_event.
    """
    work = Working(ledger, "LOS-01", loss.item)
    value = _before(work, loss, before)
    stands = work.cell(LOSSES, loss, "as_it_stands")
    after = _after_repair(work, loss, pairs, value, currency=currency)
    diminution = work.figure("residual_diminution", money(currency), RISE, value, after)
    certain, doubtful = _sorted_repairs(work, damages, repairs)
    total = _repair_total(work, certain, currency=currency)
    payable = _net_of_betterment(work, loss, total, value, after, currency=currency)
    first = work.figure("measure1", money(currency), SUM, payable, diminution)
    second = work.figure("measure2", money(currency), DIFFERENCE, value, stands)
    _check_order(work, loss, value, stands)
    _total_loss(work, loss, value, first, currency=currency)
    capped = _salvage_cap(work, loss, value, currency=currency)
    work.figure("loss", money(currency), SMALLER, first, second, *capped)
    if doubtful:
        more = _repair_sum(work, "doubtful", doubtful, currency=currency)
        larger = work.figure("measure1_if_from_event", money(currency), SUM, first, more)
        work.figure("loss_if_from_event", money(currency), SMALLER, larger, second, *capped)
    return work.done()


def stigma(work: Working, loss: Loss, pairs: Sequence[PairedSale]) -> Outcome:
    """Return by how many percent a repaired one brings less: typed, or the weighted mean over the pairs."""
    if given(loss.stigma):
        return work.cell(LOSSES, loss, "stigma", name="stigma_pct")
    weighted: list[Outcome] = []
    for pair, name in zip(pairs, names_of(pairs, "id", taken=FIGURES), strict=True):
        percent = pair_percent(work, pair, name)
        if pair.weight == 0:
            continue
        weighted += [work.cell(PAIRED_SALES, pair, "weight", name=f"{name}_weight"), percent]
    if not weighted:
        return work.refuse("stigma_pct", "LOS-06", place_of(LOSSES, loss, "stigma"))
    return work.figure("stigma_pct", PERCENT, WEIGHTED_MEAN, *weighted)


def pair_percent(work: Working, pair: PairedSale, name: str) -> Outcome:
    """Return by how many percent the poorer of a pair brought less than the better one (figure `name`)."""
    if given(pair.better) and pair.better <= 0:
        place = place_of(PAIRED_SALES, pair, "better")
        return work.refuse(name, "LOS-07", place, found=str(pair.better))
    if given(pair.weight) and pair.weight < 0:
        return work.refuse(name, "LOS-07", place_of(PAIRED_SALES, pair, "weight"), found=str(pair.weight))
    better = work.cell(PAIRED_SALES, pair, "better", name=f"{name}_better")
    poorer = work.cell(PAIRED_SALES, pair, "poorer", name=f"{name}_poorer")
    return work.figure(name, PERCENT, PERCENT_BELOW, poorer, better)


def _before(work: Working, loss: Loss, concluded: Outcome | None) -> Outcome:
    if not given(loss.before) and concluded is not None:
        return work.keep("before", concluded)
    return work.cell(LOSSES, loss, "before")


def _after_repair(work: Working, loss: Loss, pairs: Sequence[PairedSale], before: Outcome, *, currency: str) -> Outcome:
    if given(loss.after_repair):
        return work.cell(LOSSES, loss, "after_repair")
    return work.figure("after_repair", money(currency), LESS_PERCENT, before, stigma(work, loss, pairs))


def _sorted_repairs(
    work: Working, damages: Sequence[Damage], repairs: Sequence[RepairLine]
) -> tuple[list[RepairLine], list[RepairLine]]:
    """Return the repair lines of damage from the event, and those of damage of which it cannot be told."""
    origins = {one.id: one.origin for one in damages}
    certain, doubtful = [], []
    for line in repairs:
        origin = origins.get(line.damage, DamageOrigin.FROM_EVENT) if given(line.damage) else DamageOrigin.FROM_EVENT
        place = place_of(REPAIRS, line, "damage")
        if origin is DamageOrigin.BEFORE:
            work.find("LOS-08", place, found=str(line.damage), work=value_or(line.work, ""))
        elif origin is DamageOrigin.FROM_EVENT:
            certain.append(line)
        else:
            work.find("LOS-09", place, found=str(line.damage), work=value_or(line.work, ""))
            doubtful.append(line)
    if any(line.state is RepairState.PROPOSED for line in certain):
        work.find("LOS-10", place_of(REPAIRS, certain[0], "state"), found=RepairState.PROPOSED.value)
    return certain, doubtful


def _repair_total(work: Working, lines: Sequence[RepairLine], *, currency: str) -> Outcome:
    if not lines:
        return work.keep("repair_total", work.ledger.typed("repair_total", Decimal(0)))
    return _repair_sum(work, "repair", lines, currency=currency)


def _repair_sum(work: Working, name: str, lines: Sequence[RepairLine], *, currency: str) -> Outcome:
    """Return the sum of the lines and the tax on the taxed ones, tax rounded line by line."""
    parts: list[Outcome] = []
    for number, line in enumerate(lines, start=1):
        amount = work.cell(REPAIRS, line, "amount", name=f"{name}{number}")
        parts.append(amount)
        if line.tax not in (BLANK, 0):
            rate = work.cell(REPAIRS, line, "tax", name=f"{name}{number}_tax_rate")
            parts.append(work.figure(_tax_name(work, name, number, line), money(currency), PERCENT_OF, amount, rate))
    return work.figure(f"{name}_total", money(currency), SUM, *parts)


def _tax_name(work: Working, name: str, number: int, line: RepairLine) -> str:
    """Return the name of a line's tax: the line's work where it is one plain word of its own, else its number."""
    if given(line.work) and line.work.isascii() and line.work.isalpha():
        own = f"{line.work.lower()}_tax"
        if own not in work.figures:
            return own
    return f"{name}{number}_tax"


def _net_of_betterment(
    work: Working, loss: Loss, total: Outcome, before: Outcome, after: Outcome, *, currency: str
) -> Outcome:
    """Return the repair cost to be counted: less the rise in value it brings, where the policy says so."""
    if compared(after, before) != 1:
        return total
    betterment = work.figure("betterment", money(currency), DIFFERENCE, after, before)
    work.find("LOS-11", place_of(LOSSES, loss, "after_repair"), found=number_text(after))
    if loss.net_of_betterment is not True:
        return total
    return work.figure("repair_payable", money(currency), RISE, total, betterment)


def _total_loss(work: Working, loss: Loss, before: Outcome, first: Outcome, *, currency: str) -> None:
    if not given(loss.threshold):
        return
    threshold = work.cell(LOSSES, loss, "threshold")
    trigger = work.figure("total_loss_trigger", money(currency), PERCENT_OF, before, threshold)
    order = compared(first, trigger)
    work.answer("total_loss", None if order is None else order >= 0, first, trigger)


def _salvage_cap(work: Working, loss: Loss, before: Outcome, *, currency: str) -> tuple[Outcome, ...]:
    """Return the cap "value before less salvage" where the typed option asks for it."""
    if loss.cap_by_salvage is not True:
        return ()
    salvage = work.cell(LOSSES, loss, "salvage")
    return (work.figure("before_less_salvage", money(currency), DIFFERENCE, before, salvage),)


def _check_order(work: Working, loss: Loss, before: Outcome, stands: Outcome) -> None:
    if compared(stands, before) == 1:
        work.find(
            "LOS-12", place_of(LOSSES, loss, "as_it_stands"), found=number_text(stands), before=number_text(before)
        )
