"""What the README shows is what happens."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def test_two_commands_of_one_line_do_all_the_set_up() -> None:
    commands = blocks("sh")
    assert len(commands) == 2
    assert all(len(command.strip().splitlines()) == 1 for command in commands)
    assert "appraise report workbooks_demo/" in commands[0]
    assert "-m pytest -q" in commands[1]


def test_the_output_shown_is_the_real_one(tmp_path: Path) -> None:
    shown = blocks("text")[0]
    arguments = blocks("sh")[0].split(".venv/bin/appraise ")[1].split()
    demo = Path(arguments[1]).parent
    shutil.copytree(ROOT / demo, tmp_path / demo)
    ran = subprocess.run(
        [sys.executable, "-m", "appraise", *arguments], capture_output=True, text=True, cwd=tmp_path, check=False
    )
    assert (ran.stdout, ran.stderr, ran.returncode) == (shown, "", 0)


@pytest.mark.parametrize("verb", ["new", "check", "report"])
def test_verbs_shown_exist(verb: str) -> None:
    ran = subprocess.run([sys.executable, "-m", "appraise", verb, "--help"], capture_output=True, text=True, check=True)
    assert f"appraise {verb} quenby.xlsx" in ran.stdout
