"""Cases of the checks in `appraise/checks/comparability.py`."""

from dataclasses import replace
from datetime import date

from support.checks import (
    RRV,
    Case,
    D,
    added,
    changed,
    copied,
    insurance_job,
    sold,
    valuation,
    with_results,
)

from appraise.checks.context import CheckContext, ItemResults
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.dating import ModelPeriod
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.vocabulary import Compare, FinishClass, Market, PartState, PriceKind, Route


def at(key: str, row: int = 2) -> Place:
    return Place("Comparisons", row, key)


def asked(job: Job, **line: object) -> Job:
    """The first sale as an asking price."""
    return changed(changed(job, "sales", 0, kind=PriceKind.ASKING), "comparisons", 0, **line)


def asked_and_sold(job: Job, discount: str) -> Job:
    """An object first asked for and then sold 10 percent below, and the first sale an asking price."""
    job = copied(job, "sales", 0, id="S004", serial="77", kind=PriceKind.ASKING, price=D(10000), day=date(2023, 1, 2))
    job = copied(
        job,
        "sales",
        0,
        id="S005",
        serial="77",
        kind=PriceKind.DEALER_SOLD,
        market=Market.DEALER_RETAIL,
        price=D(9000),
        day=date(2023, 3, 2),
    )
    return asked(job, discount=D(discount), discount_reason="asked and sold prices of this list")


def second_archtop(job: Job, model: str) -> Job:
    """The second item made an archtop of the same maker, with the first sale used for it too."""
    job = changed(
        job, "items", 1, maker="Skarvholm", model=model, finish_class=FinishClass.ORIGINAL, grade=D(8), serial="9"
    )
    job = copied(job, "parts", 1, item="A01")
    same = {} if model == "Consul 17" else {"configuration": D(-5), "configuration_reason": "plainer model"}
    return copied(job, "comparisons", 0, id="c4", item="A01", sale="S001", **same)


def nets(context: CheckContext, *percents: str) -> CheckContext:
    """The context in which the comparisons of the first item have these net adjustments."""
    return with_results(context, G01=ItemResults(valuations=(valuation("G01", rounded="24200", nets=percents),)))


def golden(job: Job, reason: str) -> Job:
    """A model period of the first item, and a configuration step with that reason."""
    period = filled(ModelPeriod, row=2, maker="Skarvholm", model="Consul 17", effect=D(20))
    job = added(job, "model_periods", period)
    return changed(job, "comparisons", 0, configuration=D(-5), configuration_reason=reason)


CASES = [
    Case(
        "CPR-01",
        lambda j: changed(j, "comparisons", 0, other=D(-3)),
        lambda j: changed(j, "comparisons", 0, other=D(0)),
        at("other_reason"),
        "-3",
        ("G01", "c1"),
    ),
    Case(
        "CPR-01",
        lambda j: changed(j, "comparisons", 0, deductions="4; 10"),
        lambda j: changed(j, "comparisons", 0, deductions="4; 10", deductions_reason="tuners; later nut"),
        at("deductions_reason"),
        "4; 10",
        ("G01", "c1"),
    ),
    Case(
        "CPR-02",
        lambda j: refinished_subject(j),
        lambda j: changed(refinished_subject(j), "sales", 1, finish_class=FinishClass.OVERSPRAYED),
        Place("Items", 2, "finish_class"),
        "refinish in another colour",
        ("G01",),
    ),
    Case(
        "CPR-03",
        lambda j: sold(j, 0, kind=PriceKind.DEALER_SOLD, market=Market.DEALER_RETAIL),
        lambda j: changed(
            sold(j, 0, kind=PriceKind.DEALER_SOLD, market=Market.DEALER_RETAIL),
            "comparisons",
            0,
            level=D(-15),
            level_reason="own pairs",
        ),
        at("level"),
        "dealer retail",
        ("G01", "c1"),
    ),
    Case(
        "CPR-04",
        lambda j: changed(j, "comparisons", 0, level=D(-15), level_reason="own pairs"),
        lambda j: changed(j, "comparisons", 0, level=D(0)),
        at("level"),
        "-15",
        ("G01", "c1"),
    ),
    Case(
        "CPR-05",
        lambda j: all_typed(j, D(5)),
        lambda j: all_typed(j, D(-5)),
        at("condition"),
        "5",
        ("G01", "c1"),
    ),
    Case(
        "CPR-06",
        lambda j: changed(
            j, "comparisons", 0, configuration=D(5), configuration_reason="plain", by_configuration=Compare.BETTER
        ),
        lambda j: changed(
            j, "comparisons", 0, configuration=D(5), configuration_reason="plain", by_configuration=Compare.POORER
        ),
        at("configuration"),
        "5",
        ("G01", "c1"),
    ),
    Case(
        "CPR-07",
        lambda j: j,
        lambda j: j,
        Place("Items", 2, "id"),
        "better",
        ("G01",),
        context=lambda c: nets(c, "-4.00", "-3.50", "-6.10"),
        near_context=lambda c: nets(c, "-4.00", "0.00", "-6.10"),
    ),
    Case(
        "CPR-08",
        lambda j: second_archtop(j, "Reeve 15"),
        lambda j: second_archtop(j, "Consul 17"),
        at("sale", 5),
        "S001",
        ("S001", "G01", "A01"),
    ),
    Case(
        "CPR-09",
        lambda j: copied(j, "comparisons", 0, id="c4"),
        lambda j: copied(j, "comparisons", 0, id="c4", weight=D(0)),
        at("sale", 5),
        "S001",
        ("G01", "c1", "c4"),
    ),
    Case(
        "CPR-10",
        lambda j: changed(j, "sales", 1, serial="2190"),
        lambda j: changed(changed(j, "sales", 1, serial="2190"), "comparisons", 1, weight=D(0)),
        at("sale", 3),
        "S002",
        ("G01", "c1", "c2"),
    ),
    Case(
        "CPR-11",
        lambda j: changed(j, "sales", 0, model="Reeve 15"),
        lambda j: changed(j, "sales", 0, model="CONSUL-17"),
        at("configuration"),
        "Skarvholm Reeve 15",
        ("G01", "c1"),
    ),
    Case(
        "CPR-12",
        lambda j: changed(j, "sales", 0, grade=D("9.5")),
        lambda j: changed(j, "sales", 0, grade=D(9)),
        Place("Sales", 2, "grade"),
        "9.5",
        ("G01", "c1"),
    ),
    Case(
        "CPR-13",
        lambda j: changed(j, "comparisons", 0, condition=D(-5), condition_reason="cleaner"),
        lambda j: all_typed(j, D(-5)),
        at("condition"),
        "-5",
        ("G01", "c1"),
    ),
    Case(
        "CPR-14",
        lambda j: twice(j, "original case kept"),
        lambda j: twice(j, "letter of the first owner"),
        at(""),
        "case",
        ("G01", "c1"),
    ),
    Case(
        "CPR-15",
        lambda j: golden(j, "a better year"),
        lambda j: golden(j, "scarcer natural finish"),
        at("configuration_reason"),
        "year",
        ("G01", "c1"),
    ),
    Case(
        "CPR-16",
        lambda j: asked(j),
        lambda j: asked(j, discount=D(0)),
        at("discount"),
        "",
        ("G01", "c1"),
    ),
    Case(
        "CPR-17",
        lambda j: changed(j, "comparisons", 0, discount=D(10), discount_reason="own pairs"),
        lambda j: changed(j, "comparisons", 0, discount=D(0)),
        at("discount"),
        "10",
        ("G01", "c1"),
    ),
    Case(
        "CPR-18",
        lambda j: asked_and_sold(j, "12"),
        lambda j: asked_and_sold(j, "10"),
        at("discount"),
        "12",
        ("G01", "c1"),
    ),
    Case(
        "CPR-19",
        lambda j: copied(j, "comparisons", 0, id="c4", value_type=RRV),
        lambda j: copied(insurance_job(), "comparisons", 0, id="c4", weight=D(0)),
        at("value_type", 5),
        "retail replacement value",
        ("G01", "c4"),
    ),
    Case(
        "CPR-20",
        lambda j: replace(j, indexes=tuple(replace(one, market=Market.DEALER_RETAIL) for one in j.indexes)),
        lambda j: changed(
            replace(j, indexes=tuple(replace(one, market=Market.DEALER_RETAIL) for one in j.indexes)),
            "items",
            0,
            index=BLANK,
        ),
        Place("Items", 2, "index"),
        "ARCH",
        ("G01",),
    ),
    Case(
        "CPR-21",
        lambda j: changed(j, "sales", 0, buyer="a dealer, for stock"),
        lambda j: changed(j, "sales", 0, buyer="a collector"),
        Place("Sales", 2, "buyer"),
        "a dealer, for stock",
        ("G01", "c1"),
    ),
    Case(
        "CPR-22",
        lambda j: changed(j, "sales", 0, seller="shop in liquidation"),
        lambda j: changed(j, "sales", 0, seller="an estate"),
        Place("Sales", 2, "seller"),
        "shop in liquidation",
        ("G01", "c1"),
    ),
    Case(
        "CPR-23",
        lambda j: changed(
            changed(j, "opinions", 0, route=Route.RELATIVE), "comparisons", 0, other=D(-3), other_reason="plain"
        ),
        lambda j: changed(
            changed(j, "opinions", 0, route=Route.RELATIVE), "comparisons", 0, by_condition=Compare.BETTER
        ),
        at("other"),
        "-3",
        ("G01", "c1"),
    ),
]


def refinished_subject(job: Job) -> Job:
    """The subject is refinished and charged for it; the sales are not."""
    job = changed(job, "items", 0, finish_class=FinishClass.REFINISH_OTHER)
    return changed(job, "parts", 0, deduction=D(50), deduction_reason="refinished", state=PartState.MODIFIED)


def all_typed(job: Job, first: D) -> Job:
    """Every condition step is typed: the first as given, the others 0."""
    for index, percent in enumerate((first, D(0), D(0))):
        job = changed(job, "comparisons", index, condition=percent, condition_reason="seen at the view")
    return job


def twice(job: Job, reason: str) -> Job:
    """A lump sum for the case, and a configuration step with another reason."""
    job = changed(job, "comparisons", 0, lump=D(-350), lump_reason="original case sold with it")
    return changed(job, "comparisons", 0, configuration=D(-2), configuration_reason=reason)
