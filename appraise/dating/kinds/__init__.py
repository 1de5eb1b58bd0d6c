"""Kinds of evidence, one file each. A new kind is a new file with `KIND`, `DEFAULT_ROLE` and `read`.

`read(line)` returns what the row says; `DEFAULT_ROLE` is what its date is the date of where nothing is typed.
"""

import pkgutil
from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module

from appraise.dating.line import Found, Line
from appraise.model.frozen import frozen
from appraise.records.vocabulary import EvidenceKind, EvidenceRole


@frozen
class KindReader:
    """How evidence of one kind is read."""

    kind: EvidenceKind
    default_role: EvidenceRole
    read: Callable[[Line], Found]


@cache
def kind_readers() -> Mapping[EvidenceKind, KindReader]:
    """Return the reader of each kind, found in this folder; a file that cannot be imported is an error."""
    found: dict[EvidenceKind, KindReader] = {}
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda one: one.name):
        read = import_module(f"{__name__}.{module.name}")
        if read.KIND in found:
            raise ValueError(f"two files read evidence of the kind {read.KIND.value!r}")
        found[read.KIND] = KindReader(read.KIND, read.DEFAULT_ROLE, read.read)
    return found
