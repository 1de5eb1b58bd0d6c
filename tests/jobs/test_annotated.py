"""`check --annotated`: a copy, never the user's file."""

import hashlib
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from support.workbooks import changed, workbook

from appraise.cli import appraise
from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.check import Checked, check_job

TODAY = date(2026, 11, 25)


@pytest.fixture
def faulty(tmp_path: Path) -> Checked:
    (tmp_path / "job").mkdir()
    return check_job(workbook(tmp_path / "job", sales=changed("sales", 0, price="1,2,3")), today=TODAY)


def refused(checked: Checked, path: Path, *, overwrite: bool) -> UnusableFile:
    before = hashlib.sha256(checked.examined.path.read_bytes()).hexdigest()
    with pytest.raises(UnusableFile) as caught:
        checked.write_annotated(path, overwrite=overwrite)
    assert hashlib.sha256(checked.examined.path.read_bytes()).hexdigest() == before
    return caught.value


def test_every_cell_that_is_printed_has_its_comment(faulty: Checked, tmp_path: Path) -> None:
    written, said = faulty.write_annotated(tmp_path / "copy.xlsx", overwrite=False)
    book = openpyxl.load_workbook(written)
    count = 0
    for one in faulty.examined.judged:
        where = faulty.examined.where(one.finding.place)
        if one.open and "!" in where:
            tab, cell = where.rsplit("!", 1)
            assert one.finding.code in book[tab][cell].comment.text, where
            count += 1
    assert count >= 1
    assert f"Annotated copy: {written}" in said


def test_never_in_place_and_never_over_the_file_by_another_name(faulty: Checked) -> None:
    source = faulty.examined.path
    (source.parent / "link.xlsx").symlink_to(source)
    (source.parent / "hard.xlsx").hardlink_to(source)
    for path in (source, source.parent / "link.xlsx", source.parent / "hard.xlsx", source.parent / "." / source.name):
        assert "never replaced" in refused(faulty, path, overwrite=True).sentence
    with pytest.raises(UnusableFile):
        faulty.write_findings(source, overwrite=True)


def test_a_file_that_is_there_is_replaced_only_on_request(faulty: Checked, tmp_path: Path) -> None:
    target = tmp_path / "copy.xlsx"
    target.write_text("mine")
    assert refused(faulty, target, overwrite=False).code is Trouble.EXISTS
    assert target.read_text() == "mine"
    faulty.write_annotated(target, overwrite=True)
    assert openpyxl.load_workbook(target).sheetnames


def test_a_copy_with_another_ending_would_not_open(faulty: Checked, tmp_path: Path) -> None:
    assert ".xlsx" in refused(faulty, tmp_path / "copy.xlsm", overwrite=False).sentence


def test_the_command_says_where_the_copy_is_and_keeps_json_apart(tmp_path: Path) -> None:
    path = workbook(tmp_path, sales=changed("sales", 0, price="1,2,3"))
    copy = tmp_path / "copy.xlsx"
    ran = CliRunner().invoke(appraise, ["check", str(path), "--json", "--annotated", str(copy)])
    assert ran.exception is None, ran.output
    assert f"Annotated copy: {copy.resolve()}" in ran.stderr
    assert ran.stdout.lstrip().startswith("{")


def test_the_copy_is_read_as_the_same_job(faulty: Checked, tmp_path: Path) -> None:
    written, _ = faulty.write_annotated(tmp_path / "job" / "copy.xlsx", overwrite=False)
    again = check_job(written, today=TODAY)
    assert again.examined.job == faulty.examined.job
    assert [one.finding for one in again.examined.judged] == [one.finding for one in faulty.examined.judged]
