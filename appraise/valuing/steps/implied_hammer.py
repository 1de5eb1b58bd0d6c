"""From an all-in price back to the hammer price (method rule R4)."""

from appraise.model.figure import NoFigure, Outcome
from appraise.model.kinds import Kind
from appraise.model.missing import given
from appraise.model.operations import PERCENT_OF, SUM, TIER_REACHED, TIERED
from appraise.records.declare import place_of
from appraise.records.market import SALES
from appraise.records.tables import PREMIUMS
from appraise.valuing.lookup.premiums import PremiumTable
from appraise.valuing.operations import HAMMER_IMPLIED, HAMMER_IMPLIED_WHOLE
from appraise.valuing.steps.line import Line
from appraise.valuing.steps.premium import premium_table, tax_rate, tier_figures


def implied_hammer(line: Line, paid: Outcome, kind: Kind) -> Outcome:
    """Return the hammer price that an all-in price implies (figure `hammer`), with the way forward as `proof`.

    A hammer price that is no whole figure hints that the published price or the table is wrong: a note.
    """
    work = line.work
    table = premium_table(line)
    if table is None:
        return work.keep("hammer", work.figures["premium"])
    hammer = _whole(line, table, paid, kind) if line.inputs.tables.whole_price else _tiers(line, table, paid, kind)
    if isinstance(hammer, NoFigure):
        return hammer
    place = place_of(SALES, line.sale, "price")
    if table.ends is not None and hammer.number > table.ends:
        end = place_of(PREMIUMS, table.tiers[-1], "up_to")
        return work.refuse("hammer", "CMP-28", end, found=str(table.ends), table=table.id, hammer=hammer.number)
    if hammer.number != hammer.number.to_integral_value():
        work.find("CMP-12", place, found=str(line.sale.price), hammer=hammer.number)
    operation = TIER_REACHED if line.inputs.tables.whole_price else TIERED
    premium = work.figure("proof_premium", kind, operation, hammer, *tier_figures(line, table))
    tax = work.figure("proof_tax", kind, PERCENT_OF, premium, tax_rate(line, table))
    work.figure("proof", kind, SUM, hammer, premium, tax)
    return hammer


def _tiers(line: Line, table: PremiumTable, paid: Outcome, kind: Kind) -> Outcome:
    arguments = (paid, tax_rate(line, table), *tier_figures(line, table))
    return line.work.figure("hammer", kind, HAMMER_IMPLIED, *arguments)


def _whole(line: Line, table: PremiumTable, paid: Outcome, kind: Kind) -> Outcome:
    """Return the hammer price under one rate on the whole price.

    The price paid jumps where a tier ends, so that it may belong to no hammer price or to two: then there is no figure.
    """
    if isinstance(paid, NoFigure):
        return line.work.keep("hammer", paid)
    fitting = []
    lower = None
    for number, tier in enumerate(table.tiers, 1):
        upper = tier.up_to if given(tier.up_to) else None
        if given(tier.rate):
            hammer = HAMMER_IMPLIED_WHOLE.result([paid.number, table.tax, tier.rate], kind.places)
            if (lower is None or hammer > lower) and (upper is None or hammer <= upper):
                fitting.append((number, tier.rate, place_of(PREMIUMS, tier, "rate")))
        lower = upper
    if len(fitting) != 1:
        place = place_of(SALES, line.sale, "price")
        return line.work.refuse(
            "hammer", "CMP-29", place, found=str(line.sale.price), table=table.id, count=len(fitting)
        )
    number, rate, place = fitting[0]
    figure = line.once(f"premium_rate_{number}", rate, place)
    return line.work.figure("hammer", kind, HAMMER_IMPLIED_WHOLE, paid, tax_rate(line, table), figure)
