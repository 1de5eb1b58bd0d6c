"""The model period: effect by month with soft edges, share over a window, percent between two objects."""

from fractions import Fraction

import pytest
from hypothesis import given as for_all
from hypothesis import strategies
from support.valuing_comparison import PLAIN, codes, figures_text, opinion_of

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.months import month_number
from appraise.valuing.explain import plain
from appraise.valuing.model_period import effect_of

#: Full effect 1934 to 1939, none in 1931 and before, none after 1942.
CONSUL = {"outer_first": 1931, "inner_first": 1934, "inner_last": 1939, "outer_last": 1942}
PERIODS = """
    maker     | model     | inner_first | inner_last | outer_first | outer_last | effect
    Skarvholm | Consul 17 | 1934        | 1939       | 1931        | 1942       | 20
"""
SALES_IN_FULL_EFFECT = {"s1": "1936-01/1936-12", "s2": "1936-01/1936-12", "s3": "1936-01/1936-12"}


def effect(year: int, month: int, **years: int) -> Fraction:
    return Fraction(effect_of(month_number(year, month), **(years or CONSUL)))


@pytest.mark.parametrize(
    ("year", "month", "share"),
    [
        (1930, 12, Fraction(0)),
        (1931, 1, Fraction(0)),
        (1932, 7, Fraction(1, 2)),  # eighteen of thirty-six months
        (1934, 1, Fraction(1)),
        (1937, 6, Fraction(1)),
        (1939, 12, Fraction(1)),
        (1941, 6, Fraction(1, 2)),  # eighteen months after December 1939
        (1942, 12, Fraction(0)),
        (1943, 1, Fraction(0)),
    ],
)
def test_effect_of_a_month(year: int, month: int, share: Fraction) -> None:
    assert effect(year, month) == share


def test_edges_of_one_year_are_a_step() -> None:
    years = {"outer_first": 1934, "inner_first": 1934, "inner_last": 1939, "outer_last": 1939}
    months = [(1933, 12), (1934, 1), (1939, 12), (1940, 1)]
    assert [effect(*one, **years) for one in months] == [0, 1, 1, 0]


@for_all(month=strategies.integers(12 * 1925, 12 * 1950))
def test_the_effect_is_the_same_read_from_either_end(month: int) -> None:
    mirrored = 12 * 1931 + 12 * 1942 + 11 - month
    symmetric = {"outer_first": 1931, "inner_first": 1934, "inner_last": 1939, "outer_last": 1942}
    assert effect_of(month, **symmetric) == effect_of(mirrored, **symmetric)
    assert 0 <= effect_of(month, **symmetric) <= 1


def shown(outcome: Outcome | None) -> str:
    return plain(outcome) if isinstance(outcome, Figure) else "none"


def test_share_and_percent_of_a_window_on_the_edge() -> None:
    windows = SALES_IN_FULL_EFFECT | {"G01": "1933-01/1933-12", "s1": "1931-01"}
    valuation, _ = opinion_of(PLAIN | {"model_periods": PERIODS}, windows)
    # mean of 24/36 to 35/36: about four fifths
    assert shown(valuation.subject["period_share"]) == "0.819444"
    first, second, _third = (one.steps for one in valuation.comparisons)
    assert (shown(first["period_share"]), shown(second["period_share"])) == ("0.000000", "1.000000")
    # (1 + 0.2 x 0.819444) / 1 and / 1.2
    assert (shown(first["pct_period"]), shown(second["pct_period"])) == ("16.39", "-3.01")
    assert list(second)[list(second).index("pct_orig") + 1 :][0].startswith("period_")


def test_a_window_of_several_runs_counts_each_month_once() -> None:
    windows = SALES_IN_FULL_EFFECT | {"G01": "1930-01/1930-12 or 1936-01/1936-12"}
    valuation, _ = opinion_of(PLAIN | {"model_periods": PERIODS}, windows)
    assert shown(valuation.subject["period_share"]) == "0.500000"


def test_without_a_period_there_is_no_effect() -> None:
    windows = SALES_IN_FULL_EFFECT | {"G01": "1933-01/1933-12"}
    valuation, _ = opinion_of(PLAIN, windows)
    assert "period_share" not in valuation.subject
    assert not {"first_month", "last_month"} & set(valuation.figures)


def test_the_period_belongs_to_maker_and_model() -> None:
    other = PERIODS.replace("Consul 17", "Cadet 16 ")
    valuation, _ = opinion_of(PLAIN | {"model_periods": other}, {"G01": "1933-01/1933-12"})
    assert "period_share" not in valuation.subject


def test_a_sale_without_its_date_has_no_figure() -> None:
    windows = {"G01": "1936-01/1936-12", "s1": "1936-01/1936-12", "s2": "1936-01/1936-12"}
    valuation, _ = opinion_of(PLAIN | {"model_periods": PERIODS}, windows)
    third = valuation.comparisons[2]
    assert isinstance(third.adjusted, NoFigure)
    assert codes(third.adjusted.because) == ["CMP-41"]
    assert [one.used for one in valuation.comparisons] == [True, True, False]


@pytest.mark.parametrize(("window", "code"), [({}, "VAL-08"), ({"G01": "../1936-12"}, "VAL-09")])
def test_an_item_without_a_closed_window_has_no_figure(window: dict[str, str], code: str) -> None:
    valuation, _ = opinion_of(PLAIN | {"model_periods": PERIODS}, SALES_IN_FULL_EFFECT | window)
    assert isinstance(valuation.rounded, NoFigure)
    assert code in codes(valuation.rounded.because)


def test_first_and_last_month_stand_beside_and_a_difference_is_said() -> None:
    windows = SALES_IN_FULL_EFFECT | {"G01": "1931-01/1934-01"}
    valuation, ledger = opinion_of(PLAIN | {"model_periods": PERIODS}, windows)
    figures = figures_text(valuation)
    # 11000 / 1.2 = 9166.67 and 11000; half-way between for the whole window
    assert (figures["first_month"], figures["last_month"], figures["value_rounded"]) == ("9150", "11000", "10100")
    assert "VAL-15" in codes(valuation.findings)
    assert plain(ledger.figures["G01.fmv.first_month.subject.period_share"]) == "0.000000"


def test_no_difference_no_finding() -> None:
    windows = SALES_IN_FULL_EFFECT | {"G01": "1935-01/1937-12"}
    valuation, _ = opinion_of(PLAIN | {"model_periods": PERIODS}, windows)
    figures = figures_text(valuation)
    assert figures["first_month"] == figures["last_month"] == figures["value_rounded"]
    assert "VAL-15" not in codes(valuation.findings)
