"""The committed workbooks say what their sources say."""

from pathlib import Path

import pytest
from support.demo import job_folders, read_job, workbook_of

from appraise.model.missing import Missing
from appraise.records.job import SHEETS
from appraise.workbook.reading.read import read_job as read_workbook

FOLDERS = job_folders()
each_job = pytest.mark.parametrize("folder", FOLDERS, ids=[folder.name for folder in FOLDERS])


@each_job
def test_the_workbook_is_committed(folder: Path) -> None:
    assert workbook_of(folder).is_file()


@each_job
def test_the_workbook_reads_as_its_sources_say(folder: Path) -> None:
    """Value by value, sheet by sheet, rows in the same order; run `python -m workbooks_demo --no-photos` if not."""
    typed, read = read_job(folder), read_workbook(workbook_of(folder)).job
    for name, sheet in SHEETS.items():
        expected, found = getattr(typed, name), getattr(read, name)
        if sheet.form:
            expected, found = (expected,), (found,)
        assert len(found) == len(expected), sheet.name
        for number, (one, other) in enumerate(zip(expected, found, strict=True), 1):
            for column in sheet.columns:
                wanted, got = getattr(one, column.key), getattr(other, column.key)
                assert _same(wanted, got), (sheet.name, number, column.key, wanted, got)


@each_job
def test_reading_the_workbook_finds_nothing(folder: Path) -> None:
    assert read_workbook(workbook_of(folder)).findings == ()


def _same(wanted: object, got: object) -> bool:
    if isinstance(wanted, str) and isinstance(got, str):
        return wanted.strip() == got.strip()
    if isinstance(wanted, Missing) or isinstance(got, Missing):
        return wanted is got
    return wanted == got
