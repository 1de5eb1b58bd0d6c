"""Rendering costs the same for each item, however many there are, and holds one item at a time."""

import cProfile
import io
import pstats
import tracemalloc
from collections.abc import Callable

import pytest
from support.report_samples import EDGES, PROPERTIES, finder, item, report

from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.render import render
from appraise.report.engine.views import SectionUse

USES = (SectionUse("object", per_item=True),)


class Nowhere(io.RawIOBase):
    """A file that counts and forgets, so that only the engine's own memory is seen."""

    def __init__(self) -> None:
        self.at = 0

    def writable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return False

    def write(self, data: object) -> int:
        size = len(memoryview(data))  # type: ignore[arg-type]
        self.at += size
        return size

    def tell(self) -> int:
        return self.at


@pytest.fixture(scope="module")
def templates(tmp_path_factory: pytest.TempPathFactory) -> TemplateFinder:
    return finder(tmp_path_factory.mktemp("templates"))


def rendering(templates: TemplateFinder, count: int) -> Callable[[], None]:
    def work() -> None:
        render(
            Nowhere(), USES, report(0), (item(n, photos=1) for n in range(1, count + 1)),
            templates=templates, properties=PROPERTIES, edges=EDGES,
        )  # fmt: skip

    return work


def calls(work: Callable[[], None]) -> int:
    profile = cProfile.Profile()
    profile.runcall(work)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_calls_grow_with_the_items_and_no_faster(templates: TemplateFinder) -> None:
    rendering(templates, 2)()  # what is imported and compiled once does not count
    ten, thirty, ninety = (calls(rendering(templates, count)) for count in (10, 30, 90))
    assert (ninety - thirty) / (thirty - ten) == pytest.approx(3, rel=0.02)


def test_memory_stays_flat(templates: TemplateFinder) -> None:
    peaks = []
    rendering(templates, 2)()
    for count in (40, 400):
        tracemalloc.start()
        rendering(templates, count)()
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    # A few hundred bytes an item remain (heading, picture's mark); 10,000 items would be some MB.
    assert peaks[1] - peaks[0] < 5_500_000
    assert peaks[1] < 20_000_000
