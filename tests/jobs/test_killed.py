"""Outputs appear whole or not at all, whatever call to the operating system fails, and wherever a run is killed."""

import errno
import os
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from PIL import Image
from support.failing import CALLS, failing, full, raising
from support.workbooks import workbook

from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.outputs import LIST, Outputs
from appraise.jobs.report import write_report
from appraise.report.engine.inspect import inspect_docx
from appraise.workbook.reading.read import read_job

TODAY = date(2025, 3, 1)
KILLED = 9


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = workbook(tmp_path_factory.mktemp("job"))
    for photo in read_job(path).job.photos[:2]:
        file = path.parent / str(photo.file)
        file.parent.mkdir(exist_ok=True)
        Image.new("RGB", (40, 60), (90, 90, 120)).save(file)
    return path


def reported(job: Path, out: Path) -> None:
    write_report(job, out, draft=True, overwrite=False, today=TODAY)


@pytest.fixture(scope="module")
def sound(job: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The outputs of a run that nothing befell."""
    out = tmp_path_factory.mktemp("sound")
    reported(job, out)
    return contents(out)


def contents(folder: Path) -> dict[str, bytes]:
    return {str(one.relative_to(folder)): one.read_bytes() for one in sorted(folder.rglob("*")) if one.is_file()}


def whole(out: Path, sound: dict[str, bytes]) -> None:
    """Assert that each file is there whole or not at all, but for hidden leftovers."""
    for name, content in contents(out).items():
        if name.endswith(".part"):
            assert Path(name).name.startswith(".")
        elif name != LIST:
            assert content == sound[name], name
    for file in out.glob("*.docx"):
        assert inspect_docx(file) == []


def numbers(run: Callable[[int], bool], most: int = 400) -> int:
    """Run for the first call, the second and so on, until there is no further one; return how many there were."""
    for number in range(1, most):
        if not run(number):
            return number - 1
    raise AssertionError("there is no end of calls")


def nth(call: str, number: int) -> int:
    """Return which call is to fail in the run of that number: of frequent ones each at first, then fewer and fewer."""
    steps = {"write": 3, "open": 1.25, "close": 1.25}
    return number if number < 6 or call not in steps else 5 + int(steps[call] ** (number - 5)) + number - 5


@pytest.mark.parametrize("call", [*CALLS, "write"])
def test_a_call_that_fails_leaves_whole_files_a_sentence_and_a_folder_that_can_be_used_again(
    job: Path, sound: dict[str, bytes], tmp_path: Path, call: str
) -> None:
    def run(number: int) -> bool:
        out = tmp_path / f"out{number}"
        place = nth(call, number)
        with failing(call, place, full) as count:
            try:
                reported(job, out)
            except UnusableFile as fault:
                assert fault.code in (Trouble.CANNOT_WRITE, Trouble.EXISTS)
                assert "disk is full" in fault.sentence
        if not count.met:
            assert contents(out) == sound
            return False
        whole(out, sound)
        if call != "unlink":
            assert [name for name in contents(out) if name.endswith(".part")] == []
        reported(job, out)
        assert contents(out) == sound
        return True

    assert numbers(run) >= (0 if call in ("chmod", "close") else 1)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a process that ends at once needs fork")
@pytest.mark.parametrize("call", ["open", "write", "fsync", "replace", "unlink"])
def test_a_run_killed_at_any_call_leaves_whole_files_and_the_next_run_goes_through(
    job: Path, sound: dict[str, bytes], tmp_path: Path, call: str
) -> None:
    def run(number: int) -> bool:
        out = tmp_path / f"out{number}"
        place = nth(call, number)
        pid = os.fork()
        if pid == 0:
            with failing(call, place, lambda: os._exit(KILLED)):
                reported(job, out)
            os._exit(0)
        _, status = os.waitpid(pid, 0)
        code = os.waitstatus_to_exitcode(status)
        assert code in (0, KILLED)
        if out.exists():
            whole(out, sound)
        reported(job, out)
        assert contents(out) == sound
        return code == KILLED

    assert numbers(run) >= 1


def test_a_file_on_its_way_when_a_run_was_killed_is_still_known_as_ours(tmp_path: Path) -> None:
    def write(text: bytes) -> Callable[..., None]:
        return lambda stream: stream.write(text)

    Outputs(tmp_path).write("a.txt", write(b"first"))
    with failing("replace", 3, raising(errno.EIO)), pytest.raises(UnusableFile):
        # The list before, the file, and here the list after it.
        Outputs(tmp_path).write("a.txt", write(b"second"))
    assert (tmp_path / "a.txt").read_bytes() == b"second"
    Outputs(tmp_path).write("a.txt", write(b"third"))
    assert (tmp_path / "a.txt").read_bytes() == b"third"
    assert "coming" not in (tmp_path / LIST).read_text()


@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.ENOSPC, "The disk is full"), (errno.EROFS, "Read-only"), (errno.EIO, "cannot be written")],
)
def test_what_keeps_a_file_from_being_written_is_said(tmp_path: Path, number: int, words: str) -> None:
    with failing("fsync", 1, raising(number)), pytest.raises(UnusableFile, match=words):
        Outputs(tmp_path).write("a.txt", lambda stream: None)
    assert list(tmp_path.iterdir()) == []


def test_archives_are_whole(sound: dict[str, bytes], tmp_path: Path) -> None:
    assert any(name.endswith(".docx") for name in sound)
    for name, content in sound.items():
        if name.endswith((".docx", ".xlsx")):
            (tmp_path / "a").write_bytes(content)
            with zipfile.ZipFile(tmp_path / "a") as package:
                assert package.testzip() is None
