"""Writing a file whole or not at all."""

import contextlib
import errno
import io
import os
import re
from collections.abc import Callable, Iterable
from itertools import chain
from pathlib import Path
from typing import Any, BinaryIO, cast

from appraise.files.unusable import Trouble, UnusableFile, shortened

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG) if hasattr(errno, "EDQUOT") else (errno.ENOSPC, errno.EFBIG)
#: The name of a temporary file: hidden, the name of its target, eight digits.
_LEFTOVER = re.compile(r"\..+\.[0-9a-f]{8}\.part")


class TargetLocked(UnusableFile):
    """The target is held open by another program; the caller may write beside it and say so."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            Trouble.LOCKED, path, f"{path.name} is open in another program. Close it there and run the command again."
        )


def write_whole(
    path: Path,
    writer: Callable[[BinaryIO], None],
    *,
    beside: Iterable[Path] = (),
    finished: Callable[[Path], None] | None = None,
) -> Path:
    """Write a file through `writer` and return where: `path` as given, or the file that was really written instead.

    Another file is written where `path` is a symbolic link, which is followed, and where the target is held open.

    beside    names to take instead, in this order, where the target is held open by another program
    finished  called with the temporary file once it is whole, before it takes its place

    The content goes to a temporary file in the same folder, is forced to disk and then takes the place of the
    target in one step, so that nobody ever sees half a file. The mode of an existing target is kept. Whatever
    `writer` raises leaves the target as it was. Raises `TargetLocked` or `UnusableFile`.
    """
    target = path.resolve()
    temporary = target.with_name(f".{target.name}.{os.urandom(4).hex()}.part")
    try:
        # O_EXCL with 0o666 leaves the mode to the umask, as any other program does.
        handle = os.open(temporary, os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_BINARY", 0), 0o666)
    except OSError as error:
        raise _cannot_write(target, error) from error
    try:
        with os.fdopen(handle, "w+b") as stream:
            sheltered = _Sheltered(stream)
            try:
                writer(cast(BinaryIO, sheltered))
            finally:
                sheltered.leave()
            stream.flush()
            os.fsync(stream.fileno())
        _keep_mode(temporary, target)
        if finished is not None:
            finished(temporary)
        placed = _placed(temporary, target, beside)
    except UnusableFile:
        raise
    except Exception as error:
        # Libraries wrap what the system says in exceptions of their own.
        cause = _os_error_under(error)
        if cause is None:
            raise
        raise _cannot_write(target, cause) from error
    finally:
        with contextlib.suppress(OSError):
            temporary.unlink()
    return path if placed == target and not path.is_symlink() else placed


def make_folder(folder: Path) -> None:
    """Make a folder and those above it, where they are not there yet. Raises `UnusableFile`."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        why = "the disk is full" if error.errno in _FULL else error.strerror
        sentence = f"The folder {shortened(folder)} cannot be made ({why}). Choose another place."
        raise UnusableFile(Trouble.CANNOT_WRITE, folder, sentence) from error


def remove_leftovers(folder: Path) -> None:
    """Remove the temporary files that runs that were killed have left in `folder` and in the folders in it."""
    with contextlib.suppress(OSError):
        for one in (*folder.glob(".*.part"), *folder.glob("*/.*.part")):
            if _LEFTOVER.fullmatch(one.name):
                one.unlink()


def is_full(fault: BaseException) -> bool:
    """Say whether a full disk is at the bottom of an exception."""
    cause = _os_error_under(fault)
    return cause is not None and cause.errno in _FULL


def _os_error_under(fault: BaseException | None) -> OSError | None:
    """Return what the operating system said, where that is what an exception wraps."""
    while fault is not None:
        for one in (fault, *fault.args):
            if isinstance(one, OSError):
                return one
        fault = fault.__cause__
    return None


class _Sheltered:
    """A file as its writer sees it, until it is done.

    A zip whose writing failed tries to write its end when it is thrown away, which may be long after the file was
    closed, and would complain to the user. What comes late goes nowhere.
    """

    def __init__(self, stream: Any) -> None:
        self._stream = stream

    def leave(self) -> None:
        """Let nothing more through."""
        self._stream = _Nowhere()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


class _Nowhere(io.RawIOBase):
    """Takes everything, keeps nothing, and knows how far it would be by now."""

    def __init__(self) -> None:
        self._place = 0

    def writable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def write(self, content: Any) -> int:
        self._place += len(content)
        return len(content)

    def seek(self, offset: int, whence: int = 0) -> int:
        self._place = offset if whence == 0 else self._place + offset
        return self._place

    def tell(self) -> int:
        return self._place


def write_bytes(path: Path, content: bytes) -> Path:
    """Write `content` whole and return the path really written."""

    def write(stream: BinaryIO) -> None:
        stream.write(content)

    return write_whole(path, write)


def seems_open(path: Path) -> bool:
    """Say whether an office program has left its lock file beside `path` (it may be left over from a crash)."""
    target = path.resolve()
    return any(target.with_name(name).exists() for name in (f".~lock.{target.name}#", f"~${target.name}"))


def _keep_mode(temporary: Path, target: Path) -> None:
    if target.exists():
        temporary.chmod(target.stat().st_mode & 0o7777)


def _placed(temporary: Path, target: Path, beside: Iterable[Path]) -> Path:
    """Move the finished file to the first name that is not held open and return it; TargetLocked if all are."""
    for free in chain((target,), beside):
        with contextlib.suppress(TargetLocked):
            _replace(temporary, free)
            return free
    raise TargetLocked(target)


def _replace(temporary: Path, target: Path) -> None:
    try:
        temporary.replace(target)
    except PermissionError as error:
        raise TargetLocked(target) from error
    if os.name == "posix":
        # The file is in its place; should the folder not be forced to disk, it is only not yet safe from a power cut.
        with contextlib.suppress(OSError):
            folder = os.open(target.parent, os.O_RDONLY)
            try:
                os.fsync(folder)
            finally:
                os.close(folder)


def _cannot_write(target: Path, error: OSError) -> UnusableFile:
    if not target.parent.is_dir():
        sentence = f"The folder {target.parent} does not exist. Make it first, or name another."
    elif target.is_dir():
        sentence = f"{target} is a folder. Name a file."
    elif error.errno in _FULL:
        sentence = f"The disk is full: {target} was not written. Make room and run the command again."
    else:
        sentence = f"{target} cannot be written ({error.strerror}). Check the folder's permissions and free space."
    return UnusableFile(Trouble.CANNOT_WRITE, target, sentence)
