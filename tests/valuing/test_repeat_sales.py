"""Repeat-sales indexes against published examples."""

from decimal import Decimal

import pytest

from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.learning import RepeatSale
from appraise.records.vocabulary import Market
from appraise.valuing.lookup.indexes import indexes
from appraise.valuing.repeat_sales import (
    RepeatSalesIndex,
    ResalePair,
    Unconnected,
    arithmetic_index,
    geometric_index,
    index_rows,
    period_text,
    resale_pairs,
    unconnected_finding,
)

Typed = tuple[int, int, int, int]


def pairs(*typed: Typed) -> list[ResalePair]:
    """Return pairs typed as later period, earlier period, later price, earlier price."""
    return [ResalePair(earlier, later, Decimal(low), Decimal(high)) for later, earlier, high, low in typed]


def figures(index: object) -> list[str]:
    assert isinstance(index, RepeatSalesIndex)
    return [str(one.figure) for one in index.periods]


SMALLEST = pairs((2, 1, 3, 1), (3, 2, 2, 3), (3, 1, 1, 1))
SIX = pairs((3, 1, 6, 1), (2, 1, 5, 1), (3, 2, 4, 1), (2, 1, 3, 1), (3, 2, 2, 1), (3, 1, 1, 1))


def test_smallest_complete_example_rsmatrix_readme() -> None:
    """R package rsmatrix, README, "Usage": Bailey-Muth-Nourse 238.1102, 125.9921; Shiller 240, 133.3333."""
    assert figures(geometric_index(SMALLEST)) == ["100.0000", "238.1102", "125.9921"]
    assert figures(arithmetic_index(SMALLEST)) == ["100.0000", "240.0000", "133.3333"]


def test_six_pairs_with_standard_errors_rsmatrix_example() -> None:
    """R package rsmatrix, example of rs_matrix and its stored output; errors by the delta method, HC1."""
    robust = geometric_index(SIX, robust=True)
    assert figures(robust) == ["100.0000", "235.0755", "403.5654"]
    assert isinstance(robust, RepeatSalesIndex)
    assert [str(one.error) for one in robust.periods] == ["None", "111.0797", "257.6581"]
    assert figures(arithmetic_index(SIX)) == ["100.0000", "310.5263", "491.6667"]


def test_classical_standard_errors_of_the_six_pairs() -> None:
    """The same example with the classical covariance of least squares (recomputed by another solver)."""
    index = geometric_index(SIX)
    assert isinstance(index, RepeatSalesIndex)
    assert [str(one.error) for one in index.periods] == ["None", "126.4398", "217.0653"]
    assert (index.pairs, [one.pairs for one in index.periods]) == (6, [4, 4, 4])


def test_two_periods_are_a_geometric_mean_and_a_ratio_of_sums() -> None:
    """Property of the two methods: 100 to 120, 200 to 260, 400 to 600."""
    two = pairs((2, 1, 120, 100), (2, 1, 260, 200), (2, 1, 600, 400))
    assert figures(geometric_index(two)) == ["100.0000", "132.7614"]
    assert figures(arithmetic_index(two)) == ["100.0000", "140.0000"]


def test_periods_that_do_not_hang_together_are_refused_and_named() -> None:
    """The connectivity condition of the Bailey-Muth-Nourse design matrix (Webb)."""
    apart = pairs((2, 1, 110, 100), (4, 3, 120, 100))
    assert geometric_index(apart) == Unconnected(((1, 2), (3, 4)))
    assert arithmetic_index(apart) == Unconnected(((1, 2), (3, 4)))
    joined = [*apart, *pairs((3, 2, 105, 100))]
    assert figures(geometric_index(joined)) == ["100.0000", "110.0000", "115.5000", "138.6000"]
    named = unconnected_finding(Place("Repeat sales"), "OWN", ((2001, 2002), (2005,)))
    assert (named.code, named.found) == ("YRL-21", "2001, 2002; 2005")


@pytest.mark.parametrize(
    ("group", "expected"),
    [(((3, 2, 4, 1), (2, 1, 3, 1)), ["300", "1200"]), (((3, 2, 2, 1), (2, 1, 1, 1)), ["100", "200"])],
)
def test_separate_groups_rsmatrix_grouped_data(group: tuple[Typed, ...], expected: list[str]) -> None:
    """R package rsmatrix, "Works with grouped data": each group is exactly determined, so both indexes agree."""
    for index in (geometric_index(pairs(*group)), arithmetic_index(pairs(*group))):
        assert figures(index)[1:] == [f"{text}.0000" for text in expected]
    exact = geometric_index(pairs(*group))
    assert isinstance(exact, RepeatSalesIndex)
    assert all(one.error is None for one in exact.periods)


def test_gaps_are_shown_and_nothing_is_extrapolated() -> None:
    index = geometric_index(pairs((2015, 2010, 140, 100), (2012, 2010, 110, 100)))
    assert isinstance(index, RepeatSalesIndex)
    assert index.gaps == (2011, 2013, 2014)
    assert index.figure(2015) == Decimal("140.0000")
    assert [index.figure(year) for year in (2009, 2011, 2016)] == [None, None, None]


def test_no_pair_gives_no_index() -> None:
    assert geometric_index([]) is None
    assert arithmetic_index([]) is None


def resale(row: int, **values: object) -> RepeatSale:
    usual = {
        "first_month": "2019-05",
        "first_price": Decimal(17500),
        "second_month": "2023-10",
        "second_price": Decimal(21800),
        "changed": False,
    }
    return filled(RepeatSale, row=row, id=f"R{row:02d}", **{**usual, **values})


def test_rows_become_pairs_by_period() -> None:
    assert resale_pairs([resale(2)]) == ([ResalePair(2019, 2023, Decimal(17500), Decimal(21800))], [])
    by_quarter, _ = resale_pairs([resale(2)], months=3)
    assert (period_text(by_quarter[0].earlier, months=3), period_text(by_quarter[0].later, months=3)) == (
        "2019-04",
        "2023-10",
    )


@pytest.mark.parametrize(
    ("values", "code", "column"),
    [
        ({"first_month": "2019-13"}, "YRL-22", "first_month"),
        ({"second_price": Decimal(0)}, "YRL-23", "second_price"),
        ({"changed": True}, "YRL-24", "changed"),
        ({"second_month": "2019-11"}, "YRL-25", "second_month"),
    ],
)
def test_rows_that_cannot_serve_say_why(values: dict[str, object], code: str, column: str) -> None:
    used, findings = resale_pairs([resale(7, **values)])
    assert used == []
    assert [(one.code, one.place) for one in findings] == [(code, Place("Repeat sales", 7, column))]


def test_a_row_without_price_makes_one_finding() -> None:
    row = filled(RepeatSale, row=3, id="R03", first_month="2019-05", second_month="2021-01", second_price=Decimal(5))
    used, findings = resale_pairs([row])
    assert used == []
    assert [(one.code, one.place.column) for one in findings] == [("YRL-01", "first_price")]


def test_rows_for_the_library_can_be_read_back_and_carry_nothing() -> None:
    index = geometric_index(pairs((2015, 2010, 140, 100), (2012, 2010, 110, 100), (2015, 2012, 130, 100)))
    assert isinstance(index, RepeatSalesIndex)
    rows = index_rows(index, "OWN", market=Market.AUCTION)
    assert [(one.month, one.figure) for one in rows] == [(f"{one.period}-07", one.figure) for one in index.periods]
    assert rows[0].source == "own repeat sales, 3 pairs, 2 with a sale in this period; base"
    assert "standard error" in str(rows[1].source)
    read, findings = indexes(rows)
    made = read.get("OWN")
    assert findings == [] and made is not None
    assert made.carry_last is False


@pytest.mark.parametrize(("months", "month"), [(1, "2019-05"), (3, "2019-05"), (6, "2019-04"), (12, "2019-07")])
def test_a_figure_stands_at_the_middle_month_of_its_period(months: int, month: str) -> None:
    used, _ = resale_pairs([resale(2)], months=months)
    index = geometric_index(used)
    assert isinstance(index, RepeatSalesIndex)
    assert index_rows(index, "OWN", months=months, market=Market.AUCTION)[0].month == month
