"""An oracle for the sales comparison in exact fractions, written from the method rules and sharing no code with them.

A spec is a plain mapping of what was typed. The oracle rounds where a named figure is made and nowhere else.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from math import floor
from typing import Any

Spec = Mapping[str, Any]


def half_away(value: Fraction, places: int) -> Fraction:
    """Return a value rounded to decimals, ties away from zero."""
    scaled = abs(value) * 10**places
    whole = floor(scaled + Fraction(1, 2))
    return Fraction(whole if value >= 0 else -whole, 10**places)


@dataclass(frozen=True)
class World:
    """The tables and terms the oracle computes with.

    premiums  by id: (first day, last day or None, tiers of (upper or None, rate), tax)
    rates     by currency and day: (rate, multiply)
    index     (year, month) to figure, in order; `carry` the last one
    scale     grade to percent
    """

    effective: date
    premiums: Mapping[str, Sequence[tuple[date, date | None, Sequence[tuple[Fraction | None, Fraction]], Fraction]]]
    rates: Mapping[tuple[str, date], tuple[Fraction, bool]]
    index: Sequence[tuple[tuple[int, int], Fraction]]
    carry: bool
    scale: Mapping[int, Fraction]
    multiply_deductions: bool
    multiply_adjustments: bool
    floor: Fraction
    whole_price: bool
    target: str
    tax_in: bool


def premium(world: World, tiers: Sequence[tuple[Fraction | None, Fraction]], hammer: Fraction) -> Fraction:
    """Return the premium on a hammer price."""
    if world.whole_price:
        rate = next(rate for upper, rate in tiers if upper is None or hammer <= upper)
        return half_away(hammer * rate / 100, 2)
    total, lower = Fraction(0), Fraction(0)
    for upper, rate in tiers:
        end = hammer if upper is None else min(hammer, upper)
        total += half_away(max(end - lower, Fraction(0)) * rate / 100, 2)
        lower = upper if upper is not None else hammer
    return total


def index_at(world: World, year: int, month: int) -> Fraction | None:
    """Return the index of a month, None before the first point and after the last one that is not carried."""
    wanted = 12 * year + month
    points = [(12 * y + m, figure) for (y, m), figure in world.index]
    if wanted < points[0][0]:
        return None
    if wanted > points[-1][0]:
        return half_away(points[-1][1], 4) if world.carry else None
    for number, figure in points:
        if number == wanted:
            return half_away(figure, 4)
    after = next(k for k, (number, _) in enumerate(points) if number > wanted)
    (n0, i0), (n1, i1) = points[after - 1], points[after]
    return half_away(i0 + (i1 - i0) * Fraction(wanted - n0, n1 - n0), 4)


def originality(world: World, deductions: Sequence[Fraction]) -> Fraction:
    """Return the originality figure out of 100."""
    left = Fraction(100)
    for one in deductions:
        left = left * (1 - one / 100) if world.multiply_deductions else left - one
    return half_away(max(left, world.floor), 2)


def basis(world: World, sale: Spec) -> Fraction | None:
    """Return the price on the footing of the value, in its own currency; None where no table is in force."""
    price: Fraction = sale["price"]
    if sale["tax"]:
        price = half_away(price / (1 + sale["tax"] / 100), 2)
    if sale["kind"] == "asking" and sale["discount"]:
        return half_away(price * (1 - sale["discount"] / 100), 2)
    if sale["kind"] != "hammer" or world.target == "hammer":
        return price
    for first, last, tiers, tax in world.premiums[sale["table"]]:
        if first <= sale["day"] and (last is None or sale["day"] <= last):
            charged = premium(world, tiers, price)
            return price + charged + (half_away(charged * tax / 100, 2) if world.tax_in else 0)
    return None


def converted(world: World, sale: Spec, price: Fraction) -> Fraction | None:
    """Return the price in report currency, None where no rate is at most seven days old."""
    if sale["currency"] == "USD":
        return price
    for back in range(8):
        found = world.rates.get((sale["currency"], sale["day"] - timedelta(days=back)))
        if found is not None:
            return half_away(price * found[0] if found[1] else price / found[0], 2)
    return None


def market_price(world: World, sale: Spec) -> Fraction | None:
    """Return the price after basis, currency, market level and time, None where one of them cannot be done."""
    price = basis(world, sale)
    price = None if price is None else converted(world, sale, price)
    if price is None:
        return None
    if sale["level"]:
        price = half_away(price * (1 + sale["level"] / 100), 2)
    at_sale = index_at(world, sale["day"].year, sale["day"].month)
    at_date = index_at(world, world.effective.year, world.effective.month)
    if at_sale is None or at_date is None:
        return None
    return half_away(price * half_away(at_date / at_sale, 6), 2)


def adjusted(world: World, subject: Spec, sale: Spec, price: Fraction) -> Fraction | None:
    """Return the adjusted price of one comparison, None where it is refused."""
    percents = [
        half_away(100 * (world.scale[subject["grade"]] / world.scale[sale["grade"]] - 1), 2),
        half_away(100 * (originality(world, subject["deductions"]) / originality(world, sale["deductions"]) - 1), 2),
        *(sale[key] for key in ("configuration", "provenance", "other") if sale[key]),
    ]
    factor = Fraction(1)
    for percent in percents:
        factor = factor * (1 + percent / 100) if world.multiply_adjustments else factor + percent / 100
    factor = half_away(factor, 6)
    if factor <= 0:
        return None
    result = half_away(price * factor, 2) + sale["lump"]
    return result if result > 0 else None


@dataclass(frozen=True)
class Answer:
    """What the oracle finds for one item; None where nothing is used."""

    mean: Fraction | None
    median: Fraction | None
    low: Fraction | None
    high: Fraction | None
    rounded: Fraction | None


def answer(
    world: World,
    subject: Spec,
    sales: Sequence[tuple[Spec, Fraction | None]],
    conclude: str,
) -> Answer:
    """Return mean, median, range and rounded value of one item; every sale comes with its market price."""
    used = [(adjusted(world, subject, sale, price), sale["weight"]) for sale, price in sales if price is not None]
    prices = sorted((price, weight) for price, weight in used if price is not None and weight > 0)
    if not prices:
        return Answer(None, None, None, None, None)
    total = sum(weight for _, weight in prices)
    mean = half_away(sum((price * weight for price, weight in prices), Fraction(0)) / total, 2)
    median = half_away(weighted_median(prices), 2)
    value = mean if conclude == "mean" else median
    return Answer(mean, median, prices[0][0], prices[-1][0], rounded(value))


def weighted_median(prices: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    """Return the weighted median of (price, weight) pairs in ascending order of price."""
    total = sum(weight for _, weight in prices)
    running = Fraction(0)
    for position, (price, weight) in enumerate(prices):
        running += weight
        if running * 2 == total:
            return (price + prices[position + 1][0]) / 2
        if running * 2 > total:
            return price
    raise AssertionError("the running weight ends at the total")


def rounded(value: Fraction) -> Fraction:
    """Return a value to the increment of its size."""
    steps = ((1000, 10), (10000, 50), (50000, 100), (250000, 500))
    step = next((one for below, one in steps if value < below), 1000)
    return half_away(value / step, 0) * step
