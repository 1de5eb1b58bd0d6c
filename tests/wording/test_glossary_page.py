"""docs/glossary.md says in English, German and French what reports say: every cell is compared with the texts."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from support.translations import everything, word_originals

from appraise.wording.texts import originals, translations

PAGE = (Path(__file__).parents[2] / "docs" / "glossary.md").read_text("utf-8")
LANGUAGES = ("en", "de", "fr")


def own_texts(code: str) -> dict[str, str]:
    """Return the texts of a language by key; the English words of closed lists stand in the records."""
    return {**word_originals(), **originals()} if code == "en" else dict(translations(code))


def tables() -> Iterator[tuple[list[str], list[list[str]]]]:
    """Yield the headings and the rows of each table of the page."""
    for block in PAGE.split("\n\n"):
        lines = [[cell.strip() for cell in line.strip("|").split(" | ")] for line in block.splitlines() if "|" in line]
        if lines:
            yield lines[0], lines[2:]


KEYED = [row for heads, rows in tables() if heads[0] == "key" for row in rows]
QUOTED = [row for heads, rows in tables() if heads[0] == "English" for row in rows]


def test_the_page_has_terms_of_both_sorts_and_no_key_twice() -> None:
    keys = [row[0] for row in KEYED]
    assert len(keys) > 150
    assert len(QUOTED) > 5
    assert sorted(keys) == sorted(set(keys))
    assert {key.strip("`") for key in keys} <= set(everything())


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_term_with_a_key_is_the_text_of_that_key(code: str) -> None:
    own, column = own_texts(code), LANGUAGES.index(code) + 1
    faulty = [(row[0], row[column]) for row in KEYED if row[column] != own[row[0].strip("`")]]
    assert faulty == []


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_other_term_stands_in_the_text_it_names(code: str) -> None:
    own, column = own_texts(code), LANGUAGES.index(code)
    faulty = [row[column] for row in QUOTED if row[column].casefold() not in own[row[3].strip("`")].casefold()]
    assert faulty == []


def test_every_term_that_a_report_may_explain_is_here() -> None:
    listed = {row[0].strip("`") for row in KEYED}
    assert {key for key in originals() if key.startswith("term.")} <= listed


def test_every_type_of_value_and_every_verdict_is_here() -> None:
    listed = {row[0].strip("`") for row in KEYED}
    wanted = {key for key in everything() if key.startswith(("word.ValueType.", "verdict."))}
    assert wanted <= listed
