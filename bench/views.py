"""A composed report kept in a file: first all that stands once, then the items one after the other."""

import pickle
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import IO

from appraise.report.item_view import ItemView
from appraise.report.view import Composed


def write_view(file: Path, composed: Composed) -> int:
    """Keep a composed report; return the number of items."""
    count = 0
    with file.open("wb") as stream:
        pickle.dump(replace(composed, items=iter(())), stream)
        for item in composed.items:
            stream.write(pickle.dumps(item))
            count += 1
    return count


def read_view(file: Path, *, at_once: bool = True) -> Composed:
    """Return a kept report, its items loaded at once or one by one as they are asked for."""
    stream = file.open("rb")
    composed: Composed = pickle.load(stream)
    items = _items(stream)
    return replace(composed, items=iter(list(items)) if at_once else items)


def _items(stream: IO[bytes]) -> Iterator[ItemView]:
    with stream:
        while True:
            try:
                yield pickle.load(stream)
            except EOFError:
                return
