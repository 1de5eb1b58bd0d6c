"""Lets the calls to the operating system by which outputs are written fail, one after the other."""

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

from appraise.files import atomic

#: What is done on the n-th call: raise, or end the process.
Deed = Callable[[], None]
#: The calls by which files are written: the object they are looked up on, and the name.
CALLS: dict[str, tuple[Any, str]] = {
    "open": (atomic.os, "open"),
    "fsync": (atomic.os, "fsync"),
    "close": (atomic.os, "close"),
    "replace": (Path, "replace"),
    "chmod": (Path, "chmod"),
    "unlink": (Path, "unlink"),
    "mkdir": (Path, "mkdir"),
}


def raising(number: int) -> Deed:
    """Return what raises the error of that number."""

    def deed() -> None:
        raise OSError(number, os.strerror(number))

    return deed


def full() -> None:
    """Raise what a full disk raises."""
    raising(errno.ENOSPC)()


class _Stream:
    """A file whose n-th writing call is met by a deed."""

    def __init__(self, stream: Any, count: "Count") -> None:
        self._stream = stream
        self._count = count

    def __enter__(self) -> "_Stream":
        return self

    def __exit__(self, *_: object) -> None:
        self._stream.close()

    def write(self, content: Any) -> int:
        self._count.one()
        written: int = self._stream.write(content)
        return written

    def flush(self) -> None:
        self._count.one()
        self._stream.flush()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


class Count:
    """Counts calls and does the deed at the n-th; `met` says whether it came to that."""

    def __init__(self, number: int, deed: Deed) -> None:
        self._left = number
        self._deed = deed
        self.met = False

    def one(self) -> None:
        """Count one call."""
        self._left -= 1
        if self._left == 0:
            self.met = True
            self._deed()


@contextmanager
def failing(call: str, number: int, deed: Deed) -> Iterator[Count]:
    """Let the n-th call of a kind fail: one of `CALLS`, or `write` (on a file being written)."""
    count = Count(number, deed)
    if call == "write":
        plain = os.fdopen

        def opened(*arguments: Any, **options: Any) -> Any:
            return _Stream(plain(*arguments, **options), count)

        with patch.object(atomic.os, "fdopen", opened):
            yield count
        return
    place, name = CALLS[call]
    real = getattr(place, name)

    def counted(*arguments: Any, **options: Any) -> Any:
        count.one()
        return real(*arguments, **options)

    with patch.object(place, name, counted):
        yield count
