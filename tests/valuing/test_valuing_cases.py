"""Valuation cases: every figure that a case states is compared, to the cent; the id of the test is the case's id."""

import pytest
from support.valuing import Case, all_cases


def refusals_as_one(figures: dict[str, str]) -> dict[str, str]:
    """Return the figures with every refusal reduced to the fact: its wording is explanation."""
    return {label: "refused" if label.endswith(".refused") else text for label, text in figures.items()}


@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.id)
def test_case(case: Case) -> None:
    assert case.expected
    computed = refusals_as_one(case.computed())
    expected = refusals_as_one(dict(case.expected))
    assert {label: computed.get(label) for label in expected} == expected
