"""Runs one command as a process of its own and measures it.

CPU is user plus system time of the process, memory its largest resident size, both from the kernel (`wait4`). The
kernel begins that count with the peak of the process that starts the other one (`execve` on Linux); where the measured
process did not grow beyond it, its memory is unknown (nan). A
script of ours may measure a stretch of itself: what it prints as `cpu` on its last line then counts instead.
"""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from math import nan
from pathlib import Path
from resource import RUSAGE_SELF, getrusage
from typing import Any

ROOT = Path(__file__).parent.parent


@dataclass(frozen=True, slots=True)
class Measured:
    """One run: CPU [s], peak memory [MB] or nan, what it answered, exit code."""

    cpu: float
    memory: float
    answer: Any
    code: int


class FailedRunError(Exception):
    """A command ended with an exit code that it may not have."""


def python(*arguments: object) -> tuple[str, ...]:
    """Return a command that runs this Python."""
    return (sys.executable, *(str(one) for one in arguments))


def run(command: Sequence[str]) -> Measured:
    """Return the measures of one run; FailedRunError where it fails.

    The program ends with 1 where it found stops, which is an answer; a script of ours may only end with 0.
    """
    codes = (0, 1) if command[1:3] == ("-m", "appraise") else (0,)
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, cwd=ROOT, env=_environment()
    ) as process:
        assert process.stdout is not None
        last = b""
        for line in process.stdout:
            last = line
        _, status, used = os.wait4(process.pid, 0)
        code = process.returncode = os.waitstatus_to_exitcode(status)
    if code not in codes:
        raise FailedRunError(f"exit code {code}: {' '.join(command)}")
    answer, cpu = _last_words(last)
    # Linux gives the largest resident size in kilobytes.
    own = getrusage(RUSAGE_SELF).ru_maxrss
    memory = used.ru_maxrss / 1000 if used.ru_maxrss > own else nan
    return Measured(cpu or used.ru_utime + used.ru_stime, memory, answer, code)


def _environment() -> dict[str, str]:
    """Return the environment of a program that is installed: its compiled modules are kept."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}


def _last_words(line: bytes) -> tuple[Any, float]:
    text = line.decode(errors="replace").strip()
    if text.startswith("{"):
        found = json.loads(text)
        return found.get("answer"), float(found.get("cpu", 0))
    return text, 0.0
