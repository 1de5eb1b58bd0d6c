"""Nine times as many items are nine times the work, not more: calls at n, 3n and 9n items, linear within 2 %."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from support.growing import growth_of, job_of_copies

from appraise.jobs import compute
from appraise.jobs.check import check_job
from appraise.jobs.compute import Computation
from appraise.jobs.report import write_report
from appraise.workbook.reading.read import read_job

TODAY = date(2025, 3, 1)
#: Enough that every sheet has more rows than those looked at for headings, which are read twice.
ITEMS = 20


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Path]:
    """Jobs by number of items."""
    made = {}
    for copies in (1, 3, 9):
        folder = tmp_path_factory.mktemp(f"job{copies}")
        made[ITEMS * copies] = job_of_copies(folder / "job.xlsx", ITEMS, copies)
    return made


def test_checking_grows_with_the_items(books: dict[int, Path]) -> None:
    found = growth_of(lambda book: list(check_job(book, today=TODAY).lines()), books)
    assert found.linear, found
    assert found.first > 1000


def test_dating_and_valuing_grow_with_the_items(books: dict[int, Path]) -> None:
    def valued(job: Any) -> None:
        count = sum(len(one.valuations) for one in Computation(job, today=TODAY).computed(figures_later=False))
        assert count == len(job.items)

    found = growth_of(valued, {size: read_job(book).job for size, book in books.items()})
    assert found.linear, found
    assert found.first > 1000


@pytest.mark.parametrize("most_kept", [compute.MOST_KEPT, 0])
def test_reporting_grows_with_the_items(
    most_kept: int, books: dict[int, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whether figures are kept once made, as of small jobs, or made anew in each pass, as of large ones."""
    assert max(books) <= compute.MOST_KEPT
    monkeypatch.setattr(compute, "MOST_KEPT", most_kept)

    def reported(book: Path) -> None:
        done = write_report(book, tmp_path / book.parent.name, draft=True, overwrite=True, today=TODAY)
        assert done.written

    found = growth_of(reported, books)
    assert found.linear, found
    assert found.first > 1000


@pytest.mark.parametrize(
    ("steps", "linear"), [(lambda n: n, True), (lambda n: 500 + 7 * n, True), (lambda n: 40 * n + n * n // 20, False)]
)
def test_growth_beyond_the_items_is_seen(steps: Any, linear: bool) -> None:
    def work(size: int) -> None:
        for _ in range(steps(size)):
            abs(size)

    assert growth_of(work, {size: size for size in (20, 60, 180)}).linear is linear
