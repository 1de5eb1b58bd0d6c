"""Ratio statistics against the tables of the IAAO Standard on Ratio Studies (2013)."""

from decimal import Decimal
from fractions import Fraction

import pytest

from appraise.records.declare import filled
from appraise.records.learning import LaterSale
from appraise.records.vocabulary import Family, PriceKind, ValueType
from appraise.schedule.track_record import coverage_of_ranks, median_ranks, ratio_statistics, track_record

Pairs = list[tuple[Decimal, Decimal]]


def pairs(text: str) -> Pairs:
    typed = [pair.split("/") for pair in text.split()]
    return [(Decimal(value), Decimal(price)) for value, price in typed]


TABLE_1_1 = pairs(
    """
    48000/138000 28800/59250 78400/157500 39840/74400 68160/114900 94400/159000 67200/111900 56960/93000 87200/138720
    38240/59700 96320/146400 67680/99000 32960/47400 50560/70500 61360/78000 47360/60000 58080/69000 47040/55500
    136000/154500 103200/109500 59040/60000 168000/168000 128000/124500 132000/127500 160000/150000 160000/141000
    200000/171900 184000/157500 160000/129600 157200/126000 99200/77700 200000/153000 64000/48750 192000/144000
    190400/141000 65440/48000
    """
)
TABLE_D_1 = pairs(
    """
    116700/114500 130300/121000 130200/133900 145500/139000 134100/145000 153900/156500 143400/161100 156900/169500
    169000/175000 149200/181000 160100/188900 191400/205000 177200/216150 205500/219000 206500/235000 243800/249000
    211600/258900 242500/263000 258400/305900 265900/312500 305700/336000 291600/360000 312800/399900 352200/418500
    354900/459000
    """
)


def at(number: Decimal | None, printed: str) -> bool:
    assert number is not None
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return abs(number - Decimal(printed)) <= Decimal("0.5").scaleb(exponent)


def test_iaao_standard_on_ratio_studies_2013_table_1_1() -> None:
    """Table 1-1 as held in the test data of the package assesspy: COD 29.8, PRD 0.98, PRB 0.232 (seen there)."""
    found = ratio_statistics(TABLE_1_1)
    assert found is not None
    assert found.sales == 36
    assert (sum(v for v, _ in TABLE_1_1), sum(p for _, p in TABLE_1_1)) == (3627040, 3964620)
    assert at(found.median, "0.863913") and at(found.mean, "0.899578") and at(found.weighted, "0.914852")
    assert at(found.prd, "0.983305") and at(found.cod, "29.8177")
    assert at(found.deviation, "0.296576") and at(found.variation, "32.9683")
    assert at(found.prb, "0.232261") and at(found.prb_error, "0.077145")
    assert found.prb is not None and found.prb_error is not None
    assert at(found.prb / found.prb_error, "3.0107")
    assert at(found.median_low, "0.683636") and at(found.median_high, "1.066667")
    assert at(found.weighted_low, "0.806083") and at(found.weighted_high, "1.023621")


def test_iaao_standard_on_ratio_studies_2013_table_d_1() -> None:
    """Table D-1 as held in the test data of the package assesspy: COD 7.5, PRD 1.027, PRB -0.120."""
    found = ratio_statistics(TABLE_D_1)
    assert found is not None
    assert found.sales == 25
    assert at(found.median, "0.909821") and at(found.mean, "0.903127") and at(found.weighted, "0.879467")
    assert at(found.prd, "1.026904") and at(found.cod, "7.5074")
    assert at(found.deviation, "0.082476") and at(found.variation, "9.1323")
    assert at(found.prb, "-0.119837") and at(found.prb_error, "0.025383")
    assert at(found.median_low, "0.844720") and at(found.median_high, "0.938356")


@pytest.mark.parametrize(
    ("count", "lower", "upper", "coverage"),
    [
        (6, 1, 6, "0.96875"),
        (10, 2, 9, "0.97852"),
        (12, 3, 10, "0.96143"),
        (15, 4, 12, "0.96484"),
        (17, 5, 13, "0.95096"),
        (25, 8, 18, "0.95671"),
        (36, 12, 25, "0.97118"),
    ],
)
def test_ranks_of_the_sign_test_interval(count: int, lower: int, upper: int, coverage: str) -> None:
    """Exact binomial interval of the median, as in standard tables (from memory; recomputed exactly)."""
    assert median_ranks(count) == (lower, upper)
    exact = coverage_of_ranks(count, lower)
    assert abs(exact - Fraction(coverage)) <= Fraction(1, 200000)


def test_five_sales_have_no_interval_at_95_percent() -> None:
    assert median_ranks(5) is None
    found = ratio_statistics(TABLE_1_1[:5])
    assert found is not None
    assert (found.median_low, found.median_high) == (None, None)


def test_raising_every_value_by_a_tenth_changes_the_level_only() -> None:
    """Definitions: with table 1-1 the median becomes 0.950305; COD, PRD, PRB and COV stay."""
    before = ratio_statistics(TABLE_1_1)
    after = ratio_statistics([(value * Decimal("1.1"), price) for value, price in TABLE_1_1])
    assert before is not None and after is not None
    assert at(after.median, "0.950305")
    for name in ("cod", "prd", "prb", "variation"):
        assert abs(getattr(before, name) - getattr(after, name)) < Decimal("1e-25")


def test_one_sale_and_none() -> None:
    assert ratio_statistics([]) is None
    single = ratio_statistics([(Decimal(110), Decimal(100))])
    assert single is not None
    assert (single.median, single.deviation, single.prb, single.weighted_low) == (Decimal("1.1"), None, None, None)


def later(row: int, **values: object) -> LaterSale:
    usual: dict[str, object] = {
        "item": f"G{row:02d}",
        "family": Family.ARCHTOP,
        "value_type": ValueType.FAIR_MARKET,
        "value": Decimal(1000),
        "price": Decimal(900),
        "price_kind": PriceKind.ALL_IN,
    }
    return filled(LaterSale, row=row, **{**usual, **values})


def test_groups_by_type_kind_and_family() -> None:
    rows = [later(2), later(3, family=Family.BANJO, price=Decimal(1250)), later(4, price_kind=PriceKind.PRIVATE_SOLD)]
    groups, findings = track_record(rows)
    assert findings == []
    assert [(one.price_kind, one.family, one.statistics.sales) for one in groups] == [
        (PriceKind.ALL_IN, None, 2),
        (PriceKind.ALL_IN, Family.ARCHTOP, 1),
        (PriceKind.ALL_IN, Family.BANJO, 1),
        (PriceKind.PRIVATE_SOLD, None, 1),
        (PriceKind.PRIVATE_SOLD, Family.ARCHTOP, 1),
    ]


@pytest.mark.parametrize(
    ("values", "code", "used"),
    [
        ({"price": Decimal(0)}, "YRL-26", 0),
        ({"price_kind": PriceKind.ASKING}, "YRL-27", 0),
        ({"value_type": ValueType.RETAIL_REPLACEMENT}, "YRL-29", 2),
    ],
)
def test_cautions(values: dict[str, object], code: str, used: int) -> None:
    groups, findings = track_record([later(2, **values)])
    assert [one.code for one in findings] == [code]
    assert len(groups) == used
