"""`appraise new`: a blank, structured workbook for one use."""

from collections.abc import Iterable
from pathlib import Path

from appraise.files.atomic import write_bytes
from appraise.files.hashes import sha256_of
from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.words import UnknownWordError, unknown
from appraise.records.vocabulary import Family, Use
from appraise.workbook.writing.write import write_blank, write_library


def new_workbook(
    path: Path, use: str, families: Iterable[str], *, overwrite: bool, library: Path | None = None
) -> Path:
    """Write a blank workbook for a use (`Use` by its name in lower case) and return where it was written.

    library  the library it names; one that lies elsewhere is copied beside the workbook, since a name may not lead out
             of its folder. One that is not there, or would take the place of another file, is refused
    """
    _refuse_existing(path, overwrite)
    named = ""
    if library is not None:
        if not library.is_file():
            sentence = f"There is no library {library}. Write one with: appraise new --library {library}"
            raise UnusableFile(Trouble.MISSING, library, sentence)
        named = _beside(library, path.resolve().parent)
    wanted = tuple(_family(name) for name in families)
    return write_blank(_as_workbook(path), Use[use.upper()], families=wanted, library=named)


def _beside(library: Path, folder: Path) -> str:
    """Return the name by which a workbook in `folder` finds the library; a copy is made where it lies elsewhere."""
    real = library.resolve()
    if real.is_relative_to(folder):
        return real.relative_to(folder).as_posix()
    copy = folder / library.name
    if copy.exists():
        if sha256_of(copy) != sha256_of(real):
            sentence = f"{copy} is already there and is another file. Move it away, or name that one as the library."
            raise UnusableFile(Trouble.EXISTS, copy, sentence)
    else:
        write_bytes(copy, real.read_bytes())
    return copy.name


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
