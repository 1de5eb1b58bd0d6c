"""docs/glossary.md says in English, German and French what reports say."""

import pytest
from support.glossary import LANGUAGES, PAGE, cells_of, current, is_keyed, own_texts
from support.translations import everything

from appraise.wording.texts import originals

TEXT = PAGE.read_text("utf-8")
KEYS = [cells_of(line)[0].strip("`") for line in TEXT.splitlines() if is_keyed(line)]
#: Terms without a key of their own: three languages, the key of the text they stand in, the meaning.
QUOTED = [cells_of(line) for line in TEXT.split("\n| English |", 1)[1].splitlines()[2:] if line.startswith("| ")]


def test_every_term_with_a_key_is_the_text_of_that_key_in_each_language() -> None:
    """If this fails: `PYTHONPATH=tests python -m support.glossary`."""
    assert current(TEXT) == TEXT


def test_a_changed_cell_would_be_noticed() -> None:
    changed = TEXT.replace("| Marktebene |", "| Marktlage |")
    assert changed != TEXT
    assert current(changed) == current(TEXT)


def test_no_key_stands_twice_and_none_is_unknown() -> None:
    assert len(KEYS) > 150
    assert sorted(KEYS) == sorted(set(KEYS))
    assert set(KEYS) <= set(everything())


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_other_term_stands_in_the_text_it_names(code: str) -> None:
    own, column = own_texts(code), LANGUAGES.index(code)
    assert len(QUOTED) > 5
    faulty = [row[column] for row in QUOTED if row[column].casefold() not in own[row[3].strip("`")].casefold()]
    assert faulty == []


def test_terms_that_a_report_explains_and_types_of_value_and_verdicts_are_here() -> None:
    wanted = {key for key in everything() if key.startswith(("word.ValueType.", "verdict."))}
    wanted |= {key for key in originals() if key.startswith("term.")}
    assert wanted <= set(KEYS)
