"""One run at a time for each output folder; the lock ends with its process."""

import subprocess
import sys
from pathlib import Path

import pytest

from appraise.files.lock import hold
from appraise.files.unusable import Trouble, UnusableFile

HOLDER = """
import sys, pathlib
from appraise.files.lock import hold
class Owner: pass
owner = Owner()
hold(pathlib.Path(sys.argv[1]), owner)
print("held", flush=True)
sys.stdin.readline()
"""


class Owner:
    pass


def other_run(folder: Path) -> "subprocess.Popen[str]":
    made = subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(folder)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert made.stdout is not None
    assert made.stdout.readline() == "held\n"
    return made


def ended(run: "subprocess.Popen[str]") -> None:
    for stream in (run.stdin, run.stdout):
        if stream is not None:
            stream.close()
    run.wait(timeout=30)


def test_a_folder_another_run_holds_is_refused_until_it_ends(tmp_path: Path) -> None:
    run = other_run(tmp_path)
    owner = Owner()
    with pytest.raises(UnusableFile, match="Another run is writing to") as caught:
        hold(tmp_path, owner)
    assert caught.value.code is Trouble.LOCKED
    ended(run)
    hold(tmp_path, owner)


def test_a_run_that_is_killed_leaves_no_lock(tmp_path: Path) -> None:
    run = other_run(tmp_path)
    run.kill()
    ended(run)
    hold(tmp_path, Owner())
    assert list(tmp_path.iterdir()) == []


def test_one_process_may_hold_a_folder_twice_and_lets_it_go_with_the_last(tmp_path: Path) -> None:
    first, second = Owner(), Owner()
    hold(tmp_path, first)
    hold(tmp_path / "." / "", second)
    del first
    run = subprocess.run([sys.executable, "-c", HOLDER, str(tmp_path)], input="\n", capture_output=True, text=True)
    assert "Another run is writing" in run.stderr
    del second
    ended(other_run(tmp_path))


def test_other_folders_are_free(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    run = other_run(tmp_path / "a")
    hold(tmp_path, Owner())
    ended(run)
