"""Findings on one comparison, each on both sides of its limit (method rule R22)."""

import pytest
from support.valuing_comparison import PLAIN, codes, opinion_of, short_names

KEYS = "id | item | value_type | sale | discount | condition | other | lump | weight | use_reason\n"


def first_line(sale: str, line: str, items: str = "id\nG01", indexes: str = "index | month") -> list[str]:
    """Return the codes of the findings on the first of two lines."""
    sheets = PLAIN | {
        "items": items,
        "indexes": indexes,
        "sales": f"id | kind | currency | price | day\ns1 | {sale}\ns2 | dealer sold | USD | 9000 | 2024-05-01",
        "comparisons": f"{KEYS}c1 | G01 | fair market value | s1 | {line}\n"
        "c2 | G01 | fair market value | s2 | | | | | 1 |",
    }
    return codes(opinion_of(sheets)[0].comparisons[0].findings)


@pytest.mark.parametrize(
    ("day", "line", "expected"),
    [
        ("2024-11-14", "| | | | 1 |", []),
        ("2024-11-15", "| | | | 1 |", []),
        ("2024-11-16", "| | | | 1 |", ["CMP-01", "CMP-09"]),
        ("2024-11-16", "| | | | 1 | shows what was foreseen", ["CMP-01"]),
        ("2024-11-16", "| | | | 0 |", ["CMP-01"]),
        ("2021-11-16", "| | | | 1 |", []),
        ("2021-11-15", "| | | | 1 |", []),  # thirty-six months before, to the day
        ("2021-11-14", "| | | | 1 |", ["CMP-02"]),
        ("2021-11-14", "| | | | 0 |", ["CMP-02"]),
    ],
)
def test_after_the_date_and_old(day: str, line: str, expected: list[str]) -> None:
    assert first_line(f"dealer sold | USD | 10000 | {day}", line) == expected


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("12 | | | | 1 |", ["CMP-03", "CMP-10"]),
        ("12 | | | | 1 | no sale is known", ["CMP-03"]),
        ("12 | | | | 0 |", ["CMP-03"]),
    ],
)
def test_asking_price(line: str, expected: list[str]) -> None:
    assert first_line("asking | USD | 10000 | 2024-05-01", line) == expected


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("| -25.00 | | | 1 |", []),
        ("| -25.01 | | | 1 |", ["CMP-08"]),
        ("| 25.01 | | | 1 |", ["CMP-08"]),
        ("| -20 | 25 | | 1 |", ["CMP-07"]),  # net 0, gross 45
        ("| -20 | 20 | | 1 |", []),  # gross 40, not above it
        ("| -20 | 20 | 1 | 1 |", ["CMP-07"]),  # gross 40.01
        ("| -45 | | | 0 |", ["CMP-07", "CMP-08"]),
    ],
)
def test_gross_and_net(line: str, expected: list[str]) -> None:
    assert first_line("dealer sold | USD | 10000 | 2024-05-01", line) == expected


def test_a_carried_index_is_said_of_the_line_and_of_the_opinion() -> None:
    indexes = "index | month | figure | carry_last\nX | 2024-01 | 100 | yes\nX | 2024-05 | 104 | yes"
    sale = "dealer sold | USD | 10000 | 2024-06-01"
    assert first_line(sale, "| | | | 1 |", "id | index\nG01 | X", indexes) == ["CMP-05"]
    assert first_line(sale.replace("06-01", "05-31"), "| | | | 1 |", "id | index\nG01 | X", indexes) == []


def test_an_asking_price_needs_no_reason_in_a_replacement_value() -> None:
    sheets = PLAIN | {
        "value_terms": "value_type | market | price_basis | premium_tax | conclusion\n"
        "retail replacement value | dealer retail | all-in | in the price | weighted mean",
        "sales": PLAIN["sales"].replace("all-in     ", "asking     "),
    }
    valuation, _ = opinion_of(sheets)
    assert codes(valuation.findings) == ["CMP-03", "CMP-03"]
    assert short_names(valuation.findings) == "asking, asking"
