"""Buyers' premiums: which table is in force on a day (method rule R3)."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given, value_or
from appraise.records.declare import place_of
from appraise.records.tables import PREMIUMS, PremiumTier


@frozen
class PremiumTable:
    """One table of one period.

    tiers  rows in ascending order; the upper end of a tier belongs to it
    tax    tax on the premium [percent], with the row it was typed in (the first row if blank: 0)
    ends   upper end of the last tier, None if it has no end
    """

    id: str
    currency: str
    valid_from: date
    valid_to: date | None
    tiers: tuple[PremiumTier, ...]
    tax: Decimal
    tax_row: PremiumTier
    ends: Decimal | None

    def in_force(self, day: date) -> bool:
        """Say whether the table is in force on a day; both its days are included."""
        return self.valid_from <= day and (self.valid_to is None or day <= self.valid_to)


@frozen
class PremiumTables:
    """All usable tables by id."""

    by_id: dict[str, tuple[PremiumTable, ...]]

    def known(self, table: str) -> bool:
        """Say whether there is a table of that id for any day."""
        return table in self.by_id

    def in_force(self, table: str, day: date) -> PremiumTable | None:
        """Return the table of that id in force on a day, None if there is none."""
        return next((one for one in self.by_id.get(table, ()) if one.in_force(day)), None)


def premium_tables(rows: Iterable[PremiumTier]) -> tuple[PremiumTables, list[Finding]]:
    """Return the tables of the sheet Premiums and what is wrong with them."""
    findings: list[Finding] = []
    periods: dict[tuple[str, date, date | None], list[PremiumTier]] = {}
    for row in rows:
        if not given(row.table):
            continue
        lacking = [key for key in ("valid_from", "currency", "rate") if not given(getattr(row, key))]
        findings += [_lacking(row, key) for key in lacking]
        if lacking or not given(row.valid_from):
            continue
        last = row.valid_to if given(row.valid_to) else None
        periods.setdefault((row.table, row.valid_from, last), []).append(row)
    by_id: dict[str, list[PremiumTable]] = {}
    for (table, first, last), tiers in periods.items():
        built = _table(table, first, last, tiers, findings)
        if built is None:
            continue
        for other in by_id.get(table, []):
            if _overlap(other, built):
                findings.append(_at(tiers[0], "TBL-03", "valid_from", found=first.isoformat(), other=other.valid_from))
        by_id.setdefault(table, []).append(built)
    return PremiumTables({table: tuple(all_of) for table, all_of in by_id.items()}), findings


def _table(
    table: str, first: date, last: date | None, tiers: list[PremiumTier], findings: list[Finding]
) -> PremiumTable | None:
    """Return the table of these tiers, None with a finding if they are in no order."""
    ends = [row.up_to if given(row.up_to) else None for row in tiers]
    for before, after, row in zip(ends, ends[1:], tiers[1:], strict=False):
        if before is None or (after is not None and after <= before):
            findings.append(_at(row, "TBL-02", "up_to", found="" if after is None else str(after)))
            return None
    currency = tiers[0].currency
    if not given(currency):
        return None
    for row in tiers[1:]:
        if row.currency != currency:
            findings.append(_at(row, "TBL-04", "currency", found=str(row.currency), expected=currency))
            return None
    tax_row = next((row for row in tiers if given(row.tax)), tiers[0])
    tax = value_or(tax_row.tax, Decimal(0))
    for row in tiers:
        if value_or(row.tax, tax) != tax:
            findings.append(_at(row, "TBL-04", "tax", found=str(row.tax), expected=tax))
            return None
    return PremiumTable(table, currency, first, last, tuple(tiers), tax, tax_row, ends[-1])


def _overlap(a: PremiumTable, b: PremiumTable) -> bool:
    return a.in_force(b.valid_from) or b.in_force(a.valid_from)


def _at(row: PremiumTier, code: str, key: str, *, found: str, **details: object) -> Finding:
    return finding(code, place_of(PREMIUMS, row, key), str(row.table), found=found, table=row.table, **details)


def _lacking(row: PremiumTier, key: str) -> Finding:
    heading = PREMIUMS.column(key).heading
    return finding("TBL-01", place_of(PREMIUMS, row, key), str(row.table), sheet=PREMIUMS.name, heading=heading)
