"""The three routes, the three conclusions, and the findings of the reconciliation."""

import pytest
from support.valuing_comparison import PLAIN, codes, figures_text, opinion_of, short_names

from appraise.findings.entries import message
from appraise.model.figure import Figure, NoFigure
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.market import Comparison
from appraise.records.vocabulary import Compare, Conclusion, Route
from appraise.valuing.result import Valuation
from appraise.valuing.routes import standing

OPINION_KEYS = "item | value_type | route | conclusion | typed_value | typed_reason | source | not_valued\n"


def with_opinion(line: str, **sheets: str) -> Valuation:
    """Return the plain job's opinion with a line on Opinions: route, conclusion, value, reason, source, not valued."""
    drawn = PLAIN | {"opinions": f"{OPINION_KEYS}G01 | fair market value | {line}"} | sheets
    return opinion_of(drawn)[0]


def found(valuation: Valuation) -> list[tuple[str, str]]:
    """Return code and column of the findings; every one must fill its sentence."""
    assert all("{" not in message(one) for one in valuation.findings)
    return [(one.code, one.place.column) for one in valuation.findings]


@pytest.mark.parametrize(
    ("conclusion", "value"), [("weighted mean", "11000.00"), ("weighted median", "11000.00"), ("", "11000.00")]
)
def test_conclusion_by_mean_or_median(conclusion: str, value: str) -> None:
    assert figures_text(with_opinion(f"| {conclusion} | | | |"))["value"] == value


def test_the_opinion_goes_before_the_terms() -> None:
    weights = PLAIN["comparisons"].replace("s2   | 1", "s2   | 5")
    assert figures_text(with_opinion("| weighted median | | | |", comparisons=weights))["value"] == "12000.00"
    assert figures_text(opinion_of(PLAIN | {"comparisons": weights})[0])["value"] == "11571.43"


def test_a_typed_conclusion_shows_its_distance_and_is_rounded_once() -> None:
    valuation = with_opinion("| typed | 11525 | the best of the three is nearest | |")
    figures = figures_text(valuation)
    assert (valuation.conclusion, figures["typed_value"]) == (Conclusion.TYPED, "11525")
    assert (figures["typed_from_mean_pct"], figures["typed_from_median_pct"]) == ("4.8", "4.8")
    assert (figures["value"], figures["value_rounded"]) == ("11525.00", "11500")
    assert found(valuation) == []


def test_a_typed_conclusion_outside_the_range_warns_and_without_a_reason_stops() -> None:
    valuation = with_opinion("| typed | 12000.01 | | |")
    assert found(valuation) == [("VAL-21", "typed_reason"), ("VAL-22", "typed_value")]
    assert isinstance(valuation.rounded, Figure)
    assert found(with_opinion("| typed | 12000.00 | reason | |")) == []
    assert found(with_opinion("| typed | 9999.99 | reason | |")) == [("VAL-22", "typed_value")]


def test_a_typed_conclusion_without_its_value_has_no_figure() -> None:
    valuation = with_opinion("| typed | | reason | |")
    assert isinstance(valuation.rounded, NoFigure)
    assert [(one.code, one.place) for one in valuation.rounded.because] == [
        ("VAL-01", Place("Opinions", 2, "typed_value"))
    ]
    terms = PLAIN["value_terms"].replace("weighted mean", "typed        ")
    assert ("VAL-20", "conclusion") in found(opinion_of(PLAIN | {"value_terms": terms})[0])


def test_the_short_route_takes_one_figure_with_its_source() -> None:
    valuation = with_opinion("short | | 845.50 | | three lists of 2024 |", comparisons="id | item")
    assert (valuation.route, valuation.comparisons) == (Route.SHORT, ())
    assert figures_text(valuation)["value_rounded"] == "850"
    assert found(valuation) == []


def test_the_short_route_without_source_stops_and_says_what_it_does_not_use() -> None:
    valuation = with_opinion("short | | 845.50 | | |")
    assert found(valuation) == [("VAL-23", "source"), ("VAL-24", "item")]


def test_a_value_that_is_not_stated_has_the_reason() -> None:
    valuation = with_opinion("| | | | | sold before the date")
    assert isinstance(valuation.value, NoFigure)
    assert found(valuation) == [("VAL-50", "not_valued")]


@pytest.mark.parametrize(
    ("marks", "stands"),
    [
        ({"overall": Compare.BETTER}, Compare.BETTER),
        ({"by_condition": Compare.BETTER, "by_originality": Compare.SIMILAR}, Compare.BETTER),
        ({"by_condition": Compare.SIMILAR, "by_provenance": Compare.SIMILAR}, Compare.SIMILAR),
        ({"by_condition": Compare.BETTER, "by_originality": Compare.POORER}, None),
        ({"by_condition": Compare.BETTER, "by_originality": Compare.POORER, "overall": Compare.POORER}, Compare.POORER),
        ({}, None),
    ],
)
def test_how_a_comparison_stands_is_typed_or_follows_from_its_elements(
    marks: dict[str, Compare], stands: Compare | None
) -> None:
    assert standing(filled(Comparison, **marks)) is stands


def relative(overall: str, line: str = "relative | | | | |", prices: str = "10000 12000 11000") -> Valuation:
    """Return the relative opinion of the three plain sales, marked in order."""
    marks = overall.split()
    keys = "id | item | value_type | sale | weight | overall | by_condition\n"
    rows = "\n".join(f"c{n} | G01 | fair market value | s{n} | 1 | {mark} |" for n, mark in enumerate(marks, 1))
    sales = "id | kind | currency | price | day\n" + "\n".join(
        f"s{n} | all-in | USD | {price} | 2024-05-01" for n, price in enumerate(prices.split(), 1)
    )
    return with_opinion(line, comparisons=keys + rows, sales=sales)


def test_the_relative_route_concludes_between_poorer_and_better() -> None:
    valuation = relative("poorer better similar")
    figures = figures_text(valuation)
    assert (figures["best_poorer"], figures["worst_better"], figures["value"]) == ("10000.00", "12000.00", "11000.00")
    assert (valuation.route, found(valuation)) == (Route.RELATIVE, [])


@pytest.mark.parametrize(
    ("overall", "prices", "line", "code"),
    [
        ("poorer similar similar", "10000 12000 11000", "relative | | | | |", "VAL-33"),  # nothing better
        ("poorer better similar", "12000 10000 11000", "relative | | | | |", "VAL-34"),  # the ends cross
        ("poorer better similar", "10000 12000 13000", "relative | | | | |", "VAL-35"),  # above the worst better one
        ("poorer better similar", "10000 12000 11000", "relative | typed | 9000 | reason | |", "VAL-35"),
        ("poorer better better", "10000 12000 11000", "relative | | | | |", "VAL-30"),  # nothing similar, not typed
    ],
)
def test_the_relative_route_says_where_its_bracket_fails(overall: str, prices: str, line: str, code: str) -> None:
    assert code in codes(relative(overall, line, prices).findings)


def test_the_relative_route_takes_a_typed_value_between_better_and_poorer_ones() -> None:
    valuation = relative("poorer better better", "relative | typed | 10600 | nearer the poorer one | |")
    assert (figures_text(valuation)["value_rounded"], found(valuation)) == ("10600", [])


def test_a_comparison_without_a_mark_is_not_used_and_a_contrary_one_warns() -> None:
    keys = "id | item | value_type | sale | weight | overall | by_condition\n"
    rows = "c1 | G01 | fair market value | s1 | 1 | poorer | better\nc2 | G01 | fair market value | s2 | 1 | better |\n"
    rows += "c3 | G01 | fair market value | s3 | 1 | |"
    valuation = with_opinion("relative | typed | 11000 | reason | |", comparisons=keys + rows)
    assert found(valuation) == [("VAL-32", "overall"), ("VAL-31", "overall")]


@pytest.mark.parametrize(
    ("weights", "names"),
    [
        ("1 1 1", "none"),
        ("1 1 0", "few"),
        ("1 0 0", "few, share"),
        ("2 1 1", "none"),  # exactly half is not more than half
        ("3 1 1", "share"),
    ],
)
def test_few_and_share(weights: str, names: str) -> None:
    rows = "\n".join(f"c{n} | G01 | fair market value | s{n} | {w}" for n, w in enumerate(weights.split(), 1))
    valuation = opinion_of(PLAIN | {"comparisons": f"id | item | value_type | sale | weight\n{rows}"})[0]
    assert short_names(valuation.findings) == names


@pytest.mark.parametrize(("highest", "names"), [("15500.00", "none"), ("15511.00", "spread")])
def test_spread_above_fifty_percent_of_the_median(highest: str, names: str) -> None:
    # lowest 10000, median 11000: 50.0 percent, then 50.1
    sheets = PLAIN | {"sales": PLAIN["sales"].replace("12000.00", highest)}
    assert short_names(opinion_of(sheets)[0].findings) == names
