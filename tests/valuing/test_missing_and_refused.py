"""What cannot be computed says why at the cell, and the rest is still computed."""

from collections.abc import Mapping

import pytest
from support.valuing_comparison import PLAIN, codes, figures_text, opinion_of

from appraise.findings.entries import action, message
from appraise.model.figure import Figure, NoFigure
from appraise.model.place import Place

RATES = "currency | day | rate | direction\nGBP | 2024-02-20 | 1.25 | report currency per foreign unit"
PREMIUMS = """
    table | house          | currency | valid_from | valid_to   | up_to | rate | tax
    A1    | Marrowby Rooms | USD      | 2020-01-01 | 2024-02-28 | 5000  | 30   | 0
    A1    | Marrowby Rooms | USD      | 2020-01-01 | 2024-02-28 | 9000  | 25   |
"""
COLUMNS = "id | kind | currency | price | day | premium_table | tax_included | grade | is_subject\n"
OTHERS = """
    s2 | dealer sold | USD | 12000.00 | 2024-05-01 | | | 8 |
    s3 | dealer sold | USD | 11000.00 | 2024-06-01 | | | 8 |
"""


def first_sale(sale: str, **sheets: str) -> Mapping[str, str]:
    """Return the plain job with its first sale replaced and other sheets as given."""
    return PLAIN | {"sales": f"{COLUMNS}s1 | {sale}\n{OTHERS}"} | sheets


def comparisons(line: str) -> str:
    """Return the lines with the first one replaced."""
    keys = "id | item | value_type | sale | discount | level | condition | deductions | other | lump | weight\n"
    rest = "\nc2 | G01 | fair market value | s2 | | | | | | | 1\nc3 | G01 | fair market value | s3 | | | | | | | 1"
    return f"{keys}c1 | G01 | fair market value | s1 | {line}{rest}"


PLAIN_SALE = "dealer sold | USD | 10000.00 | 2024-03-01 | | | 8 |"

#: Name, sheets, code of the reason, its cell.
REFUSALS: list[tuple[str, Mapping[str, str], str, Place]] = [
    (
        "no rate",
        first_sale("private sold | GBP | 8000 | 2024-02-28 | | | |", rates=RATES),
        "CMP-31",
        Place("Sales", 2, "day"),
    ),
    (
        "no rate at all",
        first_sale("private sold | EUR | 8000 | 2024-02-28 | | | |"),
        "CMP-31",
        Place("Sales", 2, "day"),
    ),
    (
        "table not in force",
        first_sale("hammer | USD | 8000 | 2024-03-01 | A1 | | |", premiums=PREMIUMS),
        "CMP-26",
        Place("Sales", 2, "premium_table"),
    ),
    (
        "no table",
        first_sale("hammer | USD | 8000 | 2024-02-01 | | | |", premiums=PREMIUMS),
        "CMP-25",
        Place("Sales", 2, "premium_table"),
    ),
    (
        "table in another currency",
        first_sale("hammer | GBP | 8000 | 2024-02-20 | A1 | | |", premiums=PREMIUMS, rates=RATES),
        "CMP-27",
        Place("Sales", 2, "currency"),
    ),
    (
        "above the last tier",
        first_sale("hammer | USD | 9001 | 2024-02-01 | A1 | | |", premiums=PREMIUMS),
        "CMP-28",
        Place("Premiums", 3, "up_to"),
    ),
    ("unsold", first_sale("unsold | USD | 8000 | 2024-02-01 | | | |"), "CMP-21", Place("Sales", 2, "kind")),
    ("price zero", first_sale("dealer sold | USD | 0 | 2024-02-01 | | | |"), "CMP-22", Place("Sales", 2, "price")),
    ("price missing", first_sale("dealer sold | USD | | 2024-02-01 | | | |"), "VAL-01", Place("Sales", 2, "price")),
    (
        "price unreadable",
        first_sale("dealer sold | USD | unreadable | 2024-02-01 | | | |"),
        "VAL-01",
        Place("Sales", 2, "price"),
    ),
    ("kind missing", first_sale(" | USD | 8000 | 2024-02-01 | | | |"), "VAL-01", Place("Sales", 2, "kind")),
    (
        "currency missing",
        first_sale("dealer sold | | 8000 | 2024-02-01 | | | |"),
        "VAL-01",
        Place("Sales", 2, "currency"),
    ),
    (
        "tax below zero",
        first_sale("dealer sold | USD | 8000 | 2024-02-01 | | -5 | |"),
        "CMP-23",
        Place("Sales", 2, "tax_included"),
    ),
    (
        "no such sale",
        PLAIN | {"comparisons": comparisons("| | | | | | 1").replace("s1", "nowhere")},
        "CMP-20",
        Place("Comparisons", 2, "sale"),
    ),
    (
        "discount of all",
        first_sale("asking | USD | 8000 | 2024-02-01 | | | |", comparisons=comparisons("100 | | | | | | 1")),
        "CMP-24",
        Place("Comparisons", 2, "discount"),
    ),
    (
        "discount with a sign",
        first_sale("asking | USD | 8000 | 2024-02-01 | | | |", comparisons=comparisons("-12 | | | | | | 1")),
        "CMP-24",
        Place("Comparisons", 2, "discount"),
    ),
    (
        "level of all",
        first_sale(PLAIN_SALE, comparisons=comparisons("| -100 | | | | | 1")),
        "CMP-32",
        Place("Comparisons", 2, "level"),
    ),
    (
        "deductions in words",
        first_sale(PLAIN_SALE, comparisons=comparisons("| | | much | | | 1")),
        "CMP-36",
        Place("Comparisons", 2, "deductions"),
    ),
    (
        "deductions of all",
        first_sale(PLAIN_SALE, comparisons=comparisons("| | | 100 | | | 1")),
        "CMP-37",
        Place("Comparisons", 2, "deductions"),
    ),
    (
        "percents below -100",
        first_sale(
            PLAIN_SALE,
            comparisons=comparisons("| | -60 | | -55 | | 1"),
            assignment="currency | USD\neffective_date | 2024-11-15\ncombine_adjustments | add",
        ),
        "CMP-38",
        Place("Comparisons", 2, ""),
    ),
    (
        "lump sum of all",
        first_sale(PLAIN_SALE, comparisons=comparisons("| | | | | -10000 | 1")),
        "CMP-39",
        Place("Comparisons", 2, "lump"),
    ),
    (
        "grade not on the scale",
        first_sale(
            "dealer sold | USD | 8000 | 2024-02-01 | | | 6.5 |",
            items="id | grade | scale\nG01 | 8 | K",
            scales="scale | grade | percent\nK | 8 | 79\nK | 7 | 72",
        ),
        "CMP-35",
        Place("Sales", 2, "grade"),
    ),
    (
        "day missing with an index",
        first_sale(
            "dealer sold | USD | 8000 | | | | |",
            items="id | index\nG01 | X",
            indexes="index | month | figure\nX | 2024-01 | 100\nX | 2024-11 | 105",
        ),
        "VAL-01",
        Place("Sales", 2, "day"),
    ),
    (
        "sale after the index ended",
        first_sale(
            "dealer sold | USD | 8000 | 2024-12-02 | | | |",
            items="id | index\nG01 | X",
            indexes="index | month | figure\nX | 2024-01 | 100\nX | 2024-11 | 105",
        ),
        "CMP-34",
        Place("Sales", 2, "day"),
    ),
]


@pytest.mark.parametrize(("sheets", "code", "place"), [pytest.param(*one[1:], id=one[0]) for one in REFUSALS])
def test_a_comparison_that_cannot_be_computed_says_why_at_the_cell(
    sheets: Mapping[str, str], code: str, place: Place
) -> None:
    valuation, ledger = opinion_of(sheets)
    first = valuation.comparisons[0]
    assert isinstance(first.adjusted, NoFigure)
    assert [(one.code, one.place) for one in first.adjusted.because] == [(code, place)]
    assert set(first.adjusted.because) <= set(valuation.findings)
    if first.sale is not None:
        assert "CMP-06" in codes(first.findings)
    # the rest is computed: two sales are left, of weight 1 each
    assert [one.used for one in valuation.comparisons] == [False, True, True]
    assert figures_text(valuation)["weight_total"] == "2"
    assert isinstance(valuation.rounded, Figure)
    assert not any(figure.startswith("G01.fmv.c1.adjusted") for figure in ledger.figures)


@pytest.mark.parametrize("sheets", [pytest.param(one[1], id=one[0]) for one in REFUSALS])
def test_every_finding_fills_its_sentence(sheets: Mapping[str, str]) -> None:
    for one in opinion_of(sheets)[0].findings:
        assert "{" not in message(one)
        assert "{" not in action(one)


#: Name, sheets, code, cell: the whole opinion has no figure.
NO_VALUE: list[tuple[str, Mapping[str, str], str, Place]] = [
    ("index unknown", PLAIN | {"items": "id | index\nG01 | nowhere"}, "VAL-02", Place("Items", 2, "index")),
    (
        "index ended",
        PLAIN
        | {"items": "id | index\nG01 | X", "indexes": "index | month | figure\nX | 2024-01 | 100\nX | 2024-10 | 105"},
        "VAL-03",
        Place("Items", 2, "index"),
    ),
    ("scale unknown", PLAIN | {"items": "id | grade | scale\nG01 | 8 | nowhere"}, "VAL-05", Place("Items", 2, "scale")),
    (
        "grade missing",
        PLAIN
        | {
            "items": "id | scale\nG01 | K",
            "scales": "scale | grade | percent\nK | 8 | 79",
            "sales": PLAIN["sales"].replace("| model\n", "| model | grade\n").replace("Consul 17\n", "Consul 17 | 8\n"),
        },
        "VAL-01",
        Place("Items", 2, "grade"),
    ),
    (
        "deduction above all",
        PLAIN | {"parts": "item | part | state | deduction\nG01 | neck | modified | 120"},
        "VAL-07",
        Place("Parts", 2, "deduction"),
    ),
    (
        "no currency",
        PLAIN | {"assignment": "effective_date | 2024-11-15"},
        "VAL-01",
        Place("Assignment", 0, "currency"),
    ),
    (
        "no weight above zero",
        PLAIN | {"comparisons": PLAIN["comparisons"].replace("| 1\n", "| 0\n")},
        "VAL-10",
        Place("Items", 2, "id"),
    ),
    ("no comparison", PLAIN | {"comparisons": "id | item"}, "VAL-10", Place("Items", 2, "id")),
]


@pytest.mark.parametrize(("sheets", "code", "place"), [pytest.param(*one[1:], id=one[0]) for one in NO_VALUE])
def test_an_opinion_that_cannot_be_computed_says_why_at_the_cell(
    sheets: Mapping[str, str], code: str, place: Place
) -> None:
    valuation, _ = opinion_of(sheets)
    assert isinstance(valuation.rounded, NoFigure)
    assert (code, place) in [(one.code, one.place) for one in valuation.findings]
    for one in valuation.findings:
        assert "{" not in message(one)


def test_without_an_effective_date_there_is_a_value_unless_an_index_asks_for_it() -> None:
    dateless = PLAIN | {"assignment": "currency | USD"}
    assert isinstance(opinion_of(dateless)[0].rounded, Figure)
    indexed = dateless | {
        "items": "id | index\nG01 | X",
        "indexes": "index | month | figure\nX | 2024-01 | 100\nX | 2024-11 | 105",
    }
    valuation, _ = opinion_of(indexed)
    assert isinstance(valuation.rounded, NoFigure)
    places = {one.place for one in valuation.findings if one.code == "VAL-01"}
    assert places == {Place("Assignment", 0, "effective_date")}


def test_one_missing_input_makes_one_finding() -> None:
    sheets = PLAIN | {"items": "id | index\nG01 | nowhere"}
    valuation, _ = opinion_of(sheets)
    assert codes(valuation.findings).count("VAL-02") == 1


def test_lines_of_one_id_do_not_collide() -> None:
    sheets = PLAIN | {"comparisons": PLAIN["comparisons"].replace("c2", "c1").replace("c3", "subject")}
    valuation, ledger = opinion_of(sheets)
    assert [one.line for one in valuation.comparisons] == ["c1", "row3", "row4"]
    assert "G01.fmv.row3.adjusted" in ledger.figures


@pytest.mark.parametrize(("weight", "code"), [("", "VAL-01"), ("-1", "CMP-40")])
def test_a_line_without_a_proper_weight_is_not_used(weight: str, code: str) -> None:
    sheets = PLAIN | {"comparisons": PLAIN["comparisons"].replace("s1   | 1", f"s1   | {weight}")}
    valuation, _ = opinion_of(sheets)
    first = valuation.comparisons[0]
    assert isinstance(first.adjusted, Figure)
    assert not first.used
    assert [(one.code, one.place) for one in first.findings] == [(code, Place("Comparisons", 2, "weight"))]


def test_where_every_line_lacks_the_same_thing_the_value_points_there() -> None:
    sheets = PLAIN | {"comparisons": PLAIN["comparisons"].replace("| 1\n", "|\n")}
    rounded = opinion_of(sheets)[0].rounded
    assert isinstance(rounded, NoFigure)
    assert [(one.code, one.place.row) for one in rounded.because] == [("VAL-01", 2), ("VAL-01", 3), ("VAL-01", 4)]


def test_where_every_line_is_refused_by_a_rule_the_value_is_a_stop() -> None:
    sheets = PLAIN | {
        "sales": PLAIN["sales"].replace("all-in     ", "unsold     ").replace("dealer sold", "unsold     ")
    }
    rounded = opinion_of(sheets)[0].rounded
    assert isinstance(rounded, NoFigure)
    assert codes(rounded.because) == ["CMP-21", "CMP-21", "CMP-21", "VAL-10"]


@pytest.mark.parametrize("word", ["unknown", "not inspected", "unreadable"])
@pytest.mark.parametrize("column", ["discount", "level", "condition", "deductions", "other", "lump"])
def test_a_step_stated_unknown_is_not_a_step_of_nothing(column: str, word: str) -> None:
    """A blank percent is no step; one stated unknown leaves the line without a price, and says so at the cell."""
    columns = ["discount", "level", "condition", "deductions", "other", "lump"]
    cells = " | ".join(word if one == column else "" for one in columns)
    sheets = first_sale("asking | USD | 10000.00 | 2024-03-01 | | | 8 |", comparisons=comparisons(f"{cells} | 1"))
    valuation, _ = opinion_of(sheets)
    line = valuation.comparisons[0]
    assert isinstance(line.adjusted, NoFigure)
    assert [(one.code, one.place) for one in line.adjusted.because] == [("VAL-01", Place("Comparisons", 2, column))]
    assert figures_text(valuation)["value"] == "11500.00"


def test_sales_tax_stated_unknown_is_not_taken_for_none() -> None:
    valuation, _ = opinion_of(first_sale("dealer sold | USD | 10000.00 | 2024-03-01 | | unknown | 8 |"))
    line = valuation.comparisons[0]
    assert isinstance(line.adjusted, NoFigure)
    assert [(one.code, one.place) for one in line.adjusted.because] == [("VAL-01", Place("Sales", 2, "tax_included"))]


def with_level_and_lump(level: str, lump: str) -> Mapping[str, str]:
    return first_sale(
        "dealer sold | USD | 0.01 | 2024-03-01 | | | 8 |", comparisons=comparisons(f" | {level} | | | | {lump} | 1")
    )


@pytest.mark.parametrize("route", ["adjusted", "relative"])
def test_a_price_rounded_to_nothing_is_refused(route: str) -> None:
    """0.01 less 99 percent is 0.00: no price, whatever a lump sum would add to it, and no division by it."""
    opinions = f"item | value_type | route\nG01 | fair market value | {route}"
    valuation, _ = opinion_of(dict(with_level_and_lump("-99", "10")) | {"opinions": opinions})
    line = valuation.comparisons[0]
    assert isinstance(line.adjusted, NoFigure)
    assert [(one.code, one.place) for one in line.adjusted.because] == [("CMP-22", Place("Sales", 2, "price"))]


def test_a_lump_sum_that_leaves_nothing_after_rounding_is_refused() -> None:
    valuation, _ = opinion_of(with_level_and_lump("", "-0.009"))
    line = valuation.comparisons[0]
    assert isinstance(line.adjusted, NoFigure)
    assert [one.code for one in line.adjusted.because] == ["CMP-39"]


def test_an_index_figure_of_nothing_to_four_decimals_is_no_point() -> None:
    items = "id | maker | model | index\nG01 | Skarvholm | Consul 17 | A"
    indexes = "index | month | figure | carry_last\nA | 2024-01 | 0.00004 | yes\nA | 2024-02 | 0.00005 | yes"
    valuation, _ = opinion_of(PLAIN | {"items": items, "indexes": indexes})
    assert figures_text(valuation)["index_valuation"] == "0.0001"
    assert figures_text(valuation)["value"] == "11000.00"
