"""Writing a file whole or not at all."""

import contextlib
import os
import secrets
from collections.abc import Callable, Iterable
from itertools import chain
from pathlib import Path
from typing import BinaryIO

from appraise.files.unusable import Trouble, UnusableFile


class TargetLocked(UnusableFile):
    """The target is held open by another program; the caller may write beside it and say so."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            Trouble.LOCKED, path, f"{path.name} is open in another program. Close it there and run the command again."
        )


def write_whole(path: Path, writer: Callable[[BinaryIO], None], *, beside: Iterable[Path] = ()) -> Path:
    """Write a file through `writer` and return the path really written (symbolic links are followed).

    beside  names to take instead, in this order, where the target is held open by another program

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
        target = _placed(temporary, target, beside)
    except OSError as error:
        raise _cannot_write(target, error) from error
    finally:
        with contextlib.suppress(FileNotFoundError):
            temporary.unlink()
    return target


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
    else:
        sentence = f"{target} cannot be written ({error.strerror}). Check the folder's permissions and free space."
    return UnusableFile(Trouble.CANNOT_WRITE, target, sentence)
