"""One run at a time for each output folder.

The lock is the operating system's: it ends with the process that holds it, however that ends, so none is ever left
over. Within one process a folder may be held several times.
"""

import errno
import os
from pathlib import Path
from weakref import finalize

from appraise.files.unusable import Trouble, UnusableFile, shortened

#: Handles of the folders this process holds, and how often.
_held: dict[Path, tuple[int, int]] = {}
_BUSY = (errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES, errno.EDEADLK)


def hold(folder: Path, owner: object) -> None:
    """Hold `folder` as long as `owner` is alive. Raises `UnusableFile` where another process holds it.

    Some network drives know no locks; there the folder is simply used.
    """
    place = folder.resolve()
    if place in _held:
        handle, count = _held[place]
        _held[place] = (handle, count + 1)
    else:
        taken = _locked(place)
        if taken is None:
            return
        _held[place] = (taken, 1)
    finalize(owner, _release, place)


def _locked(folder: Path) -> int | None:
    """Return the handle of the lock, None where the drive knows none."""
    try:
        handle = _opened(folder)
    except PermissionError as error:
        if os.name == "nt":
            # There the lock file is deleted with its last handle; meanwhile nobody else may open it.
            raise _busy(folder) from error
        return None
    except OSError:
        return None
    try:
        _lock(handle)
    except OSError as error:
        os.close(handle)
        if error.errno in _BUSY:
            raise _busy(folder) from error
        return None
    return handle


def _opened(folder: Path) -> int:
    if os.name == "nt":
        flags = os.O_CREAT | os.O_RDWR | getattr(os, "O_TEMPORARY", 0)
        return os.open(folder / ".appraise.lock", flags)
    return os.open(folder, os.O_RDONLY)


def _lock(handle: int) -> None:
    if os.name == "nt":
        import msvcrt

        # Not known to type checkers on other systems.
        getattr(msvcrt, "locking")(handle, getattr(msvcrt, "LK_NBLCK"), 1)  # noqa: B009
    else:
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _release(folder: Path) -> None:
    handle, count = _held.pop(folder)
    if count > 1:
        _held[folder] = (handle, count - 1)
    else:
        os.close(handle)


def _busy(folder: Path) -> UnusableFile:
    return UnusableFile(
        Trouble.LOCKED,
        folder,
        f"Another run is writing to {shortened(folder)}. Wait until it has ended, or name another folder with --out.",
    )
