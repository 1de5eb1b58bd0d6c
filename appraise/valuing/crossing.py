"""Conversions by way of a third currency, as published rates against the euro ask for.

Reference rates of a central bank are units per euro: from one to another by dividing by the first and multiplying by
the second, nothing rounded between. The old national units of the euro have fixed rates that are never rounded,
truncated or inverted, and an amount goes through euros rounded to not less than three decimals (Regulation (EC)
1103/97, article 4); half-way is rounded up.
"""

from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import Kind, money
from appraise.model.ledger import Ledger
from appraise.model.operations import CONVERTED_OVER, CONVERTED_TIMES, Numbers, operation

#: Fewest decimals of the euro amount between two national units.
LEAST_DECIMALS = 3


@operation("crossed by two rates", "{0} ÷ {1} × {2}", lambda refs, places: f"{refs[0]}/{refs[1]}*{refs[2]}")
def CROSSED(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Amount, units of its currency per third unit, units of the wanted currency per third unit."""
    return values[0] * values[2] / values[1]


def crossed(ledger: Ledger, name: str, amount: Outcome, own: Outcome, wanted: Outcome, *, currency: str) -> Outcome:
    """Return an amount in `currency` by two rates in units per one unit of a third currency, rounded once."""
    return ledger.figure(name, money(currency), CROSSED, amount, own, wanted)


def through_euro(
    ledger: Ledger,
    name: str,
    amount: Outcome,
    own: Outcome,
    wanted: Outcome,
    *,
    kind: Kind,
    decimals: int = LEAST_DECIMALS,
) -> Outcome:
    """Return an amount from one old national unit to another (figures `<name>_euro` and `name`).

    own, wanted  fixed rates, national units per euro
    decimals     of the euro amount between, at least three
    """
    if decimals < LEAST_DECIMALS:
        raise ValueError(f"{decimals} decimals between two national units: at least {LEAST_DECIMALS}")
    euro = ledger.figure(f"{name}_euro", Kind("money", decimals, "EUR"), CONVERTED_OVER, amount, own)
    return ledger.figure(name, kind, CONVERTED_TIMES, euro, wanted)
