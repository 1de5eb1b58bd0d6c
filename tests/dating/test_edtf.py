"""Windows as printed, against the registry package `edtf` and the examples of ISO 8601-2 (EDTF)."""

import warnings
from random import Random
from typing import Any

import pytest
from support.dating import SETTINGS, month

from appraise.dating.wordings import Refusal, Wording, read_wording
from appraise.model.months import Months, month_text

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # the package's grammar warns about itself when it is made
    from edtf import parse_edtf


def _bounds(text: str) -> tuple[str | None, str | None]:
    """Return the strict first and last month the package reads, None for an open end."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        read = parse_edtf(text)
        return _month(read.lower_strict()), _month(read.upper_strict())


def _month(day: Any) -> str | None:
    return None if isinstance(day, float) else f"{day.tm_year:04d}-{day.tm_mon:02d}"


def _ends(months: Months) -> tuple[str | None, str | None]:
    return tuple(None if one is None else month_text(one) for one in (months.first, months.last))  # type: ignore[return-value]


def test_every_run_we_print_is_read_back_by_the_package() -> None:
    random = Random("printed runs")
    for _ in range(120):
        first = random.randint(month("1650-01"), month("2020-12"))
        last = first + random.choice((0, 1, 11, 12, 700))
        opened = random.choice(("", "", "below", "above"))
        months = Months.between(None if opened == "below" else first, None if opened == "above" else last)
        assert _bounds(months.edtf()) == _ends(months), months.edtf()


def test_every_set_we_print_is_read_back_by_our_own_reader() -> None:
    random = Random("read back")
    for _ in range(300):
        runs = []
        at = random.randint(month("1850-01"), month("1950-12"))
        for _ in range(random.randint(1, 3)):
            end = at + random.randint(0, 50)
            runs.append(Months.between(at, end).runs[0])
            at = end + random.randint(2, 60)
        months = Months.of(runs)
        read = read_wording(months.edtf(), SETTINGS)
        assert isinstance(read, Wording)
        # A single month such as 1905-06 may also be two years, and is asked about: its core is the month.
        assert (read.core if read.question else read.outer) == months


# Library of Congress, Extended Date/Time Format specification (February 2019), example strings, level 0 and the
# open intervals of level 1; strict bounds as held in the tests of the package `edtf` 5.0.2.
ACCEPTED = [
    ("2001-02-03", "2001-02", "2001-02"),
    ("2008", "2008-01", "2008-12"),
    ("1964/2008", "1964-01", "2008-12"),
    ("2004-06/2006-08", "2004-06", "2006-08"),
    ("2004-02-01/2005-02", "2004-02", "2005-02"),
    ("../2006", None, "2006-12"),
    ("2004-01-01/..", "2004-01", None),
]


@pytest.mark.parametrize(("text", "first", "last"), ACCEPTED)
def test_examples_of_the_standard_are_read(text: str, first: str | None, last: str | None) -> None:
    read = read_wording(text, SETTINGS)
    assert isinstance(read, Wording)
    assert _ends(read.outer) == (first, last)
    assert _bounds(text) == (first, last)


def test_a_month_of_the_standard_that_may_be_two_years_is_asked_about() -> None:
    """`2008-12` is December 2008 in the standard; in the trade it may be 2008 to 2012. The core is the month."""
    read = read_wording("2008-12", SETTINGS)
    assert isinstance(read, Wording)
    assert (read.core.edtf(), read.outer.edtf(), read.question) == ("2008-12", "2008-01/2012-12", "DAT-02")


# Examples of the same specification of levels 1 and 2: not on our list, so refused, with the wording to use instead.
PROPOSED = [
    ("1984?", "about 1984"),
    ("199X", "1990s"),
    ("19XX", "1900-1999"),
    ("1984~/2004-06", None),
    ("2004-06~", None),
    ("1999-XX", None),
    ("[..1760-12-03]", None),
]


@pytest.mark.parametrize(("text", "proposal"), PROPOSED)
def test_higher_levels_are_refused_with_a_proposal(text: str, proposal: str | None) -> None:
    read = read_wording(text, SETTINGS)
    assert isinstance(read, Refusal)
    assert read.near
    if proposal:
        assert read.near[0] == proposal


# The specification's bad examples, and a day that does not exist which the package accepts.
@pytest.mark.parametrize(
    "text", ["2016-13-08", "2016-02-39", "2004-02-30", "2004-13", "2004-(06)?-11", "2023-02-29", "1999-99", "2004/2001"]
)
def test_impossible_dates_are_refused(text: str) -> None:
    assert isinstance(read_wording(text, SETTINGS), Refusal)


def test_windows_with_both_ends_included() -> None:
    """Arithmetic on the semantics of the standard: the three meet from July 1961 to June 1963."""
    read = [read_wording(text, SETTINGS) for text in ("1959/1963", "1961-07-01/..", "../1963-06-30")]
    found = Months.between(None, None)
    for one in read:
        assert isinstance(one, Wording)
        found = found & one.outer
    assert found.edtf() == "1961-07/1963-06"
    apart = [read_wording(text, SETTINGS) for text in ("../1963-06-30", "1963-07-01/..")]
    assert not apart[0].outer & apart[1].outer  # type: ignore[union-attr]
