"""`appraise new`: a blank, structured workbook for one use."""

from collections.abc import Iterable
from difflib import get_close_matches
from pathlib import Path

from appraise.files.unusable import Trouble, UnusableFile
from appraise.records.vocabulary import Family, Use
from appraise.workbook.write import write_blank, write_library


class UnknownWordError(ValueError):
    """A word typed on the command line that is not on its list; the message says which ones are near."""


def new_workbook(path: Path, use: str, families: Iterable[str], *, overwrite: bool) -> Path:
    """Write a blank workbook for a use (`Use` by its name in lower case) and return where it was written."""
    _refuse_existing(path, overwrite)
    return write_blank(_as_workbook(path), Use[use.upper()], families=tuple(_family(name) for name in families))


def new_library(path: Path, *, overwrite: bool) -> Path:
    """Write a blank library workbook and return where it was written."""
    _refuse_existing(path, overwrite)
    return write_library(_as_workbook(path))


def _as_workbook(path: Path) -> Path:
    if path.suffix.lower() != ".xlsx":
        raise UnknownWordError(f"A workbook's name ends in .xlsx; {path.name} does not.")
    return path


def _refuse_existing(path: Path, overwrite: bool) -> None:
    if path.exists() and not overwrite:
        sentence = f"{path} is already there. Choose another name, or give --overwrite to replace it."
        raise UnusableFile(Trouble.EXISTS, path, sentence)


def _family(name: str) -> Family:
    known = {family.value: family for family in Family}
    if name in known:
        return known[name]
    near = get_close_matches(name.lower(), known, n=3, cutoff=0.4) or list(known)
    raise UnknownWordError(f"No family '{name}'. Near: {', '.join(near)}.")
