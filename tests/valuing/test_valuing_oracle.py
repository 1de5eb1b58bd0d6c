"""Ten thousand random items with twenty comparisons each, against an oracle in exact fractions."""

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from support.valuing_oracle import Answer, World, answer, market_price

from appraise.model.figure import Figure
from appraise.model.ledger import Ledger
from appraise.records.assignment import Assignment, ValueTerms
from appraise.records.declare import filled
from appraise.records.items import Item, Part
from appraise.records.job import Job
from appraise.records.market import Comparison, Sale
from appraise.records.tables import IndexPoint, PremiumTier, Rate, ScaleStep
from appraise.records.vocabulary import (
    Combine,
    Conclusion,
    PremiumTax,
    PremiumTiers,
    PriceBasis,
    PriceKind,
    RateDirection,
    ValueType,
)
from appraise.valuing import build_tables, value_item
from appraise.valuing.result import Valuation

ITEMS = 10_000
COMPARISONS = 20
POOL = 4_000
EFFECTIVE = date(2024, 11, 15)
INDEX = ["2022-01 100", "2022-07 108.4", "2023-01 112.9", "2023-07 109.7", "2024-01 105.2", "2024-09 103.65"]
SCALE = {10: "100", 9: "88", 8: "79.5", 7: "72", 6: "66", 5: "60"}
TIERS = {
    "A": [("10000", "28"), ("100000", "22.5"), ("", "15")],
    "B": [("5000", "30"), ("50000", "25"), ("", "18")],
}
TABLES = [("A", date(2021, 6, 1), date(2024, 6, 30), "0"), ("A", date(2024, 7, 1), None, "8.25")]
TABLES += [("B", date(2020, 1, 1), None, "20")]
RATES = {"GBP": (RateDirection.REPORT_PER_FOREIGN, 12000, 13500), "EUR": (RateDirection.FOREIGN_PER_REPORT, 8800, 9700)}
CURRENCIES = ("USD", "GBP", "EUR")
FIRST_DAY, LAST_DAY = date(2021, 12, 1), date(2024, 12, 5)


@dataclass(frozen=True)
class Drawn:
    """A comparison as typed, as records and as the oracle's spec."""

    sale: Sale
    comparison: Comparison
    spec: dict[str, Any]


def draw_rates(rng: random.Random) -> dict[tuple[str, date], tuple[str, bool]]:
    """Return rates on business days, some of them missing for longer than seven days."""
    rates = {}
    for currency, (direction, low, high) in RATES.items():
        day = FIRST_DAY
        while day <= LAST_DAY:
            if day.weekday() < 5 and day.month != 8:
                text = f"{rng.randint(low, high) / 10000:.4f}"
                rates[currency, day] = (text, direction is RateDirection.REPORT_PER_FOREIGN)
            day += timedelta(days=1)
    return rates


def draw(rng: random.Random, number: int) -> Drawn:
    """Return a random comparison; prices fall on half cents and tier ends now and then."""
    kind = rng.choice([PriceKind.HAMMER, PriceKind.HAMMER, PriceKind.ALL_IN, PriceKind.ASKING, PriceKind.DEALER_SOLD])
    price = rng.choice([f"{rng.randint(200, 6000) * 25}.00", f"{rng.randint(50000, 9000000) / 100:.2f}", "10000.00"])
    typed = {
        "price": price,
        "tax": rng.choice(["", "", "", "20", "7.25"]),
        "discount": rng.choice(["", "12", "7.5"]) if kind is PriceKind.ASKING else "",
        "level": rng.choice(["", "", "-15", "6", "0"]),
        "configuration": rng.choice(["", "", "-8", "2.5"]),
        "provenance": rng.choice(["", "", "", "-2.50", "-45"]),
        "other": rng.choice(["", "", "", "", "-60", "33.33"]),
        "lump": rng.choice(["", "", "-350", "125.50", "-4000"]),
        "weight": rng.choice(["0", "1", "1", "1", "2", "3", "0.5"]),
    }
    currency = rng.choice(["USD", "USD", "GBP", "EUR"])
    day = FIRST_DAY + timedelta(days=rng.randint(0, (LAST_DAY - FIRST_DAY).days))
    grade = rng.randint(5, 10)
    deductions = rng.choice([[], [], ["4"], ["5", "10"], ["50"], ["50", "12.5"]])
    table = rng.choice(["A", "B"]) + currency
    blank = {key: Decimal(text) for key, text in typed.items() if text}
    sale = filled(
        Sale,
        row=number,
        id=f"s{number}",
        kind=kind,
        currency=currency,
        day=day,
        grade=Decimal(grade),
        premium_table=table,
        price=blank["price"],
        **({"tax_included": blank["tax"]} if "tax" in blank else {}),
    )
    own = ("discount", "level", "configuration", "provenance", "other", "lump", "weight")
    comparison = filled(
        Comparison,
        row=number,
        id=f"c{number}",
        sale=f"s{number}",
        **({"deductions": "; ".join(deductions)} if deductions else {}),
        **{key: blank[key] for key in own if key in blank},
    )
    spec: dict[str, Any] = {key: Fraction(text or 0) for key, text in typed.items()}
    spec |= {"kind": kind.value, "currency": currency, "day": day, "grade": grade, "table": table}
    return Drawn(sale, comparison, spec | {"deductions": [Fraction(one) for one in deductions]})


def table_rows(rates: dict[tuple[str, date], tuple[str, bool]]) -> dict[str, tuple[Any, ...]]:
    """Return the tables as records."""
    premiums = [
        filled(
            PremiumTier,
            row=2,
            table=table + currency,
            house="Marrowby Rooms",
            currency=currency,
            valid_from=first,
            rate=Decimal(rate),
            tax=Decimal(tax),
            **({"valid_to": last} if last else {}),
            **({"up_to": Decimal(upper)} if upper else {}),
        )
        for table, first, last, tax in TABLES
        for currency in CURRENCIES
        for upper, rate in TIERS[table]
    ]
    listed = [
        filled(Rate, row=2, currency=currency, day=day, rate=Decimal(text), direction=RATES[currency][0])
        for (currency, day), (text, _) in rates.items()
    ]
    points = [
        filled(IndexPoint, row=2, index="X", month=line.split()[0], figure=Decimal(line.split()[1]), carry_last=True)
        for line in INDEX
    ]
    steps = [filled(ScaleStep, row=2, scale="K", grade=Decimal(g), percent=Decimal(p)) for g, p in SCALE.items()]
    return {"premiums": tuple(premiums), "rates": tuple(listed), "indexes": tuple(points), "scales": tuple(steps)}


@dataclass(frozen=True)
class Setting:
    """One way of working: tables and terms as records and as the oracle's world."""

    tables: Any
    terms: ValueTerms
    world: World
    prices: dict[int, Fraction | None] = field(default_factory=dict)

    def price(self, drawn: Drawn) -> Fraction | None:
        """Return the oracle's market price of a sale, worked out once."""
        number = drawn.sale.row
        if number not in self.prices:
            self.prices[number] = market_price(self.world, drawn.spec)
        return self.prices[number]


def settings(rates: dict[tuple[str, date], tuple[str, bool]]) -> list[Setting]:
    """Return every combination of the modes."""
    rows = table_rows(rates)
    world = World(
        effective=EFFECTIVE,
        premiums={
            table + currency: [
                (first, last, [(Fraction(u) if u else None, Fraction(r)) for u, r in TIERS[table]], Fraction(tax))
                for name, first, last, tax in TABLES
                if name == table
            ]
            for table in TIERS
            for currency in CURRENCIES
        },
        rates={key: (Fraction(text), times) for key, (text, times) in rates.items()},
        index=[((int(line[:4]), int(line[5:7])), Fraction(line.split()[1])) for line in INDEX],
        carry=True,
        scale={grade: Fraction(text) for grade, text in SCALE.items()},
        multiply_deductions=True,
        multiply_adjustments=True,
        floor=Fraction(20),
        whole_price=False,
        target="all-in",
        tax_in=True,
    )
    found = []
    for code in range(32):
        multiply_deductions, multiply_adjustments, whole, hammer, tax_out = (bool(code >> bit & 1) for bit in range(5))
        terms = filled(
            Assignment,
            currency="USD",
            effective_date=EFFECTIVE,
            combine_deductions=Combine.MULTIPLY if multiply_deductions else Combine.ADD,
            combine_adjustments=Combine.MULTIPLY if multiply_adjustments else Combine.ADD,
            originality_floor=Decimal(20),
            premium_tiers=PremiumTiers.WHOLE_PRICE if whole else PremiumTiers.MARGINAL,
        )
        tables, findings = build_tables(Job(assignment=terms, **rows))
        assert findings == ()
        values = filled(
            ValueTerms,
            value_type=ValueType.FAIR_MARKET,
            price_basis=PriceBasis.HAMMER if hammer else PriceBasis.ALL_IN,
            premium_tax=PremiumTax.OUT if tax_out else PremiumTax.IN,
        )
        own = replace(
            world,
            multiply_deductions=multiply_deductions,
            multiply_adjustments=multiply_adjustments,
            whole_price=whole,
            target="hammer" if hammer else "all-in",
            tax_in=not tax_out,
        )
        found.append(Setting(tables, values, own))
    return found


def found_by(valuation: Valuation) -> Answer:
    """Return what valuing found, in the oracle's form."""

    def number(name: str) -> Fraction | None:
        outcome = valuation.figures.get(name)
        return Fraction(outcome.number) if isinstance(outcome, Figure) else None

    rounded = valuation.rounded
    return Answer(
        number("mean"),
        number("median"),
        number("low"),
        number("high"),
        Fraction(rounded.number) if isinstance(rounded, Figure) else None,
    )


def usable(drawn: Sequence[Drawn], setting: Setting) -> list[Drawn]:
    """Leave out what the oracle does not know: an all-in price whose premium must be undone."""
    if setting.world.target == "all-in" and setting.world.tax_in:
        return list(drawn)
    return [one for one in drawn if one.spec["kind"] != "all-in"]


@pytest.mark.parametrize("seed", [1934, 1959])
def test_ten_thousand_items_equal_the_oracle_in_fractions(seed: int) -> None:
    rng = random.Random(seed)
    rates = draw_rates(rng)
    pool = [draw(rng, number) for number in range(2, POOL + 2)]
    sales = {str(one.sale.id): one.sale for one in pool}
    ways = settings(rates)
    ties = refused = 0
    for number in range(ITEMS // 2):
        way = ways[rng.randrange(len(ways))]
        drawn = usable(rng.sample(pool, COMPARISONS), way)
        grade = rng.randint(5, 10)
        deductions = rng.choice([[], ["4", "5"], ["50"], ["50", "10", "33.3"]])
        conclude = rng.choice(["mean", "median"])
        item = filled(Item, row=number, id=f"i{number}", grade=Decimal(grade), scale="K", index="X")
        parts = [filled(Part, row=2, item=f"i{number}", deduction=Decimal(one)) for one in deductions]
        conclusion = Conclusion.MEAN if conclude == "mean" else Conclusion.MEDIAN
        valuation = value_item(
            way.tables,
            item,
            parts,
            [one.comparison for one in drawn],
            sales,
            None,
            replace(way.terms, conclusion=conclusion),
            None,
            Ledger("i"),
        )
        subject = {"grade": grade, "deductions": [Fraction(one) for one in deductions]}
        priced = [(one.spec, way.price(one)) for one in drawn]
        expected = answer(way.world, subject, priced, conclude)
        assert found_by(valuation) == expected, f"item {number}"
        kind = valuation.figures.get("median_kind")
        ties += isinstance(kind, Figure) and kind.value == "tie"
        refused += sum(not isinstance(one.adjusted, Figure) for one in valuation.comparisons)
    assert ties > ITEMS // 100
    assert refused > ITEMS
