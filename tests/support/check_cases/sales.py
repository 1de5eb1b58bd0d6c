"""Cases of the checks in `appraise/checks/sales.py`."""

from dataclasses import replace
from datetime import date

from support.checks import Case, D, added, changed, copied, sold

from appraise.model.missing import BLANK
from appraise.model.months import Months, month_number
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.items import HistoryLine
from appraise.records.job import Job
from appraise.records.vocabulary import History, Market, PriceKind


def own_sale(job: Job, **values: object) -> Job:
    """One more sale, of the first item itself, used by no comparison."""
    told = {"id": "S004", "serial": "2217", "day": date(2010, 5, 4), "price": D(9000), "is_subject": True, **values}
    return copied(job, "sales", 0, **told)


def in_history(job: Job) -> Job:
    """That sale told on Subject history."""
    line = filled(
        HistoryLine, row=4, item="G01", kind=History.SALE, day=date(2010, 5, 4), remark="too old to bear on the value"
    )
    return added(job, "history", line)


CASES = [
    Case(
        "SAL-01",
        lambda j: copied(j, "sales", 0, id="S004", kind=PriceKind.ALL_IN, price=D("26600.00")),
        lambda j: copied(j, "sales", 0, id="S004", serial="2191"),
        Place("Sales", 5, "id"),
        "S004",
        ("S001", "S004"),
    ),
    Case(
        "SAL-01",
        lambda j: copied(j, "sales", 0, id="S004", serial=BLANK, house="another list", day=date(2024, 3, 20)),
        lambda j: copied(j, "sales", 0, id="S004", serial=BLANK, house="another list", day=date(2024, 3, 24)),
        Place("Sales", 5, "id"),
        "S004",
        ("S001", "S004"),
    ),
    Case(
        "SAL-02",
        lambda j: own_sale(in_history(j), is_subject=False),
        lambda j: own_sale(in_history(j)),
        Place("Sales", 5, "is_subject"),
        "2217",
        ("G01", "S004"),
    ),
    Case(
        "SAL-03",
        own_sale,
        lambda j: own_sale(in_history(j)),
        Place("Sales", 5, "day"),
        "2010-05-04",
        ("G01", "S004"),
    ),
    Case(
        "SAL-04",
        lambda j: changed(j, "sales", 0, verified="not verified"),
        lambda j: changed(copied(j, "sales", 0, id="S004", serial="1", verified="not verified"), "sales", 0, lot="1"),
        Place("Sales", 2, "verified"),
        "not verified",
        ("G01", "S001"),
    ),
    Case(
        "SAL-05",
        lambda j: changed(j, "sales", 0, related=True),
        lambda j: changed(changed(j, "sales", 0, related=True), "comparisons", 0, weight=D(0)),
        Place("Sales", 2, "related"),
        "yes",
        ("G01", "S001"),
    ),
    Case(
        "SAL-06",
        lambda j: changed(changed(j, "sales", 0, market=Market.PRIVATE), "comparisons", 0, level=D(0)),
        lambda j: changed(sold(j, 0, kind=PriceKind.PRIVATE_SOLD, market=Market.PRIVATE), "comparisons", 0, level=D(0)),
        Place("Sales", 2, "market"),
        "private",
        ("S001",),
    ),
    Case(
        "SAL-07",
        lambda j: changed(j, "sales", 0, description="price including VAT"),
        lambda j: changed(j, "sales", 0, description="price including VAT", tax_included=D(0)),
        Place("Sales", 2, "tax_included"),
        "including VAT",
        ("S001",),
    ),
    Case(
        "SAL-08",
        lambda j: changed(j, "sales", 0, estimate_low=D(20000), estimate_high=D(15000)),
        lambda j: changed(j, "sales", 0, estimate_low=D(15000), estimate_high=D(15000)),
        Place("Sales", 2, "estimate_low"),
        "20000",
        ("S001",),
    ),
    Case(
        "SAL-09",
        lambda j: asked(j, evidence_file=BLANK),
        lambda j: asked(j),
        Place("Sales", 2, "evidence_file"),
        "",
        ("G01", "S001"),
    ),
    Case(
        "SAL-10",
        lambda j: changed(j, "sales", 0, day=date(2025, 2, 11), accessed=BLANK),
        lambda j: changed(j, "sales", 0, day=date(2025, 2, 10), accessed=BLANK),
        Place("Sales", 2, "day"),
        "2025-02-11",
        ("S001",),
    ),
    Case(
        "SAL-11",
        lambda j: j,
        lambda j: j,
        Place("Sales", 2, "day"),
        "2024-03-16",
        ("S001",),
        context=lambda c: replace(c, made={"S001": Months.between(month_number(2024, 4), None)}),
        near_context=lambda c: replace(c, made={"S001": Months.between(month_number(2024, 3), None)}),
    ),
    Case(
        "SAL-12",
        lambda j: changed(j, "sales", 0, accessed=date(2024, 3, 15)),
        lambda j: changed(j, "sales", 0, accessed=date(2024, 3, 16)),
        Place("Sales", 2, "accessed"),
        "2024-03-15",
        ("S001",),
    ),
    Case(
        "SAL-13",
        lambda j: changed(j, "sales", 0, estimate_low=D(15000), estimate_high=D(21000)),
        lambda j: changed(j, "sales", 0, estimate_low=D(15000), estimate_high=D(20000)),
        Place("Sales", 2, "price"),
        "21000.00",
        ("G01", "S001"),
    ),
]


def asked(job: Job, **values: object) -> Job:
    """The first sale as an asking price of a private seller, with discount and reason."""
    job = changed(job, "sales", 0, kind=PriceKind.ASKING, **values)
    return changed(job, "comparisons", 0, discount=D(10), discount_reason="asked and sold prices of this list")
