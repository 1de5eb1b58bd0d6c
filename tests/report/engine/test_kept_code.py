"""Kept code of templates: taken for the very source it was made of only, never needed, never in the way."""

import sys
from functools import partial
from pathlib import Path

import pytest

from appraise.report.engine import kept_code as store
from appraise.report.engine import section
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.kept_code import keep_code, kept_code


@pytest.fixture(autouse=True)
def _written(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


CODE = compile("r + 1", "a", "eval")


def _kept(folder: Path, made_of: str = "a file", name: str = "sections/a.docx") -> object:
    return kept_code(name, made_of, folder)


def _keep(folder: Path, made_of: str = "a file", name: str = "sections/a.docx") -> None:
    keep_code(name, made_of, {"styles": {"Normal": 1}}, CODE, folder)


def test_code_is_found_again_for_what_it_was_made_of_alone(tmp_path: Path) -> None:
    assert _kept(tmp_path) is None
    _keep(tmp_path)
    assert _kept(tmp_path) == ({"styles": {"Normal": 1}}, CODE)
    assert _kept(tmp_path, "another file") is None
    assert _kept(tmp_path, name="sections/b.docx") is None


def test_a_changed_template_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    _keep(tmp_path)
    _keep(tmp_path, "another file")
    assert len(list(tmp_path.iterdir())) == 1
    assert _kept(tmp_path) is None
    assert _kept(tmp_path, "another file") is not None


def test_code_of_another_engine_is_not_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _keep(tmp_path)
    monkeypatch.setattr(store, "_engine", lambda: "another")
    assert _kept(tmp_path) is None


@pytest.mark.parametrize("left", [0, 1, 10, 60, 120, 200])
def test_a_cut_or_foreign_file_is_passed_over_and_written_anew(tmp_path: Path, left: int) -> None:
    _keep(tmp_path)
    [file] = tmp_path.iterdir()
    whole = file.read_bytes()
    assert len(whole) > 200
    file.write_bytes(whole[:left])
    assert _kept(tmp_path) is None
    file.write_bytes(whole[:-40] + bytes(40))
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


def test_a_file_that_cannot_take_its_place_is_not_kept_and_nothing_is_said(tmp_path: Path) -> None:
    _keep(tmp_path)
    (file,) = tmp_path.iterdir()
    file.unlink()
    file.mkdir()
    _keep(tmp_path)
    assert _kept(tmp_path) is None
    assert list(tmp_path.iterdir()) == [file]
    assert file.is_dir()


def test_python_may_be_told_to_write_no_byte_code(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    _keep(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_template_is_the_same_from_what_was_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(section, "kept_code", partial(kept_code, folder=tmp_path))
    monkeypatch.setattr(section, "keep_code", partial(keep_code, folder=tmp_path))
    content = TemplateFinder.with_own().section("item")
    made = section.compiled.__wrapped__(content, "item")
    assert len(list(tmp_path.iterdir())) == 1
    monkeypatch.setattr(section, "Scan", None)
    again = section.compiled.__wrapped__(content, "item")
    assert again.template is not made.template
    for name in ("name", "checked", "source", "resources", "landscape", "tags", "styles", "numberings", "tree"):
        assert getattr(again, name) == getattr(made, name), name
    with pytest.raises(TypeError):
        section.compiled.__wrapped__(content, "item", (("Heading1", section.HeadingStyle(1, numbered=True)),))
