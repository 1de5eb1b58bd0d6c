"""Compiled templates are kept as Python keeps compiled modules: beside the program, in `__pycache__`.

Making code of a template takes jinja2 longer than filling it for a hundred items. jinja2's own store of byte code keeps
it: one file for each template by name, and the code counts only for the very source, the same Python, the same jinja2
and the same engine it was made of. Where the folder cannot be written, or Python is told to write no byte code, the
code is made anew in every run.
"""

import sys
from functools import cache
from hashlib import sha256
from pathlib import Path
from pickle import UnpicklingError
from types import CodeType

import jinja2
from jinja2 import Environment
from jinja2.bccache import Bucket, FileSystemBytecodeCache

_HERE = Path(__file__).parent
_KEPT = _HERE / "__pycache__"


def kept_code(environment: Environment, name: str, source: str, folder: Path = _KEPT) -> CodeType | None:
    """Return the code that was made of this source in an earlier run, or None; what is kept has passed every check."""
    bucket, store = _bucket(environment, name, source, folder)
    try:
        store.load_bytecode(bucket)
    except (OSError, EOFError, ValueError, TypeError, UnpicklingError):
        return None
    return bucket.code


def keep_code(environment: Environment, name: str, source: str, code: CodeType, folder: Path = _KEPT) -> None:
    """Keep the code of a checked source for the next run, if the folder can be written."""
    if sys.dont_write_bytecode:
        return
    bucket, store = _bucket(environment, name, source, folder)
    bucket.code = code
    try:
        folder.mkdir(exist_ok=True)
        store.dump_bytecode(bucket)
    except OSError:
        return


def _bucket(environment: Environment, name: str, source: str, folder: Path) -> tuple[Bucket, FileSystemBytecodeCache]:
    store = FileSystemBytecodeCache(str(folder), f"template-%s.{sys.implementation.cache_tag}.cache")
    made_of = sha256(f"{_engine()}{source}".encode()).hexdigest()
    return Bucket(environment, store.get_cache_key(name), made_of), store


@cache
def _engine() -> str:
    """Return a mark of what decides how a source is checked and turned into code."""
    parts = [file.read_bytes() for file in sorted(_HERE.glob("*.py"))]
    return sha256(b"\0".join([jinja2.__version__.encode(), *parts])).hexdigest()
