"""Runs cases through the command and keeps what came of them: ways of ending, what was printed, what was touched."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import IO

from support.hostile.case import Case, Home, Sound

_WORKERS = 2
_COMMANDS = {
    "check": ("check", "job.xlsx", "--annotated", "../out/copy.xlsx"),
    "report": ("report", "job.xlsx", "--draft", "--out", "../out"),
}


@dataclass(frozen=True)
class Run:
    """How one command ended."""

    command: str
    code: int
    signal: int
    megabytes: int
    stdout: str
    stderr: str


@dataclass(frozen=True)
class Outcome:
    """What came of a case.

    touched  files of the user that changed, came or went
    left     what lies in the temporary folder afterwards
    written  names of the files in the output folder
    """

    runs: tuple[Run, ...]
    touched: tuple[str, ...]
    left: tuple[str, ...]
    written: tuple[str, ...]


class _Worker:
    """One server process."""

    def __init__(self, sound: Sound, out: Path) -> None:
        program = Path(__file__).with_name("server.py")
        paths = os.pathsep.join([str(Path(__file__).parents[3]), os.environ.get("PYTHONPATH", "")])
        self._process = subprocess.Popen(
            [sys.executable, str(program), str(sound.path), str(out)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": paths, "PYTHONWARNINGS": "ignore"},
        )
        if self._answer() != "ready":
            raise RuntimeError("the server did not start")

    def _answer(self) -> object:
        stream: IO[str] | None = self._process.stdout
        assert stream is not None
        return json.loads(stream.readline())

    def run(self, folder: Path, arguments: list[str]) -> Run:
        stream = self._process.stdin
        assert stream is not None
        stream.write(json.dumps({"folder": str(folder), "arguments": arguments}) + "\n")
        stream.flush()
        ended = self._answer()
        assert isinstance(ended, dict)
        said = ((folder / name).read_text("utf-8", errors="surrogateescape") for name in ("stdout", "stderr"))
        return Run(arguments[0], ended["code"], ended["signal"], ended["megabytes"], *said)

    def close(self) -> None:
        for stream in (self._process.stdin, self._process.stdout):
            if stream is not None:
                stream.close()
        self._process.wait(timeout=30)


class Runs:
    """Runs the cases handed in ahead, two at a time, and any other when its outcome is asked for."""

    def __init__(self, folder: Path, cases: Iterable[Case]) -> None:
        self._folder = folder
        (folder / "sound").mkdir()
        self._sound = Sound(folder / "sound")
        self._free: SimpleQueue[_Worker] = SimpleQueue()
        self._workers = [_Worker(self._sound, folder / f"warm{number}") for number in range(_WORKERS)]
        for worker in self._workers:
            self._free.put(worker)
        self._pool = ThreadPoolExecutor(_WORKERS)
        self._outcomes: dict[tuple[str, str], Future[Outcome]] = {}
        self._building = threading.Lock()
        for case in cases:
            self._begin(case)

    def _begin(self, case: Case) -> Future[Outcome]:
        folder = self._folder / f"case{len(self._outcomes)}"
        begun = self._outcomes[case.part, case.attack] = self._pool.submit(self._run, case, folder)
        return begun

    def outcome(self, case: Case) -> Outcome:
        """Return what came of a case; waits for it."""
        begun = self._outcomes.get((case.part, case.attack))
        return (self._begin(case) if begun is None else begun).result()

    def close(self) -> None:
        """End the servers."""
        self._pool.shutdown(wait=False, cancel_futures=True)
        self._pool.shutdown()
        for worker in self._workers:
            worker.close()

    def _run(self, case: Case, folder: Path) -> Outcome:
        home = Home.made(folder, self._sound)
        with self._building:  # some cases are large; one at a time is enough
            case.build(home)
        before = _state(folder)
        worker = self._free.get()
        try:
            runs: list[Run] = []
            for command in case.runs:
                if not runs or runs[0].code in (0, 1):
                    runs.append(
                        worker.run(folder, [*_COMMANDS[command], *(case.options if command == "report" else ())])
                    )
        finally:
            self._free.put(worker)
        after = _state(folder)
        touched = tuple(sorted(one for one in {*before, *after} if before.get(one) != after.get(one)))
        left = tuple(sorted(one.name for one in (folder / "tmp").iterdir()))
        written = tuple(sorted(str(one.relative_to(folder / "out")) for one in (folder / "out").rglob("*")))
        shutil.rmtree(folder, ignore_errors=True)
        return Outcome(tuple(runs), touched, left, written)


def _state(folder: Path) -> dict[str, str]:
    """Return what lies in a case's folder outside of `out` and `tmp`: hashes of files, targets of links."""
    found = {}
    for top, folders, files in os.walk(folder):
        if Path(top) == folder:
            folders[:] = [one for one in folders if one not in ("out", "tmp")]
            files = [one for one in files if one not in ("stdout", "stderr")]
        for name in (*folders, *files):
            file = Path(top, name)
            mark = f"{file.lstat().st_mode}"
            if file.is_symlink():
                mark += f" {os.readlink(file)}"  # noqa: PTH115
            elif file.is_file():
                with file.open("rb") as stream:
                    mark += hashlib.file_digest(stream, "sha256").hexdigest()
            found[str(file.relative_to(folder))] = mark
    return found
