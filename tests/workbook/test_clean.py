"""What is taken out of typed text, and what stays."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.workbook.reading.clean import clean, clean_word, has_control, has_turned


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        ("plain", "plain"),
        ("  outer  ", "outer"),
        ("a\u00a0b\u202fc", "a b c"),
        ("line_x000D_\nnext", "line\nnext"),
        ("a\r\nb\rc", "a\nb\nc"),
        ("zero\u200bwidth\ufeff", "zerowidth"),
        ("tab\there", "tab here"),
        ("e\u0301", "é"),
        ("bell\u0007", "bell"),
        ("_x005F_x0041_", "_x0041_"),
        ("a_xyz_b", "a_xyz_b"),
        ("\u05e9\u05dc\u05d5\u05dd", "\u05e9\u05dc\u05d5\u05dd"),
        ("turned\u202e", "turned"),
        ("naïve – “quoted” 漢字 🎸", "naïve – “quoted” 漢字 🎸"),
    ],
)
def test_clean(raw: str, text: str) -> None:
    assert clean(raw) == text


@given(st.text())
def test_clean_text_holds_nothing_that_cleaning_removes(raw: str) -> None:
    text = clean(raw)
    assert not has_control(text) and not has_turned(text)
    assert text == text.strip()
    assert clean_word(raw) == " ".join(clean_word(raw).split())
