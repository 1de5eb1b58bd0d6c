"""Months of manufacture: whole months, inclusive, numbered 12 x year + month - 1; sets of runs of months.

A run may be open at either end (None). Dates of manufacture are always such sets, never days or floats.
"""

from collections.abc import Iterable, Iterator

from appraise.model.frozen import frozen

Month = int


def month_number(year: int, month: int) -> Month:
    """Return the number of a month: 12 x year + month - 1, `month` counted from 1."""
    if not 1 <= month <= 12:
        raise ValueError(f"no month {month}")
    return 12 * year + month - 1


def month_text(month: Month) -> str:
    """Return a month as ISO 8601 writes it: `1959-03`."""
    return f"{month // 12:04d}-{month % 12 + 1:02d}"


@frozen
class Run:
    """The months from `first` to `last`, both included; None is an open end."""

    first: Month | None
    last: Month | None

    def __post_init__(self) -> None:
        if self.first is not None and self.last is not None and self.first > self.last:
            raise ValueError(f"a run ends before it begins: {self.first} > {self.last}")

    def edtf(self) -> str:
        """Return the run as EDTF (ISO 8601-2): `1959-04/1960-12`, `1959-06`, `../1964-12`, `1958-01/..`."""
        if self.first is not None and self.first == self.last:
            return month_text(self.first)
        first = ".." if self.first is None else month_text(self.first)
        last = ".." if self.last is None else month_text(self.last)
        return f"{first}/{last}"


@frozen
class Months:
    """A set of months: runs in ascending order that neither overlap nor touch. No runs: the empty set."""

    runs: tuple[Run, ...] = ()

    @staticmethod
    def of(runs: Iterable[Run]) -> "Months":
        """Return the union of `runs`, merged and sorted."""
        merged: list[Run] = []
        for run in sorted(runs, key=lambda r: (r.first is not None, r.first or 0)):
            if merged and _touches(merged[-1], run):
                merged[-1] = Run(merged[-1].first, _later_end(merged[-1].last, run.last))
            else:
                merged.append(run)
        return Months(tuple(merged))

    @staticmethod
    def between(first: Month | None, last: Month | None) -> "Months":
        """Return the months from `first` to `last`; empty if `last` lies before `first`."""
        if first is not None and last is not None and first > last:
            return NO_MONTHS
        return Months((Run(first, last),))

    def __bool__(self) -> bool:
        return bool(self.runs)

    def __and__(self, other: "Months") -> "Months":
        if len(self.runs) == 1 and len(other.runs) == 1:
            # Nearly always; then there is nothing to merge.
            own, its = self.runs[0], other.runs[0]
            run = _common(own, its)
            return NO_MONTHS if run is None else self if run is own else other if run is its else Months((run,))
        found = (_common(a, b) for a in self.runs for b in other.runs)
        return Months.of(run for run in found if run is not None)

    def __or__(self, other: "Months") -> "Months":
        return Months.of((*self.runs, *other.runs))

    def __contains__(self, month: Month) -> bool:
        for run in self.runs:
            if (run.first is None or run.first <= month) and (run.last is None or month <= run.last):
                return True
        return False

    def shift(self, months: int) -> "Months":
        """Return the set moved by a number of months (negative: earlier)."""
        return Months(tuple(Run(_plus(run.first, months), _plus(run.last, months)) for run in self.runs))

    @property
    def first(self) -> Month | None:
        """First month, None if open below. Asking it of the empty set is our own mistake."""
        return self.runs[0].first

    @property
    def last(self) -> Month | None:
        """Last month, None if open above. Asking it of the empty set is our own mistake."""
        return self.runs[-1].last

    @property
    def bounded(self) -> bool:
        """Whether the set has a first and a last month (the empty set has neither and counts as bounded)."""
        return not self.runs or (self.runs[0].first is not None and self.runs[-1].last is not None)

    def each(self) -> Iterator[Month]:
        """Yield every month in order. An open set has no end: asking it is our own mistake.

        >>> [month_text(m) for m in Months.between(month_number(1959, 12), month_number(1960, 1)).each()]
        ['1959-12', '1960-01']
        """
        if not self.bounded:
            raise ValueError(f"{self.edtf()} is open: its months cannot be listed")
        for run in self.runs:
            assert run.first is not None and run.last is not None
            yield from range(run.first, run.last + 1)

    @property
    def count(self) -> int:
        """Number of months of a bounded set; asking it of an open one is our own mistake."""
        return sum(1 for _ in self.each())

    def __le__(self, other: "Months") -> bool:
        """Say whether every month of this set is in the other."""
        return self & other == self

    def edtf(self) -> str:
        """Return the set in EDTF, run by run, joined by ` or `; the empty set is `none`."""
        return " or ".join(run.edtf() for run in self.runs) or "none"


NO_MONTHS = Months()
ALL_MONTHS = Months((Run(None, None),))


def _plus(month: Month | None, months: int) -> Month | None:
    return None if month is None else month + months


def _larger(a: Month | None, b: Month | None) -> Month | None:
    return b if a is None else a if b is None else max(a, b)


def _smaller(a: Month | None, b: Month | None) -> Month | None:
    return b if a is None else a if b is None else min(a, b)


def _common(a: Run, b: Run) -> Run | None:
    first, last = _larger(a.first, b.first), _smaller(a.last, b.last)
    if first is not None and last is not None and first > last:
        return None
    # Mostly one lies within the other, and a run there is need not be made again.
    for run in (a, b):
        if first == run.first and last == run.last:
            return run
    return Run(first, last)


def _later_end(a: Month | None, b: Month | None) -> Month | None:
    return None if a is None or b is None else max(a, b)


def _touches(before: Run, after: Run) -> bool:
    return before.last is None or after.first is None or after.first <= before.last + 1
