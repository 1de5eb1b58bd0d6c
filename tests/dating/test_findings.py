"""Codes of dating and their catalogue agree both ways, and every text can be filled."""

import re
from pathlib import Path

import appraise.dating
from appraise.dating.advice import ADVICE_CODES
from appraise.dating.result import Advice
from appraise.findings.entries import catalogue

FOLDER = Path(appraise.dating.__file__).parent


def test_every_code_used_is_in_the_catalogue_and_the_other_way_round() -> None:
    used = {code for file in FOLDER.rglob("*.py") for code in re.findall(r"DAT-\d\d", file.read_text("utf-8"))}
    assert used == {code for code in catalogue() if code.startswith("DAT-")}


def test_every_pattern_of_advice_has_a_text() -> None:
    assert set(ADVICE_CODES) == set(Advice)
    assert set(ADVICE_CODES.values()) <= set(catalogue())
