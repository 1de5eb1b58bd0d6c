"""Compiled templates are kept as Python keeps compiled modules: beside the program, in `__pycache__`.

Reading a template and making code of it takes longer than filling it for a hundred items. One file for each template by
name holds what was made; it counts only for the very file it was made of, and for the same Python, libraries and
engine. Only what has passed every check is kept. Where the folder cannot be written, or Python is told to write no
byte code, nothing is kept (what an earlier run kept is used all the same, as compiled modules are). What lies there is
trusted as Python trusts its compiled modules, so it never lies beside a job or a template of somebody's own.
"""

import marshal
import pickle
import sys
from collections.abc import Mapping
from contextlib import suppress
from functools import cache
from importlib.metadata import version
from pathlib import Path
from types import CodeType
from typing import Any

from appraise.files.atomic import write_bytes
from appraise.files.hashes import sha256_hex
from appraise.files.unusable import UnusableFile

_HERE = Path(__file__).parent
_KEPT = _HERE / "__pycache__"
_BROKEN = (OSError, EOFError, ValueError, TypeError, LookupError, ImportError, AttributeError, pickle.UnpicklingError)


def kept_code(name: str, made_of: str, folder: Path = _KEPT) -> tuple[Mapping[str, Any], CodeType] | None:
    """Return what was kept in an earlier run and the code of it, or None.

    name     of the template, and of its part
    made_of  tells apart everything it could have been made of
    """
    try:
        mark, beside, code = pickle.loads(_file(folder, name).read_bytes())  # noqa: S301 - as a compiled module
        if mark != _mark(made_of):
            return None
        return beside, marshal.loads(code)  # noqa: S302 - as a compiled module
    except _BROKEN:
        return None


def keep_code(name: str, made_of: str, beside: Mapping[str, Any], code: CodeType, folder: Path = _KEPT) -> None:
    """Keep the code of a template for the next run, with what else is known of it, if the folder can be written."""
    if sys.dont_write_bytecode:
        return
    content = pickle.dumps((_mark(made_of), dict(beside), marshal.dumps(code)))
    with suppress(OSError, UnusableFile):
        folder.mkdir(exist_ok=True)
        write_bytes(_file(folder, name), content)


def _file(folder: Path, name: str) -> Path:
    return folder / f"template-{sha256_hex(name.encode())[:20]}.{sys.implementation.cache_tag}.kept"


def _mark(made_of: str) -> str:
    return sha256_hex(f"{_engine()} {made_of}".encode())


@cache
def _engine() -> str:
    """Return a mark of what decides how a template is read, checked and turned into code."""
    libraries = [sys.version, *(f"{one} {version(one)}" for one in ("docxtpl", "jinja2", "lxml"))]
    parts = [file.read_bytes() for file in sorted(_HERE.glob("*.py"))]
    return sha256_hex(b"\0".join([*(one.encode() for one in libraries), *parts]))
