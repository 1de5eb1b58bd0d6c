"""How checks read what a person wrote."""

import pytest

from appraise.checks.text import (
    affirms,
    covers,
    listed,
    mentions,
    plain,
    plain_serial,
    same_name,
    says_nothing,
    unknown_ids,
)
from appraise.model.missing import BLANK, UNKNOWN


@pytest.mark.parametrize(
    ("text", "nothing"),
    [("none", True), ("None.", True), (" n/a ", True), ("-", True), ("none but one", False), (BLANK, False)],
)
def test_says_nothing(text: object, nothing: bool) -> None:
    assert says_nothing(text) is nothing  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Unauthenticated", ""),
        ("an Authentic one", "Authentic"),
        ("authenticated by no one", "authenticated"),
        (UNKNOWN, ""),
    ],
)
def test_mentions_finds_a_word_by_its_beginning(text: object, found: str) -> None:
    assert mentions(text, "authentic") == found  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("one crack", "crack"),
        ("no cracks", ""),
        ("no visible cracks", ""),
        ("without cracks or splits", ""),
        ("no cracks, loose brace", "loose"),
        ("crackle finish", "crackle"),
    ],
)
def test_affirms_leaves_out_what_is_denied(text: str, found: str) -> None:
    assert affirms(text, "crack", "split", "loose") == found


def test_lists_of_ids() -> None:
    assert listed("G01; A01,G02\n G03 ;") == ("G01", "A01", "G02", "G03")
    assert listed("none") == listed(BLANK) == ()
    assert covers("All", "X")
    assert not covers("G01", "G011")
    assert list(unknown_ids("G01; G02", ["G01"])) == ["G02"]
    assert list(unknown_ids("all", [])) == []


def test_names_are_compared_without_case_accents_and_punctuation() -> None:
    assert plain("Nº 0 221-7") == "no02217"
    assert same_name("Pardlowe  Électric", "PARDLOWE electric")
    assert not same_name("", "")
    assert not same_name(BLANK, BLANK)


@pytest.mark.parametrize(
    ("typed", "compared"),
    [
        ("22-17", "2217"),
        ("No. 22 17", "2217"),
        ("Serial no.: 2217", "2217"),
        ("Nº 2217", "2217"),
        ("№ 2217", "2217"),
        ("#2217", "2217"),
        ("Nr 2217", "2217"),
        ("NO2217", "no2217"),
        ("N2217", "n2217"),
        ("Nova 3", "nova3"),
        (BLANK, ""),
    ],
)
def test_a_serial_is_compared_without_words_that_only_say_it_is_a_number(typed: object, compared: str) -> None:
    assert plain_serial(typed) == compared  # type: ignore[arg-type]
