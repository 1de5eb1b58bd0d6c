"""A library written, named by jobs, and its hash in the report; what the job says itself wins."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.workbooks import sound_rows, workbook

from appraise.cli import appraise
from appraise.files.hashes import sha256_of
from appraise.files.unusable import UnusableFile
from appraise.jobs.examine import examine
from appraise.jobs.new import new_workbook
from appraise.jobs.report_inputs import report_inputs
from appraise.jobs.revalue import revalue_job
from appraise.report.compose.report import compose
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.write import write_tables

TODAY = date(2025, 7, 1)


def run(*arguments: str) -> str:
    ran = CliRunner().invoke(appraise, list(arguments))
    assert ran.exit_code == 0, ran.output
    return ran.output


def test_a_library_is_written_and_a_new_job_names_it(tmp_path: Path) -> None:
    library, job = tmp_path / "tables" / "library.xlsx", tmp_path / "jobs" / "quenby.xlsx"
    library.parent.mkdir()
    job.parent.mkdir()
    assert "Name it in a job" in run("new", "--library", str(library))
    run("new", str(job), "--use", "estate", "--library", str(library))
    read = read_job(job)
    assert read.job.assignment.library == "library.xlsx", "a copy beside the workbook"
    assert read.library is not None and sha256_of(read.library) == sha256_of(library)
    assert "FIL-13" not in {one.code for one in read.findings}


def test_a_library_in_the_jobs_folder_is_named_and_another_file_of_its_name_is_not_replaced(tmp_path: Path) -> None:
    run("new", "--library", str(tmp_path / "tables.xlsx"))
    run("new", str(tmp_path / "a.xlsx"), "--use", "estate", "--library", str(tmp_path / "tables.xlsx"))
    assert read_job(tmp_path / "a.xlsx").job.assignment.library == "tables.xlsx"
    other = tmp_path / "jobs"
    other.mkdir()
    (other / "tables.xlsx").write_text("mine")
    with pytest.raises(UnusableFile, match="another file"):
        new_workbook(other / "b.xlsx", "estate", (), overwrite=False, library=tmp_path / "tables.xlsx")
    assert (other / "tables.xlsx").read_text() == "mine"
    assert not (other / "b.xlsx").exists()


def test_next_years_workbook_has_the_library_beside_it(tmp_path: Path) -> None:
    write_tables(tmp_path / "library.xlsx", {"premiums": sound_rows()["premiums"]})
    job = workbook(tmp_path, assignment={"library": "library.xlsx"}, premiums=[])
    done = revalue_job(job, date(2030, 1, 31), tmp_path / "out", overwrite=False, today=TODAY)
    read = read_job(done.written)
    assert read.library == tmp_path / "out" / "library.xlsx"
    assert [one.rate for one in read.job.premiums] == [row["rate"] for row in sound_rows()["premiums"]]


def test_neither_workbook_nor_library_is_a_wrong_call_and_a_missing_library_is_refused(tmp_path: Path) -> None:
    ran = CliRunner().invoke(appraise, ["new"])
    assert ran.exit_code == 2
    with pytest.raises(UnusableFile, match="There is no library"):
        new_workbook(tmp_path / "a.xlsx", "estate", (), overwrite=False, library=tmp_path / "none.xlsx")
    assert not (tmp_path / "a.xlsx").exists()


def test_the_report_records_the_librarys_hash_and_the_difference_is_a_note(tmp_path: Path) -> None:
    """The job's own premium table wins; that the library's says another rate is one note."""
    premiums = sound_rows()["premiums"]
    write_tables(tmp_path / "library.xlsx", {"premiums": [{**row, "rate": Decimal(99)} for row in premiums]})
    plain = read_job(workbook(tmp_path, "plain.xlsx")).job
    examined = examine(workbook(tmp_path, assignment={"library": "library.xlsx"}), today=TODAY)
    assert [one.rate for one in examined.job.premiums] == [one.rate for one in plain.premiums]
    notes = [one.finding for one in examined.judged if one.finding.code == "FIL-14"]
    assert {one.place.sheet for one in notes} == {"Premiums"}
    report = compose(report_inputs(examined, {}, draft=True)).report
    assert sha256_of(tmp_path / "library.xlsx") in report.scope.tables_intro
    assert "library.xlsx" in report.scope.tables_intro
    without = compose(report_inputs(examine(tmp_path / "plain.xlsx", today=TODAY), {}, draft=True)).report
    assert "SHA-256" not in without.scope.tables_intro
