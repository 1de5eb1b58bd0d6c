"""Runs one command as a process of its own and measures it.

CPU is user plus system time of the process, memory its largest resident size, both from the kernel (`wait4`). The
kernel begins that count with the peak of the process that starts the other one (`execve` on Linux), so a small process
stands between this one and the measured one; where the measured process did not grow beyond even that, its memory is
unknown (nan). A script of ours may measure a stretch of itself: what it prints as `cpu` on its last line then counts
instead.
"""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from math import nan
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parent.parent
#: Starts a command and writes to a file handle: its status, user and system time, its peak and the starter's own.
_STARTER = """
import os, resource, sys
handle, *command = sys.argv[1:]
started = os.posix_spawn(command[0], command, os.environ)
_, status, used = os.wait4(started, 0)
own = resource.getrusage(resource.RUSAGE_SELF)
os.write(int(handle), f"{status} {used.ru_utime} {used.ru_stime} {used.ru_maxrss} {own.ru_maxrss}".encode())
"""


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
    reading, writing = os.pipe()
    starter = (sys.executable, "-I", "-S", "-c", _STARTER, str(writing), *command)
    with subprocess.Popen(
        starter, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, cwd=ROOT, env=_environment(), pass_fds=(writing,)
    ) as process:
        os.close(writing)
        assert process.stdout is not None
        last = b""
        for line in process.stdout:
            last = line
    with os.fdopen(reading) as told:
        words = told.read().split()
    if not words:
        raise FailedRunError(f"it could not be started: {' '.join(command)}")
    status, user, system, peak, own = (float(one) for one in words)
    code = os.waitstatus_to_exitcode(int(status))
    if code not in codes:
        raise FailedRunError(f"exit code {code}: {' '.join(command)}")
    answer, cpu = _last_words(last)
    # Linux gives the largest resident size in kilobytes.
    return Measured(cpu or user + system, peak / 1000 if peak > own else nan, answer, code)


def _environment() -> dict[str, str]:
    """Return the environment of a program that is installed: its compiled modules are kept."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}


def _last_words(line: bytes) -> tuple[Any, float]:
    text = line.decode(errors="replace").strip()
    if text.startswith("{"):
        found = json.loads(text)
        return found.get("answer"), float(found.get("cpu", 0))
    return text, 0.0
