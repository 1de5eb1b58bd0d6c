"""The audit of dependencies: a known flaw fails it, and what could not be looked up is said to be not audited."""

import importlib.util
import json
import subprocess
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

SCRIPT = Path(__file__).resolve().parent.parent / ".ci" / "audit.py"
SOUND: dict[str, Any] = {"name": "one", "version": "1.0", "vulns": []}
FLAWED: dict[str, Any] = {"name": "two", "version": "2.0", "vulns": [{"id": "FLAW-1", "fix_versions": ["2.1"]}]}
UNKNOWN: dict[str, Any] = {"name": "three", "skip_reason": "not found"}


@pytest.fixture
def audit() -> ModuleType:
    spec = importlib.util.spec_from_file_location("audit", SCRIPT)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("answer", "code", "said"),
    [
        (json.dumps({"dependencies": [SOUND, UNKNOWN]}), 0, "audited: 1, not to be found in the list: 1"),
        (json.dumps({"dependencies": [SOUND, FLAWED]}), 1, "two 2.0: FLAW-1"),
        (json.dumps({"dependencies": [UNKNOWN]}), 0, "NOT audited"),
        ("the index is down", 0, "NOT audited"),
    ],
    ids=["sound", "flawed", "unknown", "no answer"],
)
def test_what_the_audit_says(
    audit: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    answer: str,
    code: int,
    said: str,
) -> None:
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: subprocess.CompletedProcess([], code, stdout=answer))
    assert audit.main("site-packages") == code
    assert said in capsys.readouterr().out
