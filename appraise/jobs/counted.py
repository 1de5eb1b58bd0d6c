"""Work gone through piece by piece, with its progress shown."""

from collections.abc import Iterable, Iterator
from typing import TypeVar

from appraise.jobs.examine import Progress

Piece = TypeVar("Piece")


def counted(pieces: Iterable[Piece], what: str, total: int, progress: Progress | None) -> Iterator[Piece]:
    """Yield the same pieces; once each is done with, show how many of `total` are."""
    for number, piece in enumerate(pieces, 1):
        yield piece
        if progress is not None:
            progress(what, number, total)
