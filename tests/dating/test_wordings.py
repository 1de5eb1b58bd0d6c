"""Every wording on the list, at its widest and at its narrowest; everything else refused."""

from dataclasses import replace

import pytest
from support.dating import SETTINGS, month

from appraise.dating.settings import Settings, Width
from appraise.dating.wordings import (
    Bound,
    Refusal,
    Wording,
    conventions,
    normalised,
    read_end,
    read_start,
    read_wording,
)
from appraise.model.months import month_text


def _read(text: str, settings: Settings = SETTINGS) -> Wording:
    read = read_wording(text, settings)
    assert isinstance(read, Wording), read
    return read


# The conventions for vague words: our default, no source.
SAME = [
    ("1959", "1959-01/1959-12"),
    ("1959-11", "1959-11"),
    ("first half of 1958", "1958-01/1958-06"),
    ("second half of 1958", "1958-07/1958-12"),
    ("1950s", "1950-01/1959-12"),
    ("the 1950s", "1950-01/1959-12"),
    ("1950's", "1950-01/1959-12"),
    ("first half of the 1950s", "1950-01/1954-12"),
    ("second half of the 1950s", "1955-01/1959-12"),
    ("1957-59", "1957-01/1959-12"),
    ("1957-1959", "1957-01/1959-12"),
    ("1957–1959", "1957-01/1959-12"),
    ("1957/59", "1957-01/1959-12"),
    ("1957 to 1959", "1957-01/1959-12"),
    ("between 1957 and 1959", "1957-01/1959-12"),
    ("between March 1957 and June 1959", "1957-03/1959-06"),
    ("before 1965", "../1964-12"),
    ("prior to 1965", "../1964-12"),
    ("pre-1965", "../1964-12"),
    ("after 1957", "1958-01/.."),
    ("post-1957", "1958-01/.."),
    ("not before 1957", "1957-01/.."),
    ("through 1965", "../1965-12"),
    ("up to and including 1965", "../1965-12"),
    ("up to and including June 1959", "../1959-06"),
    ("not later than 1965", "../1965-12"),
    ("by 1965", "../1965-12"),
    ("1959 Q2", "1959-04/1959-06"),
    ("Q4 1959", "1959-10/1959-12"),
    ("first quarter of 1959", "1959-01/1959-03"),
    ("'57", "1957-01/1957-12"),
    ("'50s", "1950-01/1959-12"),
    ("November 1959", "1959-11"),
    ("Nov. 1959", "1959-11"),
    ("3 November 1959", "1959-11"),
    ("November 3, 1959", "1959-11"),
    ("1958-01/..", "1958-01/.."),
    ("../1964-12", "../1964-12"),
    ("after 1957 and before 1960", "1958-01/1959-12"),
    ("not before 1957 and not later than 1959", "1957-01/1959-12"),
]


@pytest.mark.parametrize(("text", "months"), SAME)
def test_exact_wordings_are_read_the_same_widely_and_narrowly(text: str, months: str) -> None:
    read = _read(text)
    assert (read.outer.edtf(), read.core.edtf(), read.question) == (months, months, "")


VAGUE = [
    ("early 1959", "1959-01/1959-06", "1959-01/1959-04"),
    ("mid 1959", "1959-04/1959-09", "1959-05/1959-08"),
    ("mid-1959", "1959-04/1959-09", "1959-05/1959-08"),
    ("late 1959", "1959-07/1959-12", "1959-09/1959-12"),
    ("early 1950s", "1950-01/1954-12", "1950-01/1953-12"),
    ("mid 1950s", "1953-01/1957-12", "1954-01/1956-12"),
    ("late 1950s", "1955-01/1959-12", "1957-01/1959-12"),
    ("spring 1959", "1959-03/1959-06", "1959-04/1959-05"),
    ("summer 1959", "1959-06/1959-09", "1959-07/1959-08"),
    ("autumn 1959", "1959-09/1959-12", "1959-10/1959-11"),
    ("fall 1959", "1959-09/1959-12", "1959-10/1959-11"),
    ("winter 1959-60", "1959-12/1960-03", "1960-01/1960-02"),
    ("c. 1960", "1955-01/1965-12", "1960-01/1960-12"),
    ("circa 1960", "1955-01/1965-12", "1960-01/1960-12"),
    ("about 1960", "1955-01/1965-12", "1960-01/1960-12"),
    ("mid-57", "1957-04/1957-09", "1957-05/1957-08"),
    ("19th century", "1800-01/1900-12", "1801-01/1899-12"),
    ("1954 or later", "1954-01/..", "1954-12/.."),
    ("from 1954", "1954-01/..", "1954-12/.."),
    ("since 1954", "1954-01/..", "1954-12/.."),
    ("1957 to present", "1957-01/..", "1957-12/.."),
    ("until 1965", "../1965-12", "../1964-12"),
    ("up to 1965", "../1965-12", "../1964-12"),
    ("from 1957 to 1959", "1957-01/1959-12", "1957-12/1959-01"),
    ("before mid 1959", "../1959-04", "../1959-03"),
    ("before c. 1960", "../1964-12", "../1954-12"),
    ("after c. 1960", "1956-01/..", "1966-01/.."),
    ("late 1955 to mid 1958", "1955-07/1958-09", "1955-09/1958-08"),
]


@pytest.mark.parametrize(("text", "outer", "core"), VAGUE)
def test_vague_wordings(text: str, outer: str, core: str) -> None:
    read = _read(text)
    assert (read.outer.edtf(), read.core.edtf(), read.question) == (outer, core, "")


ASKED = [
    ("1905-06", "DAT-02", "1905-01/1906-12", "1905-06", ("1905-1906", "June 1905")),
    ("winter 1959", "DAT-03", "1958-12/1959-03 or 1959-12/1960-03", "none", ("winter 1958-59", "winter 1959-60")),
    ("'05", "DAT-04", "1905-01/1905-12 or 2005-01/2005-12", "none", ("1905", "2005")),
    ("1900s", "DAT-05", "1900-01/1999-12", "1900-01/1909-12", ("1900-1909", "1900-1999")),
]


@pytest.mark.parametrize(("text", "code", "outer", "core", "options"), ASKED)
def test_wordings_with_two_meanings_are_asked_about(
    text: str, code: str, outer: str, core: str, options: tuple[str, ...]
) -> None:
    read = _read(text)
    assert (read.question, read.outer.edtf(), read.core.edtf(), read.options) == (code, outer, core, options)
    for option in options:
        assert not _read(option).question, "what we propose must not be asked about again"


REFUSED = [
    "",
    "banana",
    "around 1960",
    "early 1900s",
    "turn of the century",
    "1960-1958",
    "1959-00",
    "1957-56",
    "winter 1959-61",
    "week 54 of 1962",
    "week 0 of 1962",
    "3/11/1959",
    "57",
    "31 June 1959",
    "Juny 1959",
    "until",
    "Jun-05",
    "1957 or so",
    "between 1959 and 1957",
    "999",
]


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_not_on_the_list_is_refused_with_accepted_wordings(text: str) -> None:
    read = read_wording(text, SETTINGS)
    assert isinstance(read, Refusal)
    assert 1 <= len(read.near) <= 3
    for near in read.near:
        assert isinstance(read_wording(near, SETTINGS), Wording), near


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("around 1960", "about 1960"),
        ("beginning of 1959", "early 1959"),
        ("1957-8", "1957-58"),
        ("57", "'57"),
        ("1984~", "about 1984"),
        ("199x", "1990s"),
        ("2004-13", "2004-2013"),
    ],
)
def test_the_nearest_wording_comes_first(text: str, nearest: str) -> None:
    read = read_wording(text, SETTINGS)
    assert isinstance(read, Refusal)
    assert read.near[0] == nearest


def test_or_lists_are_readings() -> None:
    read = _read("1957, c. 1960 or '63")
    assert [(one.name, one.outer.edtf()) for one in read.readings] == [
        ("1957", "1957-01/1957-12"),
        ("c. 1960", "1955-01/1965-12"),
        ("'63", "1963-01/1963-12"),
    ]
    assert read.outer.edtf() == "1955-01/1965-12"
    assert read.core.edtf() == "1957-01/1957-12 or 1960-01/1960-12 or 1963-01/1963-12"


def test_case_spaces_dashes_and_apostrophes_do_not_matter() -> None:
    assert normalised("  LATE\u00a0\u20191950s ") == "late '1950s"
    assert _read("Mid\u20111959").outer == _read("mid 1959").outer
    assert _read("\u201957").outer == _read("'57").outer


def test_the_year_of_two_figures_lies_between_the_makers_first_year_and_the_examination() -> None:
    assert _read("'05", replace(SETTINGS, first_year=1920)).outer.edtf() == "2005-01/2005-12"
    assert _read("'05", replace(SETTINGS, examined=month("1999-01"))).outer.edtf() == "1905-01/1905-12"
    assert _read("'30", replace(SETTINGS, first_year=1820)).outer.edtf() == "1830-01/1830-12 or 1930-01/1930-12"
    assert isinstance(read_wording("'30", replace(SETTINGS, first_year=1940)), Refusal)


@pytest.mark.parametrize(
    ("locale", "text", "months"),
    [
        ("de_DE", "März 1959", "1959-03"),
        ("de_DE", "3. Dezember 1959", "1959-12"),
        ("de", "Dez. 1959", "1959-12"),
        ("fr_FR", "août 1959", "1959-08"),
        ("fr_FR", "1er mars 1959", "1959-03"),
        ("fr-FR", "before février 1959", "../1959-01"),
        ("es", "3 de junio de 1959", "1959-06"),
        ("de_DE", "March 1959", "1959-03"),
        ("xx_YY", "March 1959", "1959-03"),
    ],
)
def test_month_names_in_the_language_of_the_workbook(locale: str, text: str, months: str) -> None:
    assert _read(text, replace(SETTINGS, locale=locale)).outer.edtf() == months


def test_month_names_of_another_language_are_refused() -> None:
    assert isinstance(read_wording("août 1959", SETTINGS), Refusal)


def _ends(bound: Bound | Refusal) -> tuple[str | None, str | None]:
    assert isinstance(bound, Bound), bound
    return tuple(None if one is None else month_text(one) for one in (bound.first, bound.last))  # type: ignore[return-value]


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("1959", "1959-01", "1959-12"),
        ("from 1959", "1959-01", "1959-12"),
        ("since 1959", "1959-01", "1959-12"),
        ("1959 or later", "1959-01", "1959-12"),
        ("late 1955", "1955-07", "1955-12"),
        ("after 1957", "1958-01", "1958-01"),
        ("not before 1957", "1957-01", "1957-01"),
        ("c. 1960", "1955-01", "1965-12"),
        ("June 1959", "1959-06", "1959-06"),
        ("1957-59", "1957-01", "1959-12"),
        ("1957 or 1963", "1957-01", "1963-12"),
    ],
)
def test_starts(text: str, first: str, last: str) -> None:
    assert _ends(read_start(text, SETTINGS)) == (first, last)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("1965", "1965-01", "1965-12"),
        ("until 1965", "1964-12", "1965-12"),
        ("up to 1965", "1964-12", "1965-12"),
        ("until mid 1959", "1959-03", "1959-09"),
        ("through 1965", "1965-12", "1965-12"),
        ("up to and including 1965", "1965-12", "1965-12"),
        ("not later than June 1959", "1959-06", "1959-06"),
        ("through mid 1959", "1959-08", "1959-09"),
        ("before 1965", "1964-12", "1964-12"),
        ("to present", None, None),
        ("present", None, None),
    ],
)
def test_ends(text: str, first: str | None, last: str | None) -> None:
    assert _ends(read_end(text, SETTINGS)) == (first, last)


@pytest.mark.parametrize("text", ["until 1965", "before 1965", "through 1965", "to present", "1957 to 1959"])
def test_an_end_is_refused_as_a_start(text: str) -> None:
    assert isinstance(read_start(text, SETTINGS), Refusal)


@pytest.mark.parametrize("text", ["from 1965", "after 1965", "not before 1965", "since 1965", "from 1957 to 1959"])
def test_a_start_is_refused_as_an_end(text: str) -> None:
    assert isinstance(read_end(text, SETTINGS), Refusal)


def test_widths_are_settings() -> None:
    own = replace(SETTINGS, circa_years=2, early_year=Width((1, 4), (1, 3)))
    assert _read("c. 1960", own).outer.edtf() == "1958-01/1962-12"
    assert _read("early 1959", own).outer.edtf() == "1959-01/1959-04"
    assert _read("early 1959", own).core.edtf() == "1959-01/1959-03"


def test_conventions_are_shown_by_the_reader_itself() -> None:
    shown = {one.key: one for one in conventions(replace(SETTINGS, circa_years=3))}
    assert (shown["circa"].example, shown["circa"].outer) == ("c. 1960", "1957-01/1963-12")
    used = _read("from mid 1959").uses | _read("c. 1960").uses | _read("until winter 1959-60").uses
    assert used == {"mid year", "circa", "winter", "until"}
    assert used <= set(shown)
