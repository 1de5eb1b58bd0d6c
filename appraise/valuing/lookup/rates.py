"""Exchange rates by day: the rate of the day or the last one listed before it (method rule R6)."""

from bisect import bisect_right
from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.tables import RATES, Rate
from appraise.records.vocabulary import RateDirection

#: A rate serves a day at most this many days later.
LONGEST_DAYS = 7


@frozen
class RateFound:
    """A rate as typed, the day it is of and how it is quoted."""

    day: date
    rate: Decimal
    direction: RateDirection
    row: Rate


@frozen
class RateTable:
    """Rates of each foreign currency, by day ascending."""

    by_currency: dict[str, tuple[tuple[date, ...], tuple[RateFound, ...]]]

    def known(self, currency: str) -> bool:
        """Say whether there is any rate of that currency."""
        return currency in self.by_currency

    def on(self, currency: str, day: date) -> RateFound | None:
        """Return the rate of the day, or the last one before it if it is at most seven days old; else None."""
        days, rates = self.by_currency.get(currency, ((), ()))
        index = bisect_right(days, day) - 1
        if index < 0 or (day - days[index]).days > LONGEST_DAYS:
            return None
        return rates[index]


def rate_table(rows: Iterable[Rate]) -> tuple[RateTable, list[Finding]]:
    """Return the rates of the sheet Rates and what is wrong with them. Of two rates of one day the first holds."""
    findings: list[Finding] = []
    found: dict[str, dict[date, RateFound]] = {}
    for row in rows:
        if not (given(row.currency) and given(row.day) and given(row.rate) and given(row.direction)):
            findings += _lacking(row)
            continue
        if row.rate <= 0:
            findings.append(
                finding("TBL-11", place_of(RATES, row, "rate"), row.currency, found=str(row.rate), day=row.day)
            )
            continue
        days = found.setdefault(row.currency, {})
        first = days.setdefault(row.day, RateFound(row.day, row.rate, row.direction, row))
        if (first.rate, first.direction) != (row.rate, row.direction):
            place = place_of(RATES, row, "rate")
            findings.append(finding("TBL-12", place, row.currency, found=str(row.rate), day=row.day, other=first.rate))
    return RateTable(
        {currency: (tuple(sorted(days)), tuple(days[day] for day in sorted(days))) for currency, days in found.items()}
    ), findings


def _lacking(row: Rate) -> list[Finding]:
    keys = [key for key in ("currency", "day", "rate", "direction") if not given(getattr(row, key))]
    return [
        finding("TBL-01", place_of(RATES, row, key), sheet=RATES.name, heading=RATES.column(key).heading)
        for key in keys
    ]
