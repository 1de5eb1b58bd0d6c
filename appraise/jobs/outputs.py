"""The folder a job's outputs go to. A file there is replaced only if we wrote it and nobody changed it since.

The folder keeps a list of what was written, with hashes (`written.json`); a file that is not on it, or that differs
from it, belongs to the user. A new file is put on it just before it takes its place, so a run that is killed leaves
no file of ours that looks like the user's. Only one run at a time writes to a folder.
"""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import BinaryIO

from appraise.files.atomic import make_folder, remove_leftovers, write_bytes, write_whole
from appraise.files.hashes import sha256_of
from appraise.files.lock import hold
from appraise.files.unusable import Trouble, UnusableFile

LIST = "written.json"
#: Behind the name of a file that is about to take its place.
_COMING = " (coming)"
#: So many copies beside a file that is held open are enough.
_MOST_BESIDE = 100


class Outputs:
    """Writes files into one folder, each whole or not at all.

    overwrite  replace files of the user too
    """

    def __init__(self, folder: Path, *, overwrite: bool = False) -> None:
        self.folder = folder
        self._overwrite = overwrite
        self._written = _read_list(folder / LIST)
        self._holding = False

    def check(self, *names: str) -> None:
        """Make the folder; raise UnusableFile if that fails or one of the files may not be replaced."""
        make_folder(self.folder)
        if not self._holding:
            hold(self.folder, self)
            self._holding = True
            remove_leftovers(self.folder)
            # Another run may have been here since.
            self._written = _read_list(self.folder / LIST)
        for name in names:
            target = self.folder / name
            if target.exists() and not self._overwrite and not self._ours(name, target):
                raise UnusableFile(
                    Trouble.EXISTS,
                    target,
                    f"{target} is already there and is not a file this program left so. "
                    "Move it away, choose another folder with --out, or give --overwrite.",
                )

    def write(self, name: str, writer: Callable[[BinaryIO], None]) -> Path:
        """Write one file and note it on the list; return where it was written.

        Where the file is open in another program the new one is written beside it, under a name with a number.
        """
        self.check(name)
        mark = ""

        def finished(temporary: Path) -> None:
            nonlocal mark
            mark = sha256_of(temporary)
            self._written[name + _COMING] = mark
            self._save()

        written = write_whole(self.folder / name, writer, beside=self._beside(name), finished=finished)
        key = name if written.name == Path(name).name else written.name
        self._written.pop(name + _COMING, None)
        self._written[key] = mark
        self._save()
        return written

    def _ours(self, name: str, target: Path) -> bool:
        """Say whether a file is as this program left it, finished or just before a run was killed."""
        marks = (self._written.get(name), self._written.get(name + _COMING))
        return any(marks) and sha256_of(target) in marks

    def _save(self) -> None:
        content = json.dumps(dict(sorted(self._written.items())), indent=1, ensure_ascii=False) + "\n"
        write_bytes(self.folder / LIST, content.encode())

    def _beside(self, name: str) -> Iterator[Path]:
        """Yield names with a number that are free or were written by us."""
        stem, suffix = Path(name).stem, Path(name).suffix
        for number in range(2, _MOST_BESIDE):
            other = self.folder / f"{stem}-{number}{suffix}"
            if not other.exists() or self._ours(other.name, other):
                yield other


def _read_list(path: Path) -> dict[str, str]:
    try:
        content = json.loads(path.read_bytes())
    except (OSError, ValueError):
        # No list, or not ours: then no file there is known as written by us.
        return {}
    return {str(name): str(mark) for name, mark in content.items()} if isinstance(content, dict) else {}
