"""What docs/command_line.md says of completing commands in a shell."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BASH = shutil.which("bash")
#: Beside the interpreter, as an installation puts it.
COMMAND = Path(sys.executable).with_name("appraise")


def completed(*words: str) -> list[str]:
    """Return what bash is offered for the last of these words, asked through the function it is given."""
    asked = " ".join(f"'{word}'" for word in words)
    script = (
        'eval "$(_APPRAISE_COMPLETE=bash_source appraise)"\n'
        f"COMP_WORDS=({asked}); COMP_CWORD={len(words) - 1}\n"
        '_appraise_completion appraise\nprintf "%s\\n" "${COMPREPLY[@]}"'
    )
    path = f"{COMMAND.parent}{os.pathsep}{os.environ['PATH']}"
    assert BASH is not None
    ran = subprocess.run(
        [BASH, "-c", script], capture_output=True, text=True, check=True, env={**os.environ, "PATH": path}
    )
    return ran.stdout.split()


@pytest.mark.skipif(BASH is None or not COMMAND.exists(), reason="bash or the installed command is missing")
@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (("appraise", "che"), ["check"]),
        (("appraise", "re"), ["report", "revalue"]),
        (("appraise", "check", "--an"), ["--annotated"]),
        (("appraise", "new", "a.xlsx", "--use", "ins"), ["insurance"]),
    ],
)
def test_bash_completes_verbs_options_and_uses(words: tuple[str, ...], offered: list[str]) -> None:
    assert completed(*words) == offered


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_is_given_its_lines(shell: str) -> None:
    environment = {**os.environ, "_APPRAISE_COMPLETE": f"{shell}_source"}
    command = [str(COMMAND)] if COMMAND.exists() else []
    if not command:
        pytest.skip("the installed command is missing")
    ran = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    if shell == "bash" and "Shell completion is not supported" in ran.stderr:
        pytest.skip("this bash is too old")
    assert ran.returncode == 0
    assert "_APPRAISE_COMPLETE" in ran.stdout
