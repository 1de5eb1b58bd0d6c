"""Least squares and Student's t against published regressions.

Printed figures of the textbook are from memory of J. M. Wooldridge, Introductory Econometrics; the data (tests/data)
are his; each figure has been recomputed by another solver. Tolerance: half a unit of the last printed digit.
"""

import csv
from collections.abc import Callable, Sequence
from decimal import Decimal
from pathlib import Path

import pytest

from appraise.valuing.least_squares import Fit, least_squares, t_quantile
from appraise.valuing.matched_pairs import percent_of_log_effect

DATA = Path(__file__).parents[1] / "data"
ONE = Decimal(1)
Record = dict[str, Decimal]


def table(name: str) -> list[Record]:
    with (DATA / f"{name}.csv").open(encoding="utf-8") as file:
        return [{key: Decimal(text) for key, text in row.items()} for row in csv.DictReader(file)]


def fitted(
    records: Sequence[Record], observed: Callable[[Record], Decimal], columns: Sequence[Callable[[Record], Decimal]]
) -> tuple[Fit, list[Decimal]]:
    """Return the fit with a constant in front, and the observed values."""
    values = [observed(one) for one in records]
    fit = least_squares([[ONE, *(column(one) for column in columns)] for one in records], values)
    assert fit is not None
    return fit, values


def col(name: str) -> Callable[[Record], Decimal]:
    return lambda record: record[name]


def log(name: str) -> Callable[[Record], Decimal]:
    return lambda record: record[name].ln()


def near(found: Decimal, printed: str, *, units: Decimal = Decimal("0.5")) -> bool:
    """Say whether a figure is the printed one to half a unit of its last digit."""
    expected = Decimal(printed)
    exponent = expected.as_tuple().exponent
    assert isinstance(exponent, int)
    return abs(found - expected) <= units * Decimal(1).scaleb(exponent)


@pytest.mark.parametrize(
    ("year", "constant", "slope", "errors", "explained"),
    [
        (1981, "101307.51", "-30688.27", ("3093.03", "5827.71"), "0.1653"),
        (1978, "82517.23", "-18824.37", ("2653.79", "4744.59"), "0.0817"),
    ],
)
def test_one_dummy_is_the_difference_of_two_means_wooldridge_example_13_3(
    year: int, constant: str, slope: str, errors: tuple[str, str], explained: str
) -> None:
    """KIELMC, textbook chapter 13, example 13.3: price in 1978 money on nearness to the incinerator."""
    records = [one for one in table("kielmc") if one["year"] == year]
    fit, values = fitted(records, col("rprice"), [col("nearinc")])
    # The data are kept to seven digits: allow one unit of the last printed digit.
    assert near(fit.coefficients[0], constant, units=ONE)
    assert near(fit.coefficients[1], slope, units=ONE)
    found = fit.standard_errors()
    assert found is not None
    assert near(found[0], errors[0], units=ONE) and near(found[1], errors[1], units=ONE)
    assert near(fit.explained(values), explained)


def test_difference_in_differences_wooldridge_example_13_3() -> None:
    """Same example: the interaction equals the difference of the two slopes; -11863.90 (7456.65) from memory."""
    records = table("kielmc")
    late = lambda one: Decimal(one["year"] == 1981)  # noqa: E731
    fit, values = fitted(records, col("rprice"), [late, col("nearinc"), lambda one: late(one) * one["nearinc"]])
    errors = fit.standard_errors()
    assert errors is not None
    assert near(fit.coefficients[3], "-11863.90", units=ONE)
    assert near(errors[3], "7456.65", units=ONE)
    assert near(fit.explained(values), "0.1739")


def test_three_continuous_characteristics_wooldridge_hprice1() -> None:
    """HPRICE1: price on lot, square feet, bedrooms; textbook -21.77, .00207, .123, 13.85, R squared .672."""
    fit, values = fitted(table("hprice1"), col("price"), [col("lotsize"), col("sqrft"), col("bdrms")])
    errors = fit.standard_errors()
    assert errors is not None
    for found, printed in zip(fit.coefficients, ("-21.7703", "0.0020677", "0.122778", "13.8525"), strict=True):
        assert near(found, printed)
    for found, printed in zip(errors, ("29.4750", "0.0006421", "0.013237", "9.0101"), strict=True):
        assert near(found, printed)
    assert near(fit.explained(values), "0.6724")


def test_logs_and_a_dummy_wooldridge_example_7_4() -> None:
    """HPRICE1, textbook example 7.4: the exact effect of the dummy is exp(b) - 1, and its reverse is another."""
    fit, values = fitted(table("hprice1"), log("price"), [log("lotsize"), log("sqrft"), col("bdrms"), col("colonial")])
    errors = fit.standard_errors()
    assert errors is not None
    for found, printed in zip(fit.coefficients, ("-1.3496", "0.1678", "0.7072", "0.0268", "0.0538"), strict=True):
        assert near(found, printed)
    for found, printed in zip(errors, ("0.6510", "0.0382", "0.0928", "0.0287", "0.0448"), strict=True):
        assert near(found, printed)
    assert near(fit.explained(values), "0.6491")
    assert near(100 * fit.coefficients[4], "5.380")
    assert near(percent_of_log_effect(fit.coefficients[4]), "5.527")
    assert near(percent_of_log_effect(-fit.coefficients[4]), "-5.237")


def test_log_model_wooldridge_example_4_5() -> None:
    """HPRICE2, textbook example 4.5: 11.08, -.954, -.134, .255, -.052, R squared .584."""
    fit, values = fitted(table("hprice2"), log("price"), [log("nox"), log("dist"), col("rooms"), col("stratio")])
    errors = fit.standard_errors()
    assert errors is not None
    for found, printed in zip(fit.coefficients, ("11.0839", "-0.9535", "-0.1343", "0.2545", "-0.0525"), strict=True):
        assert near(found, printed)
    for found, printed in zip(errors, ("0.3181", "0.1167", "0.0431", "0.0185", "0.0059"), strict=True):
        assert near(found, printed)
    assert near(fit.explained(values), "0.584")


def test_standardised_coefficients_wooldridge_example_6_1() -> None:
    """HPRICE2, textbook example 6.1: coefficients times the ratio of standard deviations."""
    records = table("hprice2")
    names = ["nox", "crime", "rooms", "dist", "stratio"]
    fit, values = fitted(records, col("price"), [col(name) for name in names])
    for at, printed in enumerate(("-0.3404", "-0.1433", "0.5139", "-0.2348", "-0.2703")):
        spread = _deviation([one[names[at]] for one in records]) / _deviation(values)
        assert near(fit.coefficients[at + 1] * spread, printed)


def test_quadratic_and_turning_point_wooldridge_example_6_2() -> None:
    """HPRICE2, textbook example 6.2: the turning point needs unrounded coefficients."""
    fit, values = fitted(
        table("hprice2"),
        log("price"),
        [log("nox"), log("dist"), col("rooms"), lambda one: one["rooms"] ** 2, col("stratio")],
    )
    printed = ("13.3855", "-0.9017", "-0.0868", "-0.5451", "0.0623", "-0.0476")
    for found, text in zip(fit.coefficients, printed, strict=True):
        assert near(found, text)
    rooms, squared = fit.coefficients[3], fit.coefficients[4]
    assert near(-rooms / (2 * squared), "4.378")
    assert near(100 * (rooms + 2 * squared * 6), "20.20")
    assert near(fit.explained(values), "0.6028")


def test_from_a_predicted_log_back_to_money_wooldridge_example_6_7() -> None:
    """CEOSAL2, textbook example 6.7: the plain exponential understates the mean; two corrections."""
    records = table("ceosal2")
    fit, values = fitted(records, log("salary"), [log("sales"), log("mktval"), col("ceoten")])
    for found, printed in zip(fit.coefficients, ("4.5038", "0.1629", "0.1092", "0.01171"), strict=True):
        assert near(found, printed)
    predicted = fit.predicted([ONE, Decimal(5000).ln(), Decimal(10000).ln(), Decimal(10)])
    assert near(predicted, "7.0141")
    assert near(predicted.exp(), "1112.18")
    smearing = sum((one.exp() for one in fit.residuals), Decimal(0)) / len(records)
    assert near(smearing, "1.1357")
    assert near(predicted.exp() * smearing, "1263.06")
    exponentials = [(value - residual).exp() for value, residual in zip(values, fit.residuals, strict=True)]
    through_origin = least_squares([[one] for one in exponentials], [one["salary"] for one in records])
    assert through_origin is not None
    assert near(through_origin.coefficients[0], "1.1169")
    assert near(predicted.exp() * through_origin.coefficients[0], "1242.15")


def test_fitted_value_and_residual_wooldridge_hprice1() -> None:
    """HPRICE1, computer exercise: first house (300, 2438 square feet, 4 bedrooms), fitted 354.605."""
    fit, values = fitted(table("hprice1"), col("price"), [col("sqrft"), col("bdrms")])
    for found, printed in zip(fit.coefficients, ("-19.3150", "0.128436", "15.1982"), strict=True):
        assert near(found, printed)
    assert near(fit.predicted([ONE, Decimal(2438), Decimal(4)]), "354.605")
    assert near(fit.residuals[0], "-54.605")
    assert near(fit.explained(values), "0.6319")


NINETEEN = """
315 1.152 3.959 3 2 88
319 1.177 6.500 2 1 71
349 1.087 6.503 3 1 89
360 1.338 6.520 3 1.5 79
380 1.485 6.724 2 1.5 75
389 1.646 5.920 3 2 46
424 1.652 6.247 4 2 49
425 1.680 6.300 4 1.5 43
438 1.700 6.400 3 2 39
450 1.768 6.300 4 1.5 38
458 2.105 7.200 4 2.5 43
468 2.150 7.300 4 3 46
488 2.000 7.155 4 3 36
498 2.321 8.250 4 3 40
505 2.400 8.100 4 2 25
515 2.525 8.250 4 3 35
535 2.570 8.300 4 3 28
545 2.571 9.640 4 3 33
550 3.016 8.948 4 3 13
"""


def test_nineteen_house_sales_with_prediction_interval() -> None:
    """A published exercise on 19 house sales (price, size, lot, bedrooms, bathrooms, age); answers by two solvers."""
    rows = [[Decimal(text) for text in line.split()] for line in NINETEEN.split("\n") if line]
    fit = least_squares([[ONE, *row[1:]] for row in rows], [row[0] for row in rows])
    assert fit is not None
    errors = fit.standard_errors()
    assert errors is not None
    printed = ("217.2183", "23.6670", "18.0645", "20.3497", "14.1973", "-1.0468")
    for found, text in zip(fit.coefficients, printed, strict=True):
        assert near(found, text)
    for found, text in zip(errors, ("49.3107", "27.2114", "5.6918", "7.4015", "9.4474", "0.3822"), strict=True):
        assert near(found, text)
    explained = fit.explained([row[0] for row in rows])
    assert near(explained, "0.97547")
    assert near(1 - (1 - explained) * 18 / 13, "0.96604")
    house = [ONE, *(Decimal(text) for text in ("1.9", "7.1", "3", "2", "40"))]
    spread = fit.spread_of_prediction(house)
    assert spread is not None
    half = t_quantile(Decimal("0.975"), fit.freedom) * spread
    assert near(fit.predicted(house), "438.0157")
    assert near(fit.predicted(house) - half, "405.4201") and near(fit.predicted(house) + half, "470.6112")


def test_dependent_columns_have_no_fit() -> None:
    rows = [[ONE, Decimal(2), Decimal(4)], [ONE, Decimal(3), Decimal(6)], [ONE, Decimal(5), Decimal(10)]]
    assert least_squares(rows, [ONE, ONE, ONE]) is None
    assert least_squares(rows[:1], [ONE]) is None
    assert least_squares([], []) is None


@pytest.mark.parametrize(
    ("probability", "freedom", "printed"),
    [
        ("0.975", 1, "12.706"),
        ("0.975", 2, "4.303"),
        ("0.95", 5, "2.015"),
        ("0.995", 10, "3.169"),
        ("0.975", 13, "2.160"),
        ("0.975", 30, "2.042"),
        ("0.975", 120, "1.980"),
    ],
)
def test_t_quantiles_of_the_usual_tables(probability: str, freedom: int, printed: str) -> None:
    """Percentage points of Student's t, as every table prints them (from memory)."""
    assert near(t_quantile(Decimal(probability), freedom), printed)


@pytest.mark.parametrize(("probability", "freedom"), [("0.5", 3), ("1", 3), ("0.975", 0)])
def test_t_quantile_refuses_nonsense(probability: str, freedom: int) -> None:
    with pytest.raises(ValueError, match="no t quantile"):
        t_quantile(Decimal(probability), freedom)


def _deviation(values: Sequence[Decimal]) -> Decimal:
    mean = sum(values, Decimal(0)) / len(values)
    return (sum(((one - mean) ** 2 for one in values), Decimal(0)) / (len(values) - 1)).sqrt()
