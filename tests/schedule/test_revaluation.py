"""One line of a schedule revalued: treatments, flags in their order, currency, market and type of value changed."""

from datetime import date
from decimal import Decimal

import pytest
from support.figures import number, reasons, typed
from support.valuing import records_of

from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.missing import BLANK, UNKNOWN, Missing
from appraise.model.place import Place
from appraise.records.assignment import Assignment
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.tables import INDEXES, RATES
from appraise.records.vocabulary import Market, Treatment, ValueType
from appraise.records.yearly import LineTreatment, YearlyTerms
from appraise.schedule.revaluation import RevaluedLine, Year, revalued, year_of
from appraise.valuing.tables import build_tables

EFFECTIVE = Place("Assignment", 0, "effective_date")


def the_year(effective: date | Missing = date(2025, 6, 30), currency: str = "USD", **terms: object) -> Year:
    job = Job(
        assignment=filled(Assignment, currency=currency),
        indexes=records_of(
            INDEXES,
            """
            index | month   | figure | carry_last | market
            UP    | 2023-06 | 100    | no         | dealer retail
            UP    | 2024-06 | 110    | no         | dealer retail
            UP    | 2025-06 | 121    | no         | dealer retail
            OLD   | 2024-01 | 94.0   | yes        | auction
            OLD   | 2025-01 | 91.5   | yes        | auction
            SHORT | 2024-01 | 94.0   | no         | auction
            """,
        ),
        rates=records_of(
            RATES,
            """
            currency | day        | rate | direction
            USD      | 2024-06-30 | 0.90 | report currency per foreign unit
            EUR      | 2025-06-27 | 1.10 | report currency per foreign unit
            """,
        ),
    )
    year = year_of(
        filled(YearlyTerms, **terms), build_tables(job)[0], effective=effective, place=EFFECTIVE, currency=currency
    )
    assert isinstance(year, Year)
    return year


def a_line(treatment: Treatment | Missing, **values: object) -> LineTreatment:
    usual: dict[str, object] = {
        "item": "G1",
        "value_type": ValueType.RETAIL_REPLACEMENT,
        "prior_day": date(2024, 6, 30),
        "prior_value": Decimal(10000),
        "prior_rounded": Decimal(10000),
        "inspected": date(2024, 6, 30),
        "rolled_years": Decimal(0),
        "owner_reply": True,
    }
    return filled(LineTreatment, row=2, treatment=treatment, **{**usual, **values})


def line(treatment: Treatment | Missing, year: Year | None = None, **values: object) -> RevaluedLine:
    return revalued(RecordingLedger("T"), a_line(treatment, **values), year or the_year())


def new(one: RevaluedLine) -> Decimal:
    assert one.new is not None
    return number(one.new)


def found(one: RevaluedLine) -> list[str]:
    return [finding.code for finding in one.findings]


def test_index_percent_and_hold() -> None:
    assert new(line(Treatment.INDEX, index="UP")) == Decimal("11000.00")
    assert new(line(Treatment.PERCENT, percent=Decimal("-2.5"))) == Decimal("9750.00")
    held = line(Treatment.HOLD)
    assert (new(held), held.flags) == (Decimal("10000.00"), ("held",))


def test_a_line_held_last_year_catches_up_over_the_whole_time() -> None:
    assert new(line(Treatment.INDEX, index="UP", prior_day=date(2023, 6, 30))) == Decimal("12100.00")


def test_rolled_from_the_value_before_rounding_or_flagged() -> None:
    assert new(line(Treatment.INDEX, index="UP", prior_value=Decimal("10020.40"))) == Decimal("11022.44")
    rounded = line(Treatment.INDEX, index="UP", prior_value=BLANK)
    assert (new(rounded), rounded.flags) == (Decimal("11000.00"), ("rolled from rounded",))
    assert line(Treatment.HOLD, prior_value=BLANK).flags == ("held",)


def test_fresh_comparables_from_the_workbook_or_typed() -> None:
    worked = revalued(RecordingLedger("T"), a_line(Treatment.FRESH), the_year(), fresh=typed("12847.63"))
    assert new(worked) == Decimal("12847.63")
    assert new(line(Treatment.FRESH, new_value=Decimal("5.5"))) == Decimal("5.50")
    missing = line(Treatment.FRESH)
    assert missing.new is not None and reasons(missing.new) == ["YRL-01"]


def test_foreign_fresh_comparables_take_the_rate_of_the_effective_date() -> None:
    """27 June is a Friday: three days before 30 June 2025."""
    worked = line(Treatment.FRESH, new_value=Decimal(10000), new_currency="EUR")
    assert new(worked) == Decimal("11000.00")
    assert found(worked) == ["YRL-10"]


def test_removed_and_added() -> None:
    removed = line(Treatment.REMOVED, removed_on=date(2025, 2, 14), inspected=BLANK)
    assert (removed.new, removed.new_rounded, removed.change, removed.flags) == (None, None, None, ())
    assert found(line(Treatment.REMOVED)) == ["YRL-11"]
    added = line(Treatment.ADDED, new_value=Decimal("7436.00"), prior_value=BLANK, prior_rounded=BLANK)
    assert (added.prior, added.change, new(added)) == (None, None, Decimal("7436.00"))


@pytest.mark.parametrize(
    ("inspected", "flags"),
    [
        (date(2022, 6, 29), ("re-inspect",)),
        (date(2022, 6, 30), ()),
        (date(2022, 7, 1), ()),
        (BLANK, ("re-inspect",)),
    ],
)
def test_due_only_after_the_interval(inspected: object, flags: tuple[str, ...]) -> None:
    assert line(Treatment.PERCENT, percent=Decimal(1), inspected=inspected).flags == flags


@pytest.mark.parametrize(("effective", "flags"), [(date(2024, 2, 29), ()), (date(2024, 3, 1), ("re-inspect",))])
def test_the_interval_is_clamped_to_the_months_end(effective: date, flags: tuple[str, ...]) -> None:
    year = the_year(effective, inspection_months=Decimal(6))
    assert line(Treatment.PERCENT, year, percent=Decimal(1), inspected=date(2023, 8, 31)).flags == flags


@pytest.mark.parametrize(("years", "flags"), [(1, ()), (2, ("fresh comparables",)), (3, ("fresh comparables",))])
def test_fresh_comparables_after_two_rolled_years(years: int, flags: tuple[str, ...]) -> None:
    assert line(Treatment.PERCENT, percent=Decimal(1), rolled_years=Decimal(years)).flags == flags
    assert line(Treatment.HOLD, rolled_years=Decimal(years)).flags == ("held",)


def test_flags_stand_in_the_order_of_the_rule() -> None:
    one = line(Treatment.INDEX, index="OLD", inspected=BLANK, rolled_years=Decimal(2), prior_value=BLANK)
    assert one.flags == ("re-inspect", "fresh comparables", "index carried", "rolled from rounded")


def test_a_prior_value_of_nothing_has_no_percent() -> None:
    ledger = RecordingLedger("T")
    revalued(ledger, a_line(Treatment.FRESH, prior_rounded=Decimal(0), new_value=Decimal(500)), the_year())
    assert ledger.figures["T.change_pct"].value == "n/a"
    assert ledger.figures["T.change"].number == 500


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"index": "NONE"}, "YRL-07"),
        ({"index": "SHORT", "prior_day": date(2024, 1, 5)}, "YRL-08"),
        ({"index": "UP", "prior_day": date(2020, 1, 1)}, "YRL-08"),
        ({"index": BLANK}, "YRL-01"),
        ({"index": "UP", "prior_day": BLANK}, "YRL-01"),
    ],
)
def test_what_cannot_be_rolled_says_why(values: dict[str, object], code: str) -> None:
    one = line(Treatment.INDEX, **values)
    assert one.new is not None and reasons(one.new) == [code]
    assert one.change is not None and reasons(one.change) == [code]


def test_no_treatment_no_value() -> None:
    one = line(BLANK)
    assert one.new is not None and reasons(one.new) == ["YRL-01"]


def test_currency_changed_restates_at_the_rate_of_the_prior_day() -> None:
    ledger = RecordingLedger("T")
    one = revalued(ledger, a_line(Treatment.INDEX, index="UP", prior_currency="USD"), the_year(currency="EUR"))
    assert number(ledger.figures["T.prior"]) == Decimal("9000.00")
    assert new(one) == Decimal("9900.00")
    assert one.change is not None and number(one.change) == 900


def test_a_currency_stated_unknown_is_not_the_report_s() -> None:
    rolled = line(Treatment.INDEX, index="UP", prior_currency=UNKNOWN)
    assert rolled.new is not None and reasons(rolled.new) == ["YRL-01"]
    fresh = line(Treatment.FRESH, new_value=Decimal(1000), new_currency=UNKNOWN)
    assert fresh.new is not None and reasons(fresh.new) == ["YRL-01"]


def test_an_interval_beyond_the_calendar_is_never_due() -> None:
    one = line(Treatment.HOLD, the_year(inspection_months=Decimal(10**9)), inspected=date(2023, 5, 12))
    assert one.flags == ("held",)


def test_market_or_value_type_changed_is_never_growth() -> None:
    market = line(Treatment.FRESH, new_value=Decimal(1), prior_market=Market.AUCTION, market=Market.DEALER_RETAIL)
    assert (market.like_for_like, found(market)) == (False, ["YRL-16"])
    kind = line(Treatment.PERCENT, percent=Decimal(1), prior_value_type=ValueType.FAIR_MARKET)
    assert (kind.like_for_like, found(kind)) == (False, ["YRL-15", "YRL-17"])


def test_what_speaks_against_rolling() -> None:
    silent = line(Treatment.PERCENT, percent=Decimal(1), owner_reply=BLANK)
    assert found(silent) == ["YRL-13"]
    dear = line(Treatment.PERCENT, the_year(roll_limit=Decimal("9999.99")), percent=Decimal(1))
    assert found(dear) == ["YRL-14"]
    level = line(Treatment.INDEX, index="UP", prior_market=Market.AUCTION)
    assert found(level) == ["YRL-12"]


def test_no_effective_date_no_revaluation() -> None:
    outcome = year_of(
        filled(YearlyTerms),
        build_tables(Job(assignment=filled(Assignment)))[0],
        effective=BLANK,
        place=EFFECTIVE,
        currency="USD",
    )
    assert not isinstance(outcome, (Year, Figure))
    assert reasons(outcome) == ["YRL-18"]
