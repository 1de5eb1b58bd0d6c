"""German and French: nothing missing, nothing stale, nothing whose English original has changed since."""

import re

import pytest
from support.report_job import inputs
from support.translations import TRANSLATED, everything, mark, marks, rule_originals, word_originals

from appraise.report.compose.report import compose
from appraise.wording.texts import fields_of, missing, originals, stale, texts, translations

NO_BREAK = "\u00a0\u202f"


def test_there_are_german_and_french() -> None:
    assert set(TRANSLATED) == {"de", "fr"}


@pytest.mark.parametrize("code", TRANSLATED)
def test_no_text_is_missing_or_stale(code: str) -> None:
    assert missing(code) == ()
    assert stale(code) == ()


@pytest.mark.parametrize("code", TRANSLATED)
def test_every_rule_and_every_word_of_a_closed_list_is_translated(code: str) -> None:
    own = translations(code)
    wanted = {**rule_originals(), **word_originals()}
    assert sorted(key for key in wanted if key not in own) == []
    assert sorted(key for key in own if key.startswith(("rule.", "word.")) and key not in wanted) == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_no_original_changed_since_it_was_translated(code: str) -> None:
    """If this fails: bring the translation up to date, then run `python -m support.translations`."""
    current, made_from = everything(), marks()[code]
    assert sorted(key for key in translations(code) if made_from.get(key) != mark(current[key])) == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_longer_texts_are_not_left_in_english(code: str) -> None:
    own = translations(code)
    same = [key for key, text in originals().items() if own.get(key) == text and len(re.findall("[a-z]{3,}", text)) > 3]
    assert same == []


def test_french_sets_a_no_break_space_before_double_marks() -> None:
    faulty = [key for key, text in translations("fr").items() if re.search(rf"[^{NO_BREAK}\d«] [:;?!»]|« ", text)]
    assert faulty == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_every_text_can_be_filled(code: str) -> None:
    words = texts(code)
    for key, text in originals().items():
        assert words.text(key, **dict.fromkeys(fields_of(text), "x"))


@pytest.mark.parametrize(
    ("code", "heading", "total"), [("de", "Wertgutachten", "EUR"), ("fr", "Rapport d'évaluation", "EUR")]
)
def test_the_language_of_the_report_is_not_that_of_the_workbook(code: str, heading: str, total: str) -> None:
    """The sample job is typed in English, with numbers as in the United States."""
    from dataclasses import replace

    given = inputs()
    job = replace(given.job, assignment=replace(given.job.assignment, report_language=code, currency=total))
    composed = compose(replace(given, job=job))
    assert composed.report.cover.kicker == heading
    assert composed.properties.language == {"de": "de-DE", "fr": "fr-FR"}[code]
    meaning = composed.report.assignment.value_meanings[0]
    assert texts(code).text("assignment.translated") in meaning.source
    assert texts(code).text("assignment.translated") in composed.report.elements.paragraphs
    assert job.assignment.workbook_locale == "en_US"
    item = next(composed.items)
    assert item.identification[0].label == texts(code).text("label.maker")
    assert "archtop guitar" not in [line.text for line in item.identification]
