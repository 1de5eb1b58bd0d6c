"""Retail replacement value: base, costs with their bounds, taxes, and what stands beside."""

import pytest
from support.valuing_comparison import PLAIN, codes, figures_text, opinion_of

from appraise.model.figure import NoFigure
from appraise.model.place import Place
from appraise.valuing.result import Valuation

RETAIL = PLAIN | {
    "value_terms": """
        value_type               | market        | price_basis | premium_tax  | conclusion
        retail replacement value | dealer retail | all-in      | in the price | weighted mean
    """,
}
KEYS = "item | kind | percent | amount | currency | least | most | taxable | quotation\n"
OPINION = "item | value_type | route | conclusion | typed_value | typed_reason | source\n"


def with_costs(*costs: str, **sheets: str) -> Valuation:
    """Return the opinion of the plain sales (base 11000) with these lines on Costs."""
    return opinion_of(RETAIL | {"costs": KEYS + "\n".join(costs)} | sheets)[0]


def test_without_costs_the_value_is_the_base() -> None:
    figures = figures_text(with_costs())
    assert (figures["base"], figures["base_rounded"]) == ("11000.00", "11000")
    assert (figures["value"], figures["value_rounded"]) == ("11000.00", "11000")


def test_sales_tax_is_rounded_once_on_the_sum_of_base_and_taxable_costs() -> None:
    figures = figures_text(
        with_costs(
            "all | sales tax | 7.25 | | | | | |",
            "all | set-up and adjustment | | 100.06 | | | | yes |",
            "all | freight | | 640 | | | | no |",
            "all | other cost | | 12.50 | | | | |",
        )
    )
    # 7.25 % of 11100.06 = 804.75435
    assert (figures["taxable_sum"], figures["sales_tax"]) == ("11100.06", "804.75")
    assert figures["value"] == "12557.31"
    assert figures["base"] == "11000.00"


@pytest.mark.parametrize(
    ("cost", "figure"),
    [
        ("0.45 | | | 150 | | no |", "150.00"),  # 49.50, not below 150
        ("2 | | | 150 | | no |", "220.00"),
        ("2 | | | 150 | 200 | no |", "200.00"),
        ("2 | | | | 200 | no |", "200.00"),
        (" | 95 | | 100 | | no |", "100.00"),
    ],
)
def test_a_cost_stays_within_its_least_and_most(cost: str, figure: str) -> None:
    assert figures_text(with_costs(f"all | transit insurance | {cost}"))["transit_insurance"] == figure


def test_a_cost_of_the_item_replaces_the_one_of_its_kind_for_all() -> None:
    figures = figures_text(
        with_costs(
            "all | freight | | 640 | | | | |",
            "G01 | freight | | 90 | | | | |",
            "all | other cost | | 10 | | | | |",
            "G02 | other cost | | 500 | | | | |",
        )
    )
    assert (figures["freight"], figures["other_cost"], figures["value"]) == ("90.00", "10.00", "11100.00")


def test_two_costs_of_one_kind_are_numbered() -> None:
    figures = figures_text(with_costs("all | other cost | | 10 | | | | |", "all | other cost | | 20 | | | | |"))
    assert (figures["other_cost"], figures["other_cost_2"], figures["value"]) == ("10.00", "20.00", "11030.00")


def test_a_foreign_cost_is_converted_at_the_effective_date() -> None:
    rates = "currency | day | rate | direction\nEUR | 2024-11-13 | 1.05 | report currency per foreign unit"
    figures = figures_text(with_costs("all | freight | | 900 | EUR | | | |", rates=rates))
    assert figures["freight"] == "945.00"
    lacking = with_costs("all | freight | | 900 | EUR | | | |")
    assert isinstance(lacking.rounded, NoFigure)
    assert [(one.code, one.place) for one in lacking.rounded.because] == [("VAL-41", Place("Costs", 2, "currency"))]


def test_a_cost_without_figure_leaves_no_value_but_the_base() -> None:
    valuation = with_costs("all | freight | | | | | | |")
    assert isinstance(valuation.rounded, NoFigure)
    assert [(one.code, one.place) for one in valuation.rounded.because] == [("VAL-01", Place("Costs", 2, "amount"))]
    assert figures_text(valuation)["base_rounded"] == "11000"


def test_costs_of_import_are_said_not_to_belong_here_and_those_of_a_quotation_are_left_to_it() -> None:
    valuation = with_costs("all | duty | 3.2 | | | | | |", "all | freight | | 900 | | | | | s1")
    assert codes(valuation.findings) == ["VAL-40"]
    assert figures_text(valuation)["value"] == "11000.00"


def test_a_typed_figure_is_the_base_on_the_adjusted_route_and_the_value_on_the_short_one() -> None:
    freight = "all | freight | | 640 | | | | |"
    line = f"{OPINION}G01 | retail replacement value | | typed | 11500 | reason |"
    figures = figures_text(with_costs(freight, opinions=line))
    assert (figures["base"], figures["value"]) == ("11500.00", "12140.00")
    line = f"{OPINION}G01 | retail replacement value | short | | 800 | | two lists"
    figures = figures_text(with_costs(freight, opinions=line))
    assert (figures["value"], figures["value_rounded"]) == ("800.00", "800")
    assert "base" not in figures
