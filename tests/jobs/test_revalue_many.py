"""Several jobs revalued in one run: each by itself, one summary, the worst exit code."""

import os
from datetime import date
from functools import partial
from pathlib import Path
from shutil import copy

import pytest
from click.testing import CliRunner
from python_calamine import CalamineWorkbook
from support.demo import REPOSITORY

from appraise.cli import appraise
from appraise.files.unusable import UnusableFile
from appraise.jobs.revalue_many import JobOutcome, ManyRevalued, _run, revalue_many, workbooks_in
from appraise.workbook.writing.summary_file import SummaryRow

NEXT, TODAY = date(2026, 6, 30), date(2026, 7, 1)
DEMO = REPOSITORY / "workbooks_demo"


def book(folder: Path, name: str, source: str = "yearly") -> Path:
    folder.mkdir(exist_ok=True)
    return Path(copy(DEMO / source / f"{source}.xlsx", folder / name))


def summary(path: Path) -> list[list[object]]:
    return CalamineWorkbook.from_path(path).get_sheet_by_index(0).to_python()


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> ManyRevalued:
    """Three jobs of a folder, the middle one no workbook."""
    folder = tmp_path_factory.mktemp("jobs")
    book(folder, "first.xlsx")
    (folder / "junk.xlsx").write_text("no workbook")
    book(folder, "second.xlsx")
    (folder / "~$first.xlsx").write_text("lock")
    shown: list[tuple[str, int, int]] = []
    found = revalue_many([folder], NEXT, None, overwrite=False, today=TODAY, progress=lambda *said: shown.append(said))
    assert shown == [("Revaluing job", number, 3) for number in (1, 2, 3)]
    return found


def test_a_failing_job_stops_no_other_and_the_worst_code_is_returned(done: ManyRevalued) -> None:
    assert [one.path.name for one in done.outcomes] == ["first.xlsx", "junk.xlsx", "second.xlsx"]
    assert [one.code for one in done.outcomes] == [1, 3, 1], "stops in the photographs that were not copied along"
    assert done.code == 3
    assert any(line.startswith(str(done.outcomes[1].path)) for line in done.lines())
    home = done.summary.parent
    assert home.name == "revalued-2026"
    assert (home / "first" / "first-2026.xlsx").is_file()
    assert (home / "second" / "second-2026.xlsx").is_file()


def test_the_summary_has_a_row_for_each_job(done: ManyRevalued) -> None:
    rows = summary(done.summary)
    assert [row[0] for row in rows[1:]] == ["first.xlsx", "junk.xlsx", "second.xlsx"]
    assert [row[1] for row in rows[1:]] == ["done, open stops", "file unusable", "done, open stops"]
    assert rows[1][6] == 297600
    assert rows[1][7] == 11
    assert "4 index" in str(rows[1][8])
    assert "junk.xlsx" in str(rows[2][10])


def test_files_of_one_name_get_folders_of_their_own(tmp_path: Path) -> None:
    books = [book(tmp_path / "a", "job.xlsx"), book(tmp_path / "b", "job.xlsx")]
    found = revalue_many(books, NEXT, tmp_path / "out", overwrite=False, today=TODAY, processes=1)
    assert sorted(
        one.relative_to(tmp_path / "out").as_posix() for one in (tmp_path / "out").rglob("job-2026.xlsx")
    ) == [
        "job-2/job-2026.xlsx",
        "job/job-2026.xlsx",
    ]
    assert found.code == 1


def test_the_command_returns_the_worst_code(tmp_path: Path) -> None:
    books = [str(book(tmp_path, "one.xlsx")), str(tmp_path / "not there.xlsx")]
    arguments = ["revalue", *books, "--effective", "2026-06-30", "--out", str(tmp_path / "out"), "--processes", "1"]
    ran = CliRunner().invoke(appraise, arguments, standalone_mode=False)
    assert ran.return_value == 3
    assert "2 jobs: 1 done, open stops, 1 file unusable." in ran.output


def test_an_empty_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableFile, match="no workbook"):
        workbooks_in([tmp_path])


def fine(path: Path) -> JobOutcome:
    return JobOutcome(path, 0, (SummaryRow(path.name, "done"),))


def raises(path: Path) -> JobOutcome:
    raise ValueError(f"a fault with {path.name}")


def dies(path: Path) -> JobOutcome:
    os._exit(1)


@pytest.mark.parametrize(("worse", "traced"), [(raises, True), (dies, False)])
def test_a_fault_of_the_program_or_a_dying_worker_spares_the_others(worse: object, traced: bool) -> None:
    names = [Path(name) for name in ("a.xlsx", "b.xlsx", "c.xlsx")]
    functions = (fine, worse, fine)
    work = {name: partial(function, name) for name, function in zip(names, functions, strict=True)}  # type: ignore[arg-type]
    found = _run(work, 2, None)  # type: ignore[arg-type]
    assert [one.code for one in found] == [0, 4, 0]
    assert ("a fault with b.xlsx" in found[1].trace) is traced
    assert found[1].sentence
