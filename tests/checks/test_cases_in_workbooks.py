"""The same cases in real workbooks: written, read and checked, each finds its mistake alone, and none on a near one."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from support.checks import Case, all_cases, sound_context
from support.workbooks import workbook

from appraise.checks.context import CheckContext
from appraise.checks.run import run_checks
from appraise.model.finding import Finding
from appraise.records.job import Job
from appraise.workbook.reading.read import read_job
from appraise.workbook.rows import rows_of

CASES = all_cases()


def found_in_a_workbook(folder: Path, job: Job, change: Callable[[CheckContext], CheckContext]) -> list[Finding]:
    read = read_job(workbook(folder, rows=rows_of(job)))
    return run_checks(replace(change(sound_context(read.job)), raised=tuple(read.findings)))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_the_check_finds_its_mistake_alone(tmp_path: Path, case: Case) -> None:
    found = found_in_a_workbook(tmp_path, case.change(case.base()), case.context)
    assert [one.code for one in found] == [case.code]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_the_check_keeps_silent_on_a_near_one(tmp_path: Path, case: Case) -> None:
    assert found_in_a_workbook(tmp_path, case.near(case.base()), case.near_context) == []
