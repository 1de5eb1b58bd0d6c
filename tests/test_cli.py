"""The command as a person runs it: what it prints, where, and with which exit code."""

import hashlib
import json
import os
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from PIL import Image
from support.workbooks import changed, workbook

from appraise import __version__
from appraise.workbook.reading.read import read_job


def run(*arguments: object, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "appraise", *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)


def with_photographs(path: Path) -> Path:
    """Draw every photograph the workbook names, each another picture."""
    for number, photo in enumerate(read_job(path).job.photos):
        file = path.parent / str(photo.file)
        file.parent.mkdir(exist_ok=True)
        Image.new("RGB", (40, 60), (7 * number % 256, 90, 120)).save(file)
    return path


def one_sentence(ran: subprocess.CompletedProcess[str], code: int) -> str:
    """Assert that a run ended with `code` and one line of plain words, and return the line."""
    assert ran.returncode == code, ran.stderr
    said = (ran.stderr or ran.stdout).strip()
    assert "Traceback" not in said
    assert len(said.splitlines()) == 1
    return said


def test_version() -> None:
    assert run("--version").stdout == f"appraise {__version__}\n"


def test_an_unknown_verb_is_answered_with_the_nearest() -> None:
    ran = run("chek", "a.xlsx")
    assert ran.returncode == 2
    assert "Did you mean 'check'?" in ran.stderr


def test_new_without_a_use_says_what_to_type(tmp_path: Path) -> None:
    ran = run("new", tmp_path / "a.xlsx")
    assert ran.returncode == 2
    assert "--use insurance|claim|estate" in ran.stderr
    assert list(tmp_path.iterdir()) == []


def test_new_with_an_unknown_family_names_near_ones(tmp_path: Path) -> None:
    ran = run("new", tmp_path / "a.xlsx", "--use", "estate", "--family", "archtop")
    assert ran.returncode == 2
    assert "archtop guitar" in ran.stderr


def test_new_does_not_replace_a_file(tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    path.write_text("mine")
    said = one_sentence(run("new", path, "--use", "estate"), 3)
    assert str(path) in said
    assert path.read_text() == "mine"


@pytest.mark.parametrize("use", ["estate", "insurance"])
def test_a_new_workbook_is_checked_without_a_fault_of_ours(tmp_path: Path, use: str) -> None:
    path = tmp_path / "a.xlsx"
    assert run("new", path, "--use", use, "--family", "banjo").returncode == 0
    ran = run("check", path)
    assert ran.returncode == 1
    assert ran.stderr == ""
    assert "Assignment!" in ran.stdout


def test_a_sound_job_is_reported_and_its_workbook_left_alone(tmp_path: Path) -> None:
    path = with_photographs(workbook(tmp_path))
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    ran = run("report", path)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert (tmp_path / "job" / "job-report.docx").is_file()
    assert f"Report: {tmp_path / 'job' / 'job-report.docx'}" in ran.stdout
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before


def test_open_stops_keep_the_report_back_but_not_a_draft(tmp_path: Path) -> None:
    path = workbook(tmp_path, assignment={"effective_date": None})
    ran = run("report", path)
    assert ran.returncode == 1
    assert "No report written" in ran.stdout
    assert not (tmp_path / "job").exists()
    draft = run("report", path, "--draft")
    assert (draft.returncode, draft.stderr) == (1, "")
    assert (tmp_path / "job" / "job-draft.docx").is_file()


def test_findings_as_json_name_the_cell(tmp_path: Path) -> None:
    path = workbook(tmp_path, sales=changed("sales", 0, price="1,2,3"))
    ran = run("check", path, "--json")
    found = [one for one in json.loads(ran.stdout)["findings"] if one["sheet"] == "Sales" and one["column"] == "price"]
    assert ran.returncode == 1
    assert found[0]["cell"].startswith("Sales!")
    assert found[0]["found"] == "1,2,3"


def test_explain_prints_the_chain_and_an_unknown_item_is_answered(tmp_path: Path) -> None:
    path = workbook(tmp_path)
    ran = run("check", path, "--explain", "G01")
    assert ran.returncode == 0
    assert "G01.fmv.value_rounded = " in ran.stdout
    assert "G01.fmv without c1: " in ran.stdout
    wrong = run("check", path, "--explain", "G1")
    assert wrong.returncode == 2
    assert "G01" in wrong.stderr


def test_files_that_are_no_workbook(tmp_path: Path) -> None:
    (tmp_path / "text.xlsx").write_text("not a workbook")
    (tmp_path / "empty.xlsx").write_bytes(b"")
    for name in ("text.xlsx", "empty.xlsx", "missing.xlsx"):
        assert name in one_sentence(run("check", tmp_path / name), 3)


def test_a_workbook_of_someone_else(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.save(tmp_path / "other.xlsx")
    one_sentence(run("check", tmp_path / "other.xlsx"), 3)


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="permissions do not bind this user")
def test_a_workbook_that_may_not_be_read(tmp_path: Path) -> None:
    path = workbook(tmp_path)
    path.chmod(0)
    one_sentence(run("check", path), 3)


def test_an_output_folder_that_is_a_file(tmp_path: Path) -> None:
    path = with_photographs(workbook(tmp_path))
    (tmp_path / "out").write_text("a file")
    said = one_sentence(run("report", path, "--out", tmp_path / "out"), 3)
    assert "out" in said
    assert (tmp_path / "out").read_text() == "a file"


def test_the_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    path = with_photographs(workbook(tmp_path))
    contents = []
    for seed, zone in (("1", "Pacific/Auckland"), ("2", "America/Denver")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C"}
        out = tmp_path / f"out{seed}"
        command = [sys.executable, "-m", "appraise", "report", str(path), "--out", str(out)]
        subprocess.run(command, env=environment, check=True, capture_output=True)
        contents.append((out / "job-report.docx").read_bytes())
    assert contents[0] == contents[1]
