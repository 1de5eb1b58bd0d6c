"""Jobs of n, 3n and 9n items of the same kinds, and how many calls an action makes for each item more.

Counts of function calls do not depend on the machine or on what else runs on it; times do.
"""

import cProfile
import pstats
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from appraise.workbook.writing.write import write_job
from bench.generate import rows

#: Sheets whose rows belong to one item each.
_OF_ITEMS = ("items", "parts", "evidence", "sales", "comparisons", "opinions", "history", "photos")
_IDS, _MARKS = ("id", "item", "sale"), ("serial", "number", "lot")


def job_of_copies(path: Path, items: int, copies: int) -> Path:
    """Write a job with so many copies of the same items and their rows, each copy under ids and serials of its own."""
    made = rows(items)
    return write_job(
        path,
        {**made, **{name: [_copied(row, copy) for copy in range(copies) for row in made[name]] for name in _OF_ITEMS}},
    )


def _copied(row: dict[str, Any], copy: int) -> dict[str, Any]:
    ids = {key: f"{row[key][0]}{copy}{row[key][1:]}" for key in _IDS if key in row}
    return row | ids | {key: f"{row[key]}{copy}" for key in _MARKS if row.get(key)}


@dataclass(frozen=True, slots=True)
class Growth:
    """Calls at three sizes; `first` and `second` are the calls for each item more, between the sizes."""

    sizes: Sequence[int]
    calls: Sequence[int]

    @property
    def first(self) -> float:
        return (self.calls[1] - self.calls[0]) / (self.sizes[1] - self.sizes[0])

    @property
    def second(self) -> float:
        return (self.calls[2] - self.calls[1]) / (self.sizes[2] - self.sizes[1])

    @property
    def linear(self) -> bool:
        """Whether an item more costs the same at the larger sizes, within 2 %."""
        return abs(self.second / self.first - 1) <= 0.02


def growth_of(action: Callable[[Any], object], jobs: dict[int, Any]) -> Growth:
    """Return how the calls of an action grow over jobs by size, smallest first.

    What is made once for a run of Python (modules, templates, tables of law) is made before counting.
    """
    action(jobs[min(jobs)])
    return Growth(list(jobs), [_calls(action, job) for job in jobs.values()])


def _calls(action: Callable[[Any], object], job: Any) -> int:
    """Return the primitive calls: those of Python functions and of built-in ones, recursion left out."""
    profile = cProfile.Profile()
    profile.runcall(action, job)
    return int(pstats.Stats(profile).prim_calls)  # type: ignore[attr-defined]
