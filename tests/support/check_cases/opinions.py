"""Cases of the checks in `appraise/checks/opinions.py`."""

from dataclasses import replace
from datetime import date

from support.checks import (
    RRV,
    Case,
    D,
    assigned,
    changed,
    copied,
    division_job,
    expert_job,
    insurance_job,
    valuation,
    with_results,
    without,
)

from appraise.checks.context import CheckContext, ItemResults
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.job import Job
from appraise.records.vocabulary import Conclusion, Family, Market


def at(key: str, row: int = 2) -> Place:
    return Place("Opinions", row, key)


def two_types(job: Job) -> Job:
    """The job states fair market value and retail replacement value."""
    return copied(job, "value_terms", 0, value_type=RRV, market=Market.DEALER_RETAIL, **NOT_COMPARED)


NOT_COMPARED = {"sales_comparison": "not used: quotations are at hand", "cost_approach": "used"}


def valued(context: CheckContext, *pairs: tuple[str, str]) -> CheckContext:
    """The context in which the items are valued at these pairs of fair market and retail replacement value."""
    results = {
        key: ItemResults(
            valuations=(valuation(key, rounded=market), valuation(key, value_type=RRV, rounded=retail)),
        )
        for key, (market, retail) in zip(("G01", "A01", "G02"), pairs, strict=False)
    }
    return with_results(context, **results)


def three_items(job: Job) -> Job:
    """Two types of value for three items."""
    job = copied(two_types(job), "items", 0, id="G02", number="3", serial="2300")
    job = replace(
        job, photos=(*job.photos, *(replace(one, item="G02", file=f"2/{one.file}") for one in job.photos[:5]))
    )
    return copied(replace(job, parts=(*job.parts, replace(job.parts[1], item="G02"))), "history", 1, item="G02")


def ranging(context: CheckContext, rounded: str) -> CheckContext:
    """The context in which the first item's comparisons range from 22,100 to 26,800."""
    one = valuation("G01", rounded=rounded, low="22100", high="26800", nets=("-4.00", "3.50"))
    return with_results(context, G01=ItemResults(valuations=(one,)))


def bought(job: Job, day: date, price: str) -> Job:
    """The first item was bought on a day at a price."""
    return changed(job, "history", 0, day=day, price=D(price), currency="USD")


def british() -> Job:
    return assigned(division_job(), jurisdiction="GB")


def less(job: Job, reason: str, percent: int = -10) -> Job:
    return changed(job, "comparisons", 0, other=D(percent), other_reason=reason)


CASES = [
    Case(
        "OPN-01",
        lambda j: changed(j, "opinions", 1, source=BLANK),
        lambda j: changed(j, "opinions", 0, source=BLANK),
        at("source", 3),
        "850",
        ("A01",),
    ),
    Case(
        "OPN-02",
        lambda j: changed(j, "opinions", 0, typed_value=D(24000), typed_reason="seen so"),
        lambda j: changed(j, "opinions", 0, typed_value=D(24000), typed_reason="seen so", conclusion=Conclusion.TYPED),
        at("typed_value"),
        "24000",
        ("G01",),
    ),
    Case(
        "OPN-03",
        lambda j: changed(j, "opinions", 0, not_valued="left to another appraiser"),
        lambda j: changed(j, "opinions", 1, not_valued="not asked for", typed_value=BLANK, route=BLANK),
        at("not_valued"),
        "left to another appraiser",
        ("G01",),
    ),
    Case(
        "OPN-04",
        lambda j: copied(j, "opinions", 0),
        lambda j: without(copied(j, "opinions", 0), "opinions", 0),
        at("value_type", 4),
        "fair market value",
        ("G01",),
    ),
    Case(
        "OPN-05",
        lambda j: copied(j, "opinions", 0, value_type=RRV),
        lambda j: copied(two_types(expert_job()), "opinions", 0, value_type=RRV),
        at("value_type", 4),
        "retail replacement value",
        ("G01",),
    ),
    Case(
        "OPN-06",
        lambda j: changed(j, "opinions", 0, reconciliation="See the grid."),
        lambda j: changed(j, "opinions", 0, reconciliation="Nearest the second sale."),
        at("reconciliation"),
        "See the grid.",
        ("G01",),
    ),
    Case(
        "OPN-07",
        lambda j: several(j, 5),
        lambda j: several(j, 10),
        Place("Items", 3, "quantity"),
        "5",
        ("A01",),
    ),
    Case(
        "OPN-08",
        lambda j: changed(j, "opinions", 1, typed_value=D("1000.01")),
        lambda j: changed(j, "opinions", 1, typed_value=D(1000)),
        at("route", 3),
        "1000.01",
        ("A01",),
    ),
    Case(
        "OPN-09",
        lambda j: j,
        lambda j: j,
        Place("Items", 2, "id"),
        "24210",
        ("G01",),
        context=lambda c: ranging(c, "24210"),
        near_context=lambda c: ranging(c, "24200"),
    ),
    Case(
        "OPN-10",
        two_types,
        two_types,
        Place("Items", 2, "id"),
        "24100",
        ("G01",),
        expert_job,
        lambda c: valued(c, ("24200", "24100"), ("850", "850")),
        lambda c: valued(c, ("24200", "24200"), ("850", "900")),
    ),
    Case(
        "OPN-11",
        three_items,
        three_items,
        Place("Items", 2, "id"),
        "1.250",
        ("G01",),
        expert_job,
        lambda c: valued(c, ("24000", "30000"), ("800", "1000"), ("4000", "5000")),
        lambda c: valued(c, ("24000", "30000"), ("800", "1000"), ("4000", "5100")),
    ),
    Case(
        "OPN-12",
        lambda j: bought(j, date(2022, 11, 15), "9500"),
        lambda j: bought(j, date(2022, 11, 14), "9500"),
        Place("Subject history", 2, "remark"),
        "9500",
        ("G01",),
    ),
    Case(
        "OPN-12",
        lambda j: bought(j, date(2024, 1, 15), "16000"),
        lambda j: bought(j, date(2024, 1, 15), "17000"),
        Place("Subject history", 2, "remark"),
        "16000",
        ("G01",),
    ),
    Case(
        "OPN-13",
        lambda j: without(j, "market_notes", 1),
        lambda j: changed(without(j, "market_notes", 1), "items", 1, family=Family.ARCHTOP),
        Place("Items", 3, "family"),
        "tube amplifier",
        ("A01",),
    ),
    Case(
        "OPN-14",
        lambda j: less(j, "for the quantity sold at once"),
        lambda j: less(j, "for the quantity sold at once", 10),
        Place("Comparisons", 2, "other_reason"),
        "quantity",
        ("G01", "c1"),
        british,
    ),
    Case(
        "OPN-15",
        lambda j: less(j, "the house's commission"),
        lambda j: changed(
            less(insurance_job(), "the house's commission"), "sales", 0, description="sold with its commission"
        ),
        Place("Comparisons", 2, "other_reason"),
        "commission",
        ("G01", "c1"),
    ),
]


def several(job: Job, quantity: int) -> Job:
    """The second item is so many articles on one line."""
    return changed(job, "items", 1, quantity=D(quantity), serial="none")
