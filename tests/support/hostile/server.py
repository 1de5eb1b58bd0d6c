"""Runs the command for hostile files, each time in a process of its own with little time, little memory, no network.

Started once by the tests: everything is imported and warmed, then each run is forked. A line of JSON in, one out:
{"folder": ..., "arguments": [...]} gives {"code": ..., "signal": ..., "megabytes": ...}. Standard output and error go
to the files `stdout` and `stderr` of the folder. Whatever the program does that no run may do (connect, start a
program, write outside its folder, read the files beside it) raises and so ends with the exit code of our own fault.
"""

import json
import os
import resource
import signal
import sys
import tempfile
from pathlib import Path
from typing import Any

SECONDS = 10
BYTES = 1_000_000_000
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_APPEND | os.O_TRUNC
_FORBIDDEN = ("socket.connect", "socket.bind", "socket.getaddrinfo", "subprocess.Popen", "os.system", "os.exec",
              "os.posix_spawn", "os.startfile", "ctypes.dlopen", "webbrowser.open")  # fmt: skip
_CHANGING = ("os.remove", "os.rename", "os.rmdir", "os.chmod", "os.chown", "os.link", "os.symlink", "os.truncate",
             "os.mkdir", "shutil.rmtree")  # fmt: skip


class NotAllowedError(RuntimeError):
    """The program did what no run may do."""


def guard(folder: Path) -> None:
    """Forbid this process everything but reading its job and writing to `out` and `tmp`."""
    home = os.path.realpath(folder)
    free = tuple(f"{home}{os.sep}{name}{os.sep}" for name in ("out", "tmp"))
    beside = f"{home}{os.sep}outside"

    def allowed(path: object) -> bool:
        if isinstance(path, int):
            return True
        real = os.path.realpath(os.fsdecode(path))  # type: ignore[arg-type]
        return real.startswith(free) or real + os.sep in free or real in (home, os.devnull)

    def hook(event: str, arguments: tuple[Any, ...]) -> None:
        if event in _FORBIDDEN:
            raise NotAllowedError(f"{event} {arguments}")
        if event in _CHANGING and not allowed(arguments[0]):
            raise NotAllowedError(f"{event} {arguments}")
        if event == "open" and not isinstance(arguments[0], int) and arguments[0] is not None:
            path, _, flags = arguments
            if isinstance(flags, int) and flags & _WRITING and not allowed(path):
                raise NotAllowedError(f"write {path}")
            if os.path.realpath(os.fsdecode(path)).startswith(beside):
                raise NotAllowedError(f"read {path}")

    sys.addaudithook(hook)


def child(folder: Path, arguments: list[str]) -> None:
    """Run the command and never return."""
    for number, name in ((1, "stdout"), (2, "stderr")):
        handle = os.open(folder / name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(handle, number)
        os.close(handle)
    os.chdir(folder / "job")
    tempfile.tempdir = str(folder / "tmp")
    # As where the program's own folder cannot be written: nothing compiled, module or template, is kept beside it.
    sys.dont_write_bytecode = True
    guard(folder)
    resource.setrlimit(resource.RLIMIT_AS, (BYTES, BYTES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    signal.alarm(SECONDS)
    sys.argv = ["appraise", *arguments]
    from appraise.cli import main

    code = 70
    try:
        main()
    except SystemExit as leave:
        code = leave.code if isinstance(leave.code, int) else 71
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)


def run(folder: Path, arguments: list[str]) -> dict[str, int]:
    """Run the command in a process of its own and return how it ended."""
    pid = os.fork()
    if pid == 0:
        try:
            child(folder, arguments)
        finally:
            os._exit(72)
    _, status, usage = os.wait4(pid, 0)
    killed = os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0
    code = os.WEXITSTATUS(status) if os.WIFEXITED(status) else -1
    return {"code": code, "signal": killed, "megabytes": usage.ru_maxrss // 1024}


def warm(job: Path, out: Path) -> None:
    """Check and report a sound job once, so that what every run needs is loaded."""
    from datetime import date

    from appraise.jobs.check import check_job
    from appraise.jobs.report import write_report

    checked = check_job(job, today=date(2026, 11, 25))
    list(checked.lines())
    out.mkdir()
    checked.write_annotated(out / "copy.xlsx", overwrite=True)
    write_report(job, out, draft=True, overwrite=True, today=date(2026, 11, 25))


def serve() -> None:
    """Answer one line after another until the input ends."""
    warm(Path(sys.argv[1]), Path(sys.argv[2]))
    print(json.dumps("ready"), flush=True)
    for line in sys.stdin:
        asked = json.loads(line)
        print(json.dumps(run(Path(asked["folder"]), asked["arguments"])), flush=True)


if __name__ == "__main__":
    serve()
