"""Each check finds its mistake alone on an otherwise sound job, and keeps silent on a near one."""

from collections.abc import Callable

import pytest
from support.checks import (
    Case,
    all_cases,
    claim_job,
    division_job,
    donation_job,
    expert_job,
    gift_job,
    insurance_job,
    sound_context,
    sound_job,
    yearly_job,
)

from appraise.checks.registry import all_checks
from appraise.checks.run import run_checks
from appraise.findings.entries import action, message
from appraise.model.finding import Finding
from appraise.records.job import SHEETS, Job

CASES = all_cases()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_the_check_finds_its_mistake_alone(case: Case) -> None:
    found = run_checks(case.context(sound_context(case.change(case.base()))))
    assert [one.code for one in found] == [case.code]
    assert (found[0].place, found[0].found, found[0].subjects) == (case.place, case.found, case.subjects)
    assert_well_formed(found[0])


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_the_check_keeps_silent_on_a_near_one(case: Case) -> None:
    assert run_checks(case.near_context(sound_context(case.near(case.base())))) == []


def test_every_check_has_a_case() -> None:
    assert sorted({case.code for case in CASES}) == [one.code for one in all_checks()]


@pytest.mark.parametrize(
    "base", [sound_job, insurance_job, gift_job, donation_job, claim_job, yearly_job, expert_job, division_job]
)
def test_the_sound_jobs_are_sound(base: Callable[[], Job]) -> None:
    assert run_checks(sound_context(base())) == []


def assert_well_formed(one: Finding) -> None:
    """The sentences can be filled, leave no gap in braces, and the place exists in the workbook."""
    for sentence in (message(one), action(one)):
        assert sentence
        assert sentence[0] not in " :,"
        assert "{" not in sentence
        assert "BLANK" not in sentence
        assert "Decimal(" not in sentence
    sheet = {sheet.name: sheet for sheet in SHEETS.values()}[one.place.sheet]
    assert one.place.column in ["", *(column.key for column in sheet.columns)]
