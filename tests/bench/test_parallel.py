"""Photographs are prepared by two threads, many jobs by processes of their own; nothing else runs side by side."""

import ast
import inspect
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

import appraise
from appraise.photos import prepare
from appraise.photos.faults import Fault

_PARALLEL = ("asyncio", "concurrent", "multiprocessing", "threading", "_thread")


def imported(source: str) -> Iterator[str]:
    """Yield the first words of the modules that a source imports."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (one.name.split(".")[0] for one in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield (node.module or "").split(".")[0]


def test_only_photographs_and_many_jobs_run_side_by_side() -> None:
    folder = Path(appraise.__file__).parent
    found = {
        file.relative_to(folder).as_posix()
        for file in folder.rglob("*.py")
        if set(imported(file.read_text("utf-8"))) & set(_PARALLEL)
    }
    assert found == {"photos/prepare.py", "jobs/revalue_many.py"}


def test_photographs_are_prepared_by_two_threads(monkeypatch: pytest.MonkeyPatch) -> None:
    assert inspect.signature(prepare.prepare_all).parameters["threads"].default == 2
    both = threading.Barrier(2, timeout=60)
    by: set[int] = set()

    def prepared(file: Path, **_: object) -> Fault:
        # Passes only if two are at work at the same time.
        both.wait()
        by.add(threading.get_ident())
        return Fault("PIC-01", file.name)

    monkeypatch.setattr(prepare, "prepare", prepared)
    names = [f"{number}.jpg" for number in range(8)]
    assert [one.detail for one in prepare.prepare_all(map(Path, names)) if isinstance(one, Fault)] == names
    assert len(by) == 2
