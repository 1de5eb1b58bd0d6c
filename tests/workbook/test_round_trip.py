"""What is written is read again as it was."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from support.checks import sound_job
from support.workbooks import codes, workbook

from appraise.records.job import SHEETS, Job
from appraise.workbook.read import read_job


def without_rows(job: Job) -> dict[str, Any]:
    """Return the records of a job by field, with every row number 0."""
    content = {}
    for name, sheet in SHEETS.items():
        records = getattr(job, name)
        content[name] = replace(records, row=0) if sheet.form else [replace(record, row=0) for record in records]
    return content


def test_a_sound_job_comes_back_whole_and_without_a_fault(tmp_path: Path) -> None:
    result = read_job(workbook(tmp_path))
    assert codes(result) == []
    assert without_rows(result.job) == without_rows(sound_job())
