"""Texts by key: none missing, none stale, fields agree, and the code uses exactly the keys there are."""

import re
from pathlib import Path

import pytest

from appraise.records.vocabulary import PartState
from appraise.wording.texts import (
    ENGLISH,
    fields_of,
    languages,
    missing,
    originals,
    stale,
    texts,
    translations,
    word_key,
)

APPRAISE = Path(__file__).parents[2] / "appraise"
COMPOSE = [
    *sorted((APPRAISE / "report").rglob("*.py")),
    *sorted((APPRAISE / "jobs").glob("*.py")),
    APPRAISE / "wording" / "windows.py",
]
LITERAL = re.compile(r'(?<![\w/])(f?)"([a-z_-]+(?:\.[^"\s]+)+)"')
#: Keys that are put together at run time beyond what a format string shows.
BY_CODE = ("term.", "letter.extraordinary.", "letter.hypothetical.", "items_count.", "word.", "definition.")


def keys_in_code():
    """Return the keys written out in the code, and patterns for those put together."""
    tables = {key.split(".")[0] for key in originals()}
    plain, built = set(), set()
    for file in COMPOSE:
        for is_format, key in LITERAL.findall(file.read_text("utf-8")):
            if is_format:
                built.add(re.sub(r"\\\{[^}]*\\\}", ".+", re.escape(key)))
            elif key.split(".")[0] in tables:
                plain.add(key)
    return plain, built


def test_english_is_a_language():
    assert ENGLISH in languages()


def test_every_key_in_the_code_has_a_text():
    plain, _ = keys_in_code()
    assert plain
    without = {key for key in plain if key not in originals() and not any(o.startswith(f"{key}.") for o in originals())}
    assert without == set()


def test_no_text_is_left_over():
    plain, built = keys_in_code()
    patterns = [re.compile(f"{one}$") for one in built]
    left = [
        key
        for key in originals()
        if key not in plain and not key.startswith(BY_CODE) and not any(p.match(key) for p in patterns)
    ]
    assert left == []


@pytest.mark.parametrize("code", languages())
def test_no_translation_is_stale(code):
    assert stale(code) == ()


@pytest.mark.parametrize("code", languages())
def test_fields_of_a_translation_are_those_of_the_original(code):
    differing = {
        key: fields_of(text) ^ fields_of(originals()[key])
        for key, text in translations(code).items()
        if key in originals() and fields_of(text) != fields_of(originals()[key])
    }
    assert differing == {}


@pytest.mark.parametrize("code", languages())
def test_texts_use_one_space_and_straight_apostrophes(code):
    faulty = [key for key, text in translations(code).items() if "  " in text or "’" in text or not text.strip()]
    assert faulty == []


def test_a_language_without_texts_speaks_english_and_lists_them_all():
    assert texts("eo").text("common.unknown") == originals()["common.unknown"]
    assert set(missing("eo")) == set(originals())
    assert missing(ENGLISH) == ()


def test_a_field_without_a_value_is_our_mistake():
    with pytest.raises(KeyError):
        texts(ENGLISH).text("window.not_before")
    with pytest.raises(KeyError):
        texts(ENGLISH).text("no.such.key")


def test_an_appraisers_clause_replaces_ours_word_for_word():
    own = texts(ENGLISH, {"limiting.use": "Only {for} you."})
    assert own.text("limiting.use", day="today") == "Only {for} you."


def test_words_of_closed_lists_fall_back_to_the_word_of_the_workbook():
    assert texts(ENGLISH).word(PartState.LATER_REPLACEMENT) == "later replacement"
    assert word_key(PartState.UNKNOWN) == "word.PartState.unknown"


def test_plural_by_count():
    assert texts(ENGLISH).number("items_count", 1) == "one item"
    assert texts(ENGLISH).number("items_count", 13) == "13 items"


def test_no_text_says_that_a_report_complies():
    """The program never claims compliance; where the word stands it is denied."""
    claims = [
        key
        for key, text in originals().items()
        if re.search(r"\b(complies|compliant|conforms|in conformity)\b", text) and "does not say" not in text
    ]
    assert claims == []
