"""Options where practice differs, directions of rates, currencies without cents, and the final rounding scale."""

from collections.abc import Mapping
from decimal import Decimal

import pytest
from support.valuing_comparison import PLAIN, codes, figures_text, opinion_of

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.place import Place
from appraise.valuing.explain import plain
from appraise.valuing.operations import BY_SCALE

PREMIUMS = """
    table | house          | currency | valid_from | up_to | rate | tax
    T     | Marrowby Rooms | USD      | 2020-01-01 | 5000  | 30   | 20
    T     | Marrowby Rooms | USD      | 2020-01-01 |       | 20   | 20
"""


def shown(outcome: Outcome) -> str:
    return plain(outcome) if isinstance(outcome, Figure) else "none"


def one_sale(sale: str, *, basis: str = "all-in", tax: str = "in the price", **sheets: str) -> dict[str, str]:
    """Return the steps of a job with one sale, as text by name."""
    drawn: Mapping[str, str] = PLAIN | {
        "value_terms": "value_type | market | price_basis | premium_tax | conclusion\n"
        f"fair market value | auction | {basis} | {tax} | weighted mean",
        "sales": f"id | kind | currency | price | day | premium_table | tax_included\ns1 | {sale}",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "premiums": PREMIUMS,
    }
    steps = opinion_of(drawn | sheets)[0].comparisons[0].steps
    return {name: shown(outcome) for name, outcome in steps.items()}


WHOLE = "currency | USD\neffective_date | 2024-11-15\npremium_tiers | one rate on the whole price"


def test_premium_by_tiers_or_by_one_rate_on_the_whole_price() -> None:
    sale = "hammer | USD | 6000.00 | 2024-02-01 | T |"
    assert one_sale(sale)["premium"] == "1700.00"  # 5000 x 30 % + 1000 x 20 %
    assert one_sale(sale, assignment=WHOLE)["premium"] == "1200.00"  # 6000 x 20 %
    end = "hammer | USD | 5000.00 | 2024-02-01 | T |"
    assert one_sale(end)["premium"] == one_sale(end, assignment=WHOLE)["premium"] == "1500.00"


@pytest.mark.parametrize(
    ("tax", "basis"),
    [("in the price", "8040.00"), ("left out", "7700.00"), ("refundable, left out", "7700.00")],
)
def test_tax_on_the_premium_in_or_out_of_the_price(tax: str, basis: str) -> None:
    assert one_sale("hammer | USD | 6000.00 | 2024-02-01 | T |", tax=tax)["basis"] == basis


def test_tax_on_the_premium_leaves_an_all_in_price_too() -> None:
    steps = one_sale("all-in | USD | 8040.00 | 2024-02-01 | T |", tax="left out")
    assert (steps["hammer"], steps["proof"], steps["basis"]) == ("6000.00", "8040.00", "7700.00")


def test_an_all_in_price_without_a_table_may_hold_the_tax() -> None:
    sheets = PLAIN | {
        "value_terms": "value_type | market | price_basis | premium_tax | conclusion\n"
        "fair market value | auction | all-in | left out | weighted mean"
    }
    first = opinion_of(sheets)[0].comparisons[0]
    assert codes(first.findings) == ["CMP-11"]
    assert first.findings[0].place == Place("Sales", 2, "premium_table")
    assert shown(first.adjusted) == "10000.00"


def test_hammer_basis_takes_a_hammer_price_as_it_is() -> None:
    steps = one_sale("hammer | USD | 6000.00 | 2024-02-01 | T |", basis="hammer")
    assert steps["basis"] == "6000.00"
    assert "premium" not in steps


def test_implied_hammer_under_one_rate_on_the_whole_price() -> None:
    # 6000 + 20 % + 20 % tax on it = 7440; under the first tier 7440 / 1.36 = 5470.59 would lie above 5000
    steps = one_sale("all-in | USD | 7440.00 | 2024-02-01 | T |", basis="hammer", assignment=WHOLE)
    assert (steps["hammer"], steps["proof"]) == ("6000.00", "7440.00")


def test_a_price_that_two_hammer_prices_give_is_refused() -> None:
    # 6600 is 4852.94 under the first tier and 5322.58 under the second
    sheets = PLAIN | {
        "assignment": WHOLE,
        "value_terms": "value_type | market | price_basis | premium_tax | conclusion\n"
        "fair market value | auction | hammer | in the price | weighted mean",
        "sales": "id | kind | currency | price | day | premium_table\ns1 | all-in | USD | 6600 | 2024-02-01 | T",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "premiums": PREMIUMS,
    }
    first = opinion_of(sheets)[0].comparisons[0]
    assert isinstance(first.adjusted, NoFigure)
    assert codes(first.adjusted.because) == ["CMP-29"]


def test_a_rate_is_applied_in_its_own_direction_and_never_inverted() -> None:
    rates = "currency | day | rate | direction\nITL | 2024-02-01 | 1936.27 | foreign units per report unit"
    steps = one_sale("dealer sold | ITL | 1000000000 | 2024-02-01 | |", rates=rates)
    # Regulation (EC) 1103/97, article 4: with the inverse rate it would be 516457.00
    assert steps["converted"] == "516456.90"


@pytest.mark.parametrize(
    ("currency", "rate", "converted", "rounded"),
    [("JPY", "149.505", "149505", "149500"), ("KWD", "0.3075015", "307.502", "310")],
)
def test_amounts_have_the_decimals_of_their_currency(currency: str, rate: str, converted: str, rounded: str) -> None:
    sheets = PLAIN | {
        "assignment": f"currency | {currency}\neffective_date | 2024-11-15",
        "sales": "id | kind | currency | price | day\ns1 | dealer sold | USD | 1000 | 2024-02-01",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "rates": f"currency | day | rate | direction\nUSD | 2024-02-01 | {rate} | report currency per foreign unit",
    }
    valuation, _ = opinion_of(sheets)
    assert shown(valuation.comparisons[0].steps["converted"]) == converted
    assert shown(valuation.rounded) == rounded


def test_the_rate_of_the_effective_date_is_not_used_for_an_older_sale() -> None:
    rates = "currency | day | rate | direction\nGBP | 2024-11-15 | 1.26 | report currency per foreign unit"
    assert one_sale("dealer sold | GBP | 1000 | 2024-02-01 | |", rates=rates)["converted"] == "none"


@pytest.mark.parametrize(
    ("value", "rounded"),
    [
        ("4.99", "0"),
        ("5", "10"),
        ("994.99", "990"),
        ("999.99", "1000"),
        ("1000", "1000"),
        ("1010.02", "1000"),
        ("5525", "5550"),
        ("9999.99", "10000"),
        ("10000", "10000"),
        ("10049.99", "10000"),
        ("10050", "10100"),
        ("49999.99", "50000"),
        ("50249.99", "50000"),
        ("50250", "50500"),
        ("249999.99", "250000"),
        ("250499.99", "250000"),
        ("250500", "251000"),
        ("124242.16", "124000"),
    ],
)
def test_scale_on_both_sides_of_every_band(value: str, rounded: str) -> None:
    assert BY_SCALE.result([Decimal(value), Decimal(value)], 0) == Decimal(rounded)


def test_the_ends_of_the_range_use_the_increment_of_the_value() -> None:
    sheets = PLAIN | {
        "sales": PLAIN["sales"]
        .replace("10000.00", "9512.00")
        .replace("12000.00", "11068.00")
        .replace("11000.00", "9980.00")
    }
    figures = figures_text(opinion_of(sheets)[0])
    assert (figures["value"], figures["value_rounded"]) == ("10186.67", "10200")
    assert (figures["low_rounded"], figures["high_rounded"]) == ("9500", "11100")
