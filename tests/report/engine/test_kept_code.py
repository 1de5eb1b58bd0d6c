"""Kept code of templates: taken for the very source it was made of only, never needed, never in the way."""

import sys
from pathlib import Path

import pytest

from appraise.report.engine import kept_code as store
from appraise.report.engine.environment import environment
from appraise.report.engine.kept_code import keep_code, kept_code


@pytest.fixture(autouse=True)
def _written(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


def _code(source: str) -> object:
    return environment().compile(source)


def _kept(folder: Path, source: str = "{{ r }}", name: str = "sections/a.docx") -> object:
    return kept_code(environment(), name, source, folder)


def _keep(folder: Path, source: str = "{{ r }}", name: str = "sections/a.docx") -> None:
    keep_code(environment(), name, source, environment().compile(source), folder)


def test_code_is_found_again_for_the_same_source_alone(tmp_path: Path) -> None:
    assert _kept(tmp_path) is None
    _keep(tmp_path)
    assert _kept(tmp_path) == _code("{{ r }}")
    assert _kept(tmp_path, "{{ r }} ") is None
    assert _kept(tmp_path, name="sections/b.docx") is None


def test_a_changed_source_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    _keep(tmp_path)
    _keep(tmp_path, "{{ r }}{{ r }}")
    assert len(list(tmp_path.iterdir())) == 1
    assert _kept(tmp_path) is None
    assert _kept(tmp_path, "{{ r }}{{ r }}") is not None


def test_code_of_another_engine_is_not_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _keep(tmp_path)
    monkeypatch.setattr(store, "_engine", lambda: "another")
    assert _kept(tmp_path) is None


@pytest.mark.parametrize("left", [0, 1, 10, 60, 120])
def test_a_cut_or_foreign_file_is_passed_over_and_written_anew(tmp_path: Path, left: int) -> None:
    _keep(tmp_path)
    [file] = tmp_path.iterdir()
    whole = file.read_bytes()
    assert len(whole) > 120
    file.write_bytes(whole[:left])
    assert _kept(tmp_path) is None
    file.write_bytes(b"no code at all" * 40)
    assert _kept(tmp_path) is None
    _keep(tmp_path)
    assert file.read_bytes() == whole


def test_where_nothing_can_be_written_nothing_is_kept_and_nothing_said(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("no folder")
    _keep(blocked)
    assert _kept(blocked) is None
    assert blocked.read_text() == "no folder"


def test_python_may_be_told_to_write_no_byte_code(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    _keep(tmp_path)
    assert list(tmp_path.iterdir()) == []
