"""Numbers as stamped, read into the months of their grant."""

import pytest

from appraise.dating.numbers import Grant, read_grants


def _one(text: str) -> Grant:
    read = read_grants(text)
    assert isinstance(read, tuple), read
    assert len(read) == 1
    return read[0]


@pytest.mark.parametrize(
    "text", ["US 2,524,035", "U.S. Pat. No. 2,524,035", "US patent 2524035", "US2524035", "us pat 2 524 035"]
)
def test_a_us_patent_in_many_spellings(text: str) -> None:
    assert _one(text).months.edtf() == "1950-01/1950-12"


@pytest.mark.parametrize("text", ["US D 19553", "U.S. Des. 19,553", "US Design 19553", "US D19553"])
def test_a_us_design_patent_lies_between_two_years_of_the_table(text: str) -> None:
    """uspat.com: D19553 is the first of 1890, D23922 the first of 1895."""
    assert _one(text).months.edtf() == "1890-01/1894-12"


@pytest.mark.parametrize("text", ["GB Rd 821265", "Rd No. 821265", "Regd. design no. 821265"])
def test_a_british_registered_design(text: str) -> None:
    """oldcopper.org: no. 821265 was registered in 1937."""
    months = _one(text).months
    assert (months.first, months.last) == (12 * 1930, 12 * 1939 + 11)
    assert 12 * 1937 in months


def test_a_british_diamond() -> None:
    """oldcopper.org, registered designs: first type X is 1842, second type X 1868; month letter R is August."""
    assert _one("GB diamond 1 X R").months.edtf() == "1842-08"
    assert _one("diamond 2 x r").months.edtf() == "1868-08"
    assert _one("diamond 1 R K").months.edtf() == "1861-11"


def test_several_numbers_are_read_in_turn() -> None:
    read = read_grants("US 1,446,758; US 2,046,343")
    assert isinstance(read, tuple)
    assert [one.months.edtf() for one in read] == ["1923-01/1923-12", "1936-01/1936-12"]


@pytest.mark.parametrize(
    "text", ["2524035", "Pat. 2,524,035", "US Re. 21,000", "Re. 21000", "US 0", "diamond 1 X J", "", "FR 12"]
)
def test_what_cannot_be_read_says_why(text: str) -> None:
    assert isinstance(read_grants(text), str)
