"""The appraiser's tables: what is in force, what lies between, and what is wrong with a table itself."""

from datetime import date
from decimal import Decimal

import pytest
from support.valuing import records_of

from appraise.findings.entries import Severity, entry_of, message
from appraise.model.finding import Finding
from appraise.model.months import month_number
from appraise.model.place import Place
from appraise.records.dating import MODEL_PERIODS
from appraise.records.tables import INDEXES, PREMIUMS, RATES, SCALES
from appraise.valuing.lookup.indexes import indexes
from appraise.valuing.lookup.periods import model_periods
from appraise.valuing.lookup.premiums import premium_tables
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.lookup.scales import scales


def said(findings: list[Finding]) -> list[tuple[str, Place]]:
    """Return code and place of findings; every one must fill its sentence."""
    assert all("{" not in message(one) for one in findings)
    return [(one.code, one.place) for one in findings]


TWO_PERIODS = """
    table | house          | currency | valid_from | valid_to   | up_to | rate | tax
    A     | Marrowby Rooms | USD      | 2020-01-01 | 2024-06-30 | 10000 | 28   | 0
    A     | Marrowby Rooms | USD      | 2020-01-01 | 2024-06-30 |       | 22   |
    A     | Marrowby Rooms | USD      | 2024-07-01 |            |       | 30   | 5
"""


@pytest.mark.parametrize(
    ("day", "rates"),
    [
        (date(2019, 12, 31), None),
        (date(2020, 1, 1), "28 22"),
        (date(2024, 6, 30), "28 22"),
        (date(2024, 7, 1), "30"),
        (date(2031, 1, 1), "30"),
    ],
)
def test_premium_table_in_force_on_a_day(day: date, rates: str | None) -> None:
    tables, findings = premium_tables(records_of(PREMIUMS, TWO_PERIODS))
    assert findings == []
    found = tables.in_force("A", day)
    assert (None if found is None else " ".join(str(tier.rate) for tier in found.tiers)) == rates


@pytest.mark.parametrize(
    ("rows", "code", "column", "row"),
    [
        (
            "A | H | USD | 2020-01-01 | | 5000 | 30 | 0\nA | H | USD | 2020-01-01 | | 4000 | 25 | 0",
            "TBL-02",
            "up_to",
            3,
        ),
        ("A | H | USD | 2020-01-01 | | | 30 | 0\nA | H | USD | 2020-01-01 | | 4000 | 25 | 0", "TBL-02", "up_to", 3),
        ("A | H | USD | 2020-01-01 | | | 30 | 0\nA | H | USD | 2024-01-01 | | | 25 | 0", "TBL-03", "valid_from", 3),
        ("A | H | USD | 2020-01-01 | | 9 | 30 | 0\nA | H | EUR | 2020-01-01 | | | 25 | 0", "TBL-04", "currency", 3),
        ("A | H | USD | 2020-01-01 | | 9 | 30 | 5\nA | H | USD | 2020-01-01 | | | 25 | 7", "TBL-04", "tax", 3),
        ("A | H | USD | 2020-01-01 | | | | 0", "TBL-01", "rate", 2),
        ("A | H | USD | | | | 30 | 0", "TBL-01", "valid_from", 2),
    ],
)
def test_premium_table_that_cannot_be_right(rows: str, code: str, column: str, row: int) -> None:
    keys = "table | house | currency | valid_from | valid_to | up_to | rate | tax\n"
    _, findings = premium_tables(records_of(PREMIUMS, keys + rows))
    assert said(findings) == [(code, Place("Premiums", row, column))]


RATES_DRAWN = """
    currency | day        | rate   | direction
    GBP      | 2024-03-08 | 1.2800 | report currency per foreign unit
    GBP      | 2024-03-01 | 1.2700 | report currency per foreign unit
    JPY      | 2024-03-01 | 150.25 | foreign units per report unit
"""


@pytest.mark.parametrize(
    ("currency", "day", "found"),
    [
        ("GBP", date(2024, 2, 29), None),
        ("GBP", date(2024, 3, 1), "1.2700"),
        ("GBP", date(2024, 3, 7), "1.2700"),
        ("GBP", date(2024, 3, 8), "1.2800"),
        ("GBP", date(2024, 3, 15), "1.2800"),  # seven days back
        ("GBP", date(2024, 3, 16), None),  # eight
        ("JPY", date(2024, 3, 4), "150.25"),
        ("EUR", date(2024, 3, 1), None),
    ],
)
def test_rate_of_a_day_or_of_one_of_the_seven_days_before(currency: str, day: date, found: str | None) -> None:
    table, findings = rate_table(records_of(RATES, RATES_DRAWN))
    assert findings == []
    rate = table.on(currency, day)
    assert (None if rate is None else str(rate.rate)) == found


def test_rates_that_cannot_be_right() -> None:
    rows = (
        RATES_DRAWN
        + """
    GBP      | 2024-03-01 | 1.2701 | report currency per foreign unit
    JPY      | 2024-03-02 | 0      | foreign units per report unit
    JPY      |            | 151    | foreign units per report unit
    """
    )
    table, findings = rate_table(records_of(RATES, rows))
    assert said(findings) == [
        ("TBL-12", Place("Rates", 5, "rate")),
        ("TBL-11", Place("Rates", 6, "rate")),
        ("TBL-01", Place("Rates", 7, "day")),
    ]
    first = table.on("GBP", date(2024, 3, 1))
    assert first is not None
    assert first.rate == Decimal("1.2700")


def test_index_between_before_and_after_its_points() -> None:
    drawn = "index | month | figure | carry_last\nX | 2024-07 | 110 | \nX | 2024-01 | 100 | \nY | 2024-01 | 50 | yes"
    found, findings = indexes(records_of(INDEXES, drawn))
    assert findings == []
    x, y = found.get("X"), found.get("Y")
    assert x is not None
    assert y is not None
    assert x.reading(month_number(2023, 12)) is None
    between = x.reading(month_number(2024, 3))
    assert between is not None
    assert (between.months, between.span, between.carried) == (2, 6, False)
    assert x.reading(month_number(2024, 8)) is None
    carried = y.reading(month_number(2030, 1))
    assert carried is not None
    assert carried.carried
    assert y.reading(month_number(2023, 12)) is None


def test_index_as_it_stood_at_a_month() -> None:
    drawn = "index | month | figure\nX | 2024-01 | 100\nX | 2024-07 | 110\nX | 2025-01 | 120"
    index = indexes(records_of(INDEXES, drawn))[0].get("X")
    assert index is not None
    assert index.known_by(month_number(2023, 12)) is None
    known = index.known_by(month_number(2024, 7))
    assert known is not None
    assert known.last == month_number(2024, 7)
    assert known.carry_last


@pytest.mark.parametrize(
    ("rows", "code", "column"),
    [
        ("X | 2024-13 | 100", "TBL-21", "month"),
        ("X | January 2024 | 100", "TBL-21", "month"),
        ("X | | 100", "TBL-21", "month"),
        ("X | 2024-01 | 0", "TBL-22", "figure"),
        ("X | 2024-01 |", "TBL-01", "figure"),
    ],
)
def test_index_point_that_cannot_be_right(rows: str, code: str, column: str) -> None:
    found, findings = indexes(records_of(INDEXES, f"index | month | figure\n{rows}"))
    assert said(findings) == [(code, Place("Indexes", 2, column))]
    assert found.get("X") is None


def test_two_figures_for_one_month() -> None:
    _, findings = indexes(records_of(INDEXES, "index | month | figure\nX | 2024-01 | 100\nX | 2024-1 | 101"))
    assert said(findings) == [("TBL-23", Place("Indexes", 3, "figure"))]


def drawn_scale(percents: str) -> tuple[tuple[str, Place], ...]:
    rows = "\n".join(f"K | {10 - number} | {percent}" for number, percent in enumerate(percents.split()))
    return tuple(said(scales(records_of(SCALES, f"scale | grade | percent\n{rows}"))[1]))


@pytest.mark.parametrize(
    ("percents", "expected"),
    [
        ("100 88 79 72 66 60 52 40", ()),  # steep at the top, flat in the middle, steep again at the bottom
        ("100 85 75 69 64 60 54 42", ()),
        ("100 95 85 75 70", (("TBL-34", Place("Scales", 3, "percent")),)),  # the second step is steeper
        ("100 90 80 70", (("TBL-34", Place("Scales", 3, "percent")),)),  # as steep: no first mark
        ("100 80 75 76 70", (("TBL-33", Place("Scales", 5, "percent")),)),  # rises as the grade falls
        ("100 80 80 70", ()),  # level is not rising
        ("100", ()),
        ("100 90", ()),
    ],
)
def test_shape_of_a_condition_scale(percents: str, expected: tuple[tuple[str, Place], ...]) -> None:
    assert drawn_scale(percents) == expected


def test_a_rising_scale_is_never_released_and_a_flat_top_warns() -> None:
    rising = scales(records_of(SCALES, "scale | grade | percent\nK | 10 | 90\nK | 9 | 95"))[1]
    flat = scales(records_of(SCALES, "scale | grade | percent\nK | 10 | 100\nK | 9 | 95\nK | 8 | 80"))[1]
    assert [entry_of(one).severity for one in rising] == [Severity.IMPOSSIBLE]
    assert [entry_of(one).severity for one in flat] == [Severity.WARN]


def test_scale_rows_that_cannot_be_right() -> None:
    rows = "scale | grade | percent\nK | 10 | 100\nK | 10 | 99\nK | 9 | 0\nK | 8 |"
    found, findings = scales(records_of(SCALES, rows))
    assert said(findings) == [
        ("TBL-32", Place("Scales", 3, "percent")),
        ("TBL-31", Place("Scales", 4, "percent")),
        ("TBL-01", Place("Scales", 5, "percent")),
    ]
    scale = found.get("K")
    assert scale is not None
    assert list(scale.steps) == [Decimal(10)]


@pytest.mark.parametrize(
    ("rows", "code", "column", "row"),
    [
        ("Skarvholm | Consul 17 | 1934 | 1939 | 1935 | 1942 | 20", "TBL-41", "inner_first", 2),
        ("Skarvholm | Consul 17 | 1934 | 1939 | 1931 | 1942 | -100", "TBL-42", "effect", 2),
        ("Skarvholm | Consul 17 | 1934 | 1939 | 1931 | | 20", "TBL-01", "outer_last", 2),
        (
            "Skarvholm | Consul 17 | 1934 | 1939 | 1931 | 1942 | 20\n"
            "SKARVHOLM | Consul  17 | 1934 | 1939 | 1931 | 1942 | 25",
            "TBL-43",
            "model",
            3,
        ),
    ],
)
def test_model_period_that_cannot_be_right(rows: str, code: str, column: str, row: int) -> None:
    keys = "maker | model | inner_first | inner_last | outer_first | outer_last | effect\n"
    _, findings = model_periods(records_of(MODEL_PERIODS, keys + rows))
    assert said(findings) == [(code, Place("Model periods", row, column))]
