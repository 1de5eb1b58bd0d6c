"""Each condition declared on a column is checked by a function, and none is checked that is not declared."""

from dataclasses import replace

import pytest
from support.checks import D, changed, sound_context, sound_job

from appraise.checks.required import CONDITIONS, blanks
from appraise.checks.run import run_checks
from appraise.model.finding import finding
from appraise.model.missing import BLANK, UNREADABLE
from appraise.model.place import Place
from appraise.records.job import SHEETS


def test_every_condition_has_its_function_and_every_function_its_condition() -> None:
    declared = {
        (name, column.key)
        for name, sheet in SHEETS.items()
        for column in sheet.columns
        if column.required not in ("", "always")
    }
    assert declared == set(CONDITIONS)


def test_a_blank_where_another_part_has_raised_a_finding_is_left_to_it() -> None:
    job = changed(sound_job(), "opinions", 1, source=BLANK)
    root = finding("VAL-23", Place("Opinions", 3, "source"), "A01")
    context = replace(sound_context(job), raised=(root,))
    assert [one.code for one in run_checks(sound_context(job))] == ["OPN-01"]
    assert run_checks(context) == []


def test_what_cannot_be_read_is_not_blank() -> None:
    job = changed(sound_job(), "opinions", 1, source=UNREADABLE)
    assert run_checks(sound_context(job)) == []


REASONS = ["discount", "level", "condition", "deductions", "configuration", "provenance", "other", "lump"]


@pytest.mark.parametrize("key", REASONS)
def test_each_step_of_a_comparison_asks_for_its_reason(key: str) -> None:
    value = "4; 10" if key == "deductions" else D(-3)
    context = sound_context(changed(sound_job(), "comparisons", 0, **{key: value}))
    assert [place for place, _column, _record in blanks(context, "comparisons")] == [
        Place("Comparisons", 2, f"{key}_reason")
    ]
