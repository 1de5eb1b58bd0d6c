"""Alternate valuation date: which day, which figure, which total."""

from datetime import date
from decimal import Decimal

import pytest
from support.figures import codes, number, reasons
from support.valuing import records_of

from appraise.model.figure import Figure
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.alternate import AlternateLine, CounselFigures
from appraise.records.assignment import Assignment
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.tables import INDEXES, PREMIUMS
from appraise.records.vocabulary import Departure, PriceKind
from appraise.valuing.methods.alternate_date import alternate_value, estate_days, share_findings, totals
from appraise.valuing.tables import JobTables, build_tables
from appraise.valuing.working import Worked

DEATH = Place("Assignment", 0, "death_date")


def tables() -> JobTables:
    job = Job(
        assignment=filled(Assignment, currency="USD"),
        premiums=records_of(
            PREMIUMS,
            """
            table | house          | currency | valid_from | up_to | rate | tax
            B     | Marrowby Rooms | USD      | 2020-01-01 |       | 25   | 20
            G     | Marrowby Rooms | GBP      | 2020-01-01 |       | 25   | 20
            END   | Marrowby Rooms | USD      | 2020-01-01 | 100   | 25   | 20
            """,
        ),
        indexes=records_of(
            INDEXES,
            """
            index | month   | figure | carry_last
            ARCH  | 2023-02 | 100    | no
            ARCH  | 2023-08 | 90     | no
            OLD   | 2022-01 | 100    | yes
            """,
        ),
    )
    return build_tables(job)[0]


def line(**values: object) -> AlternateLine:
    usual: dict[str, object] = {"id": "a1", "item": "G1", "at_death": Decimal(40000), "departure": Departure.HELD}
    return filled(AlternateLine, row=2, **{**usual, **values})


def valued(death: date = date(2023, 2, 10), **values: object) -> Worked:
    days = estate_days(Ledger("T"), death, DEATH)
    assert days is not None
    return alternate_value(RecordingLedger("T"), line(**values), days=days, tables=tables(), currency="USD")


def day_of(worked: Worked) -> object:
    figure = worked["date"]
    assert isinstance(figure, Figure)
    return figure.value


@pytest.mark.parametrize(
    ("departure", "day", "valued_on"),
    [
        (Departure.SOLD, date(2023, 7, 25), date(2023, 7, 25)),
        (Departure.HELD, BLANK, date(2023, 8, 10)),
        (Departure.SOLD, date(2023, 9, 1), date(2023, 8, 10)),
        (Departure.SOLD, date(2023, 8, 9), date(2023, 8, 9)),
        (Departure.SOLD, date(2023, 8, 10), date(2023, 8, 10)),
        (Departure.SOLD, date(2023, 8, 11), date(2023, 8, 10)),
    ],
)
def test_which_day_26_cfr_20_2032_1(departure: Departure, day: object, valued_on: date) -> None:
    """26 CFR 20.2032-1(a): death 2023-02-10, sold 2023-07-25, kept, sold 2023-09-01; and the days around the edge."""
    assert day_of(valued(departure=departure, day=day, appraised=Decimal(39000))) == valued_on


def test_totals_and_the_first_test_of_section_2032_c() -> None:
    """Two objects 40000 and 60000 at death, 46000 and 51000 then: the total falls by 3000, the first test is met."""
    pairs = [("40000", "46000"), ("60000", "51000")]
    lines = [valued(at_death=Decimal(death), appraised=Decimal(then)) for death, then in pairs]
    counsel = filled(CounselFigures, other_at_death=Decimal(0), other_alternate=Decimal(0))
    worked = totals(Ledger("T"), lines, counsel, currency="USD")
    assert number(worked["gross_estate_decrease"]) == Decimal("3000.00")
    assert _text(worked, "value_test_met") == "yes"


@pytest.mark.parametrize(("other", "met"), [("999.99", "yes"), ("1000", "no"), ("1000.01", "no")])
def test_the_gross_estate_must_be_strictly_lower(other: str, met: str) -> None:
    counsel = filled(CounselFigures, other_at_death=Decimal(1000), other_alternate=Decimal(other))
    worked = totals(Ledger("T"), [valued(at_death=Decimal(100), appraised=Decimal(100))], counsel, currency="USD")
    assert _text(worked, "value_test_met") == met


def test_without_counsels_figures_no_test_is_printed() -> None:
    worked = totals(Ledger("T"), [valued(appraised=Decimal(1))], filled(CounselFigures), currency="USD")
    assert "value_test_met" not in worked.figures
    half = filled(CounselFigures, other_at_death=Decimal(1000))
    one_sided = totals(Ledger("T"), [valued(appraised=Decimal(1))], half, currency="USD")
    assert reasons(one_sided["value_test_met"]) == ["ALT-01"]


def test_a_hammer_price_with_premium_and_its_tax_is_the_value_to_the_cent() -> None:
    worked = valued(
        departure=Departure.SOLD,
        day=date(2023, 5, 2),
        price=Decimal("1234.56"),
        price_kind=PriceKind.HAMMER,
        premium_table="B",
        arms_length=True,
    )
    assert number(worked["premium"]) == Decimal("308.64")
    assert number(worked["premium_tax"]) == Decimal("61.73")
    assert number(worked["alternate_reported"]) == Decimal("1604.93")


@pytest.mark.parametrize(("kept", "day"), [(True, date(2023, 8, 1)), (False, date(2023, 8, 10))])
def test_a_contract_counts_unless_it_is_not_carried_out(kept: bool, day: date) -> None:
    worked = valued(
        departure=Departure.SOLD,
        day=date(2023, 8, 20),
        contract_day=date(2023, 8, 1),
        contract_kept=kept,
        price=Decimal(30000),
        price_kind=PriceKind.PRIVATE_SOLD,
        arms_length=True,
        appraised=Decimal(31000),
    )
    assert day_of(worked) == day


def test_a_contract_of_which_it_is_not_said_is_asked_about() -> None:
    worked = valued(
        departure=Departure.SOLD, day=date(2023, 8, 20), contract_day=date(2023, 8, 1), appraised=Decimal(1)
    )
    assert codes(worked) == ["ALT-02"]


def test_a_price_not_at_arms_length_is_not_the_value() -> None:
    worked = valued(
        departure=Departure.SOLD,
        day=date(2023, 5, 2),
        price=Decimal(10),
        price_kind=PriceKind.PRIVATE_SOLD,
        arms_length=False,
        appraised=Decimal(39040),
    )
    assert number(worked["alternate"]) == Decimal("39040.00")
    assert number(worked["alternate_reported"]) == 39000
    assert codes(worked) == ["ALT-04"]


def test_a_later_sale_is_shown_against_the_opinion() -> None:
    worked = valued(departure=Departure.SOLD, day=date(2023, 9, 1), price=Decimal(16000), appraised=Decimal(17750))
    assert [(one.code, one.found) for one in worked.findings] == [("ALT-03", "16000")]


def test_rolled_by_index() -> None:
    worked = valued(index="ARCH")
    assert number(worked["factor"]) == Decimal("0.900000")
    assert number(worked["alternate"]) == Decimal("36000.00")
    assert codes(valued(index="OLD")) == ["ALT-10"]


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"index": "NONE"}, "ALT-07"),
        ({"index": "ARCH", "death": date(2023, 1, 31)}, "ALT-08"),
        ({}, "ALT-09"),
        ({"departure": BLANK, "appraised": Decimal(1)}, "ALT-01"),
        ({"departure": Departure.SOLD, "appraised": Decimal(1)}, "ALT-01"),
        (
            {
                "departure": Departure.SOLD,
                "day": date(2023, 5, 2),
                "price": Decimal(5),
                "price_kind": PriceKind.HAMMER,
                "premium_table": "X",
                "arms_length": True,
            },
            "ALT-06",
        ),
        ({"departure": Departure.SOLD, "day": date(2023, 2, 9), "appraised": Decimal(1)}, "ALT-13"),
    ],
)
def test_what_cannot_be_worked_out_says_why(values: dict[str, object], code: str) -> None:
    worked = valued(**values)  # type: ignore[arg-type]
    assert reasons(worked["alternate"]) == [code]
    assert reasons(worked["alternate_reported"]) == [code]


@pytest.mark.parametrize(("table", "code"), [("G", "ALT-14"), ("END", "ALT-15"), ("B", None)])
def test_a_premium_table_must_fit_the_price(table: str, code: str | None) -> None:
    worked = valued(
        departure=Departure.SOLD,
        day=date(2023, 5, 2),
        price=Decimal(500),
        price_kind=PriceKind.HAMMER,
        premium_table=table,
        arms_length=True,
    )
    if code is None:
        assert number(worked["alternate"]) == Decimal("650.00")
    else:
        assert reasons(worked["alternate"]) == [code]


def test_parts_of_an_item_make_a_hundred() -> None:
    good = [line(share=Decimal(60)), line(share=Decimal(40))]
    assert share_findings(good) == ()
    assert share_findings([line()]) == ()
    short = [line(share=Decimal(60)), line(share=Decimal(30))]
    assert [(one.code, one.found) for one in share_findings(short)] == [("ALT-11", "90")]
    assert [one.code for one in share_findings([line(), line()])] == ["ALT-11"]


def test_a_part_takes_its_share_of_the_concluded_value() -> None:
    days = estate_days(Ledger("T"), date(2023, 2, 10), DEATH)
    assert days is not None
    concluded = Ledger("G1").typed("value", Decimal("1000.01"))
    worked = alternate_value(
        Ledger("T"),
        line(at_death=BLANK, share=Decimal(50), appraised=Decimal(400)),
        days=days,
        tables=tables(),
        at_death=concluded,
        currency="USD",
    )
    assert number(worked["at_death"]) == Decimal("500.01")


def test_no_death_no_days() -> None:
    assert estate_days(Ledger("T"), BLANK, DEATH) is None


def _text(worked: Worked, name: str) -> object:
    figure = worked[name]
    assert isinstance(figure, Figure)
    return figure.value
