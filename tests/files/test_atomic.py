"""A file is written whole or not at all."""

import os
from pathlib import Path
from typing import BinaryIO

import pytest

from appraise.files.atomic import TargetLocked, seems_open, write_bytes, write_whole
from appraise.files.unusable import Trouble, UnusableFile


def test_the_content_arrives_and_nothing_else_stays(tmp_path: Path) -> None:
    assert write_bytes(tmp_path / "a.txt", b"one") == (tmp_path / "a.txt").resolve()
    write_bytes(tmp_path / "a.txt", b"two")
    assert (tmp_path / "a.txt").read_bytes() == b"two"
    assert os.listdir(tmp_path) == ["a.txt"]  # noqa: PTH208


def test_a_writer_that_fails_leaves_the_old_file(tmp_path: Path) -> None:
    target = tmp_path / "a.txt"
    target.write_bytes(b"old")

    def fail(stream: BinaryIO) -> None:
        stream.write(b"half")
        raise RuntimeError("in the middle")

    with pytest.raises(RuntimeError):
        write_whole(target, fail)
    assert target.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


@pytest.mark.skipif(os.name != "posix", reason="modes of POSIX")
def test_mode_and_link_are_kept(tmp_path: Path) -> None:
    target = tmp_path / "a.txt"
    target.write_bytes(b"old")
    target.chmod(0o640)
    link = tmp_path / "link.txt"
    link.symlink_to(target)
    assert write_bytes(link, b"new") == target.resolve()
    assert link.is_symlink() and target.read_bytes() == b"new"
    assert target.stat().st_mode & 0o777 == 0o640


@pytest.mark.skipif(os.name != "posix", reason="modes of POSIX")
def test_a_new_file_has_the_mode_of_any_other(tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"")
    write_bytes(tmp_path / "ours", b"")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_no_folder_and_a_folder_as_target(tmp_path: Path) -> None:
    for target in (tmp_path / "nowhere" / "a.txt", tmp_path):
        with pytest.raises(UnusableFile) as caught:
            write_bytes(target, b"x")
        assert caught.value.code is Trouble.CANNOT_WRITE
        assert "folder" in caught.value.sentence


def test_a_target_that_another_program_holds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def denied(*_: object) -> None:
        raise PermissionError(13, "in use")

    monkeypatch.setattr(Path, "replace", denied)
    (tmp_path / "a.txt").write_bytes(b"old")
    with pytest.raises(TargetLocked) as caught:
        write_bytes(tmp_path / "a.txt", b"new")
    assert caught.value.code is Trouble.LOCKED
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


def test_lock_files_of_office_programs(tmp_path: Path) -> None:
    target = tmp_path / "report.docx"
    assert not seems_open(target)
    (tmp_path / ".~lock.report.docx#").touch()
    assert seems_open(target)
