"""From the hammer price to the price paid: the premium by tiers and the tax on it (method rule R3)."""

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.kinds import Kind
from appraise.model.missing import given
from appraise.model.operations import PERCENT_OF, SUM, TIER_REACHED, TIERED
from appraise.records.declare import place_of
from appraise.records.market import SALES
from appraise.records.tables import PREMIUMS
from appraise.records.vocabulary import PremiumTax
from appraise.valuing.lookup.premiums import PremiumTable
from appraise.valuing.steps.line import Line


def premium_table(line: Line, *, quiet: bool = False) -> PremiumTable | None:
    """Return the premium table in force on the day of the sale; None with a finding (unless `quiet`)."""
    found = _table_or_why(line)
    if isinstance(found, PremiumTable):
        return found
    if not quiet:
        line.work.keep("premium", NoFigure((found,)))
    return None


def _table_or_why(line: Line) -> PremiumTable | Finding:
    sale, premiums = line.sale, line.inputs.tables.premiums
    place = place_of(SALES, sale, "premium_table")
    subjects = line.subjects
    if not given(sale.premium_table):
        return finding("CMP-25", place, *subjects)
    if not given(sale.day):
        return line.work.lacking(SALES, sale, "day").because[0]
    table = premiums.in_force(sale.premium_table, sale.day)
    if table is None:
        return finding("CMP-26", place, *subjects, found=sale.premium_table, day=sale.day)
    if table.currency != sale.currency:
        place = place_of(SALES, sale, "currency")
        return finding("CMP-27", place, *subjects, found=str(sale.currency), table=table.id, expected=table.currency)
    return table


def premium_added(line: Line, hammer: Outcome, kind: Kind) -> Outcome:
    """Return hammer price, premium and, where it stays in the value, the tax on the premium (figure `basis`)."""
    table = premium_table(line)
    if table is None:
        return line.work.keep("basis", line.work.figures["premium"])
    premium = premium_of(line, table, hammer, kind)
    parts = [hammer, premium]
    if table.tax != 0 and line.inputs.terms.premium_tax not in (PremiumTax.OUT, PremiumTax.REFUNDABLE):
        parts.append(line.work.figure("premium_tax", kind, PERCENT_OF, premium, tax_rate(line, table)))
    return line.work.figure("basis", kind, SUM, *parts)


def premium_of(line: Line, table: PremiumTable, hammer: Outcome, kind: Kind) -> Outcome:
    """Return the premium on a hammer price (figure `premium`)."""
    if isinstance(hammer, Figure) and table.ends is not None and hammer.number > table.ends:
        place = place_of(PREMIUMS, table.tiers[-1], "up_to")
        return line.work.refuse("premium", "CMP-28", place, found=str(table.ends), table=table.id, hammer=hammer.number)
    operation = TIER_REACHED if line.inputs.tables.whole_price else TIERED
    return line.work.figure("premium", kind, operation, hammer, *tier_figures(line, table))


def tax_rate(line: Line, table: PremiumTable) -> Outcome:
    """Return the tax on the premium in percent, as typed."""
    return line.once("premium_tax_rate", table.tax, place_of(PREMIUMS, table.tax_row, "tax"))


def tier_figures(line: Line, table: PremiumTable) -> list[Outcome]:
    """Return upper end 1, rate 1, upper end 2, rate 2, ..., rate of the last tier, as typed."""
    figures = []
    for number, tier in enumerate(table.tiers, 1):
        if number < len(table.tiers) and given(tier.up_to):
            figures.append(line.once(f"premium_up_to_{number}", tier.up_to, place_of(PREMIUMS, tier, "up_to")))
        if given(tier.rate):
            figures.append(line.once(f"premium_rate_{number}", tier.rate, place_of(PREMIUMS, tier, "rate")))
    return figures
