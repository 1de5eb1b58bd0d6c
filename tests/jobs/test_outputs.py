"""Outputs: whole or not at all, and never over a file that is the user's."""

import json
from pathlib import Path
from typing import BinaryIO

import pytest

from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.outputs import LIST, Outputs


def text(content: str) -> "Writer":
    return Writer(content)


class Writer:
    def __init__(self, content: str) -> None:
        self.content = content

    def __call__(self, stream: BinaryIO) -> None:
        stream.write(self.content.encode())


def test_a_file_we_wrote_is_replaced(tmp_path: Path) -> None:
    Outputs(tmp_path).write("a.txt", text("first"))
    Outputs(tmp_path).write("a.txt", text("second"))
    assert (tmp_path / "a.txt").read_text() == "second"


def test_a_file_of_the_user_is_not(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("mine")
    with pytest.raises(UnusableFile) as refused:
        Outputs(tmp_path).write("a.txt", text("second"))
    assert refused.value.code is Trouble.EXISTS
    assert (tmp_path / "a.txt").read_text() == "mine"


def test_a_file_we_wrote_and_the_user_changed_is_the_users(tmp_path: Path) -> None:
    Outputs(tmp_path).write("a.txt", text("first"))
    (tmp_path / "a.txt").write_text("first, corrected by hand")
    with pytest.raises(UnusableFile):
        Outputs(tmp_path).check("a.txt")
    Outputs(tmp_path, overwrite=True).write("a.txt", text("third"))
    assert (tmp_path / "a.txt").read_text() == "third"


def test_a_writer_that_fails_leaves_what_was_there(tmp_path: Path) -> None:
    Outputs(tmp_path).write("a.txt", text("first"))

    def fails(stream: BinaryIO) -> None:
        stream.write(b"half")
        raise RuntimeError("in the middle")

    with pytest.raises(RuntimeError):
        Outputs(tmp_path).write("a.txt", fails)
    assert (tmp_path / "a.txt").read_text() == "first"
    assert sorted(file.name for file in tmp_path.iterdir()) == ["a.txt", LIST]


def test_the_list_names_what_was_written(tmp_path: Path) -> None:
    outputs = Outputs(tmp_path / "new")
    outputs.write("b.txt", text("b"))
    outputs.write("a.txt", text("a"))
    assert list(json.loads((tmp_path / "new" / LIST).read_text())) == ["a.txt", "b.txt"]


@pytest.mark.parametrize("content", ["", "[]", "not json"])
def test_a_broken_list_makes_every_file_the_users(tmp_path: Path, content: str) -> None:
    (tmp_path / LIST).write_text(content)
    (tmp_path / "a.txt").write_text("whose?")
    with pytest.raises(UnusableFile):
        Outputs(tmp_path).check("a.txt")
