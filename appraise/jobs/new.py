"""`appraise new`: a blank, structured workbook for one use."""

from collections.abc import Iterable
from pathlib import Path

from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.words import UnknownWordError, unknown
from appraise.records.vocabulary import Family, Use
from appraise.workbook.write import write_blank, write_library


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
    if name not in known:
        raise unknown("family", name, known)
    return known[name]
