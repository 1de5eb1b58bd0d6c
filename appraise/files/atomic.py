"""Writing a file whole or not at all."""

import contextlib
import errno
import os
import re
import secrets
from collections.abc import Callable, Iterable
from itertools import chain
from pathlib import Path
from typing import BinaryIO

from appraise.files.unusable import Trouble, UnusableFile

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG) if hasattr(errno, "EDQUOT") else (errno.ENOSPC, errno.EFBIG)
#: How the name of a temporary file ends, behind the name of its target.
_LEFTOVER = re.compile(r"\.[0-9a-f]{8}\.part")


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
    """Write a file through `writer` and return the path really written (symbolic links are followed).

    beside    names to take instead, in this order, where the target is held open by another program
    finished  called with the temporary file once it is whole, before it takes its place

    The content goes to a temporary file in the same folder, is forced to disk and then takes the place of the
    target in one step, so that nobody ever sees half a file. The mode of an existing target is kept. Whatever
    `writer` raises leaves the target as it was. Raises `TargetLocked` or `UnusableFile`.
    """
    target = path.resolve()
    temporary = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    try:
        # O_EXCL with 0o666 leaves the mode to the umask, as any other program does.
        handle = os.open(temporary, os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_BINARY", 0), 0o666)
    except OSError as error:
        raise _cannot_write(target, error) from error
    try:
        with os.fdopen(handle, "w+b") as stream:
            writer(stream)
            stream.flush()
            os.fsync(stream.fileno())
        _keep_mode(temporary, target)
        if finished is not None:
            finished(temporary)
        target = _placed(temporary, target, beside)
    except OSError as error:
        raise _cannot_write(target, error) from error
    finally:
        with contextlib.suppress(OSError):
            temporary.unlink()
    return target


def remove_leftovers(path: Path) -> None:
    """Remove the temporary files that runs that were killed have left beside `path`."""
    target = path.resolve()
    with contextlib.suppress(OSError):
        for one in target.parent.iterdir():
            if _LEFTOVER.fullmatch(one.name.removeprefix(f".{target.name}")) and one.name.startswith("."):
                one.unlink()


def is_full(fault: BaseException | None) -> bool:
    """Say whether a full disk is at the bottom of an exception."""
    while fault is not None:
        told = (fault, *fault.args)
        if any(isinstance(one, OSError) and one.errno in _FULL for one in told):
            return True
        fault = fault.__cause__ or fault.__context__
    return False


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
