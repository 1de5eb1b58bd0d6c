"""A month-by-month oracle for date windows: every word expanded to its months, every subset of the evidence tried.

Written apart from the product and from its month sets: a set of months is an integer with one bit a month. Slow and
plain on purpose.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from random import Random
from typing import Any

#: The months looked at: January 1930 to December 1979. Open ends reach to the edge of them.
FIRST = 12 * 1930
LAST = 12 * 1979 + 11
EVERYTHING = (1 << (LAST - FIRST + 1)) - 1


def bits(months: Iterable[int]) -> int:
    """Return the months of the range looked at as bits; others are left out."""
    found = 0
    for month in months:
        if FIRST <= month <= LAST:
            found |= 1 << (month - FIRST)
    return found


def where(test: Callable[[int], bool]) -> int:
    """Return the months of the range for which the test holds."""
    return bits(month for month in range(FIRST, LAST + 1) if test(month))


def holds(months: int, month: int) -> bool:
    """Say whether a month is in the set; months before and behind the range count like its edge."""
    month = min(max(month, FIRST), LAST)
    return bool(months >> (month - FIRST) & 1)


def listed(months: int) -> list[int]:
    """Return the months of the set in order."""
    return [month for month in range(FIRST, LAST + 1) if holds(months, month)]


@dataclass
class Evidence:
    """One statement for the oracle: outer and inner months, and the readings by name."""

    id: str
    outer: int
    inner: int
    strength: int
    unverified: bool
    replaced: bool
    readings: dict[str, int]


def text(months: int, examined: int) -> str:
    """Return the set in EDTF, cut at the examination and written open where it goes on behind it."""
    runs: list[list[int]] = []
    for month in listed(months):
        if month > examined:
            continue
        if runs and runs[-1][-1] == month - 1:
            runs[-1].append(month)
        else:
            runs.append([month])
    return " or ".join(_run_text(run, months, examined) for run in runs) or "none"


def _run_text(run: list[int], months: int, examined: int) -> str:
    first = ".." if run[0] == FIRST else _month(run[0])
    last = ".." if run[-1] == examined and holds(months, examined + 1) else _month(run[-1])
    return first if first == last != ".." else f"{first}/{last}"


def _month(month: int) -> str:
    return f"{month // 12:04d}-{month % 12 + 1:02d}"


def solve(evidence: Sequence[Evidence], examined: int) -> dict[str, Any]:
    """Return what the cases call `expected`, by trying every subset."""
    until = where(lambda month: month <= examined)
    binding = [one for one in evidence if not one.replaced]
    ids = [one.id for one in binding]

    def outer_of(names: Iterable[str]) -> int:
        found = EVERYTHING
        for one in binding:
            if one.id in set(names):
                found &= one.outer
        return found

    def inner_of(names: Iterable[str]) -> int:
        found = EVERYTHING
        for one in binding:
            if one.id in set(names):
                found &= one.inner
        return found

    subsets = [set(names) for size in range(len(ids) + 1) for names in combinations(ids, size)]
    agreeing = [names for names in subsets if outer_of(names) & until]
    maximal = [names for names in agreeing if not any(names < other for other in agreeing)]
    disagreeing = [names for names in subsets if not outer_of(names) & until]
    minimal = [names for names in disagreeing if not any(other < names for other in disagreeing)]

    def cost(names: set[str]) -> tuple[int, ...]:
        aside = [one for one in binding if one.id not in names]
        levels = [1 if one.unverified else one.strength for one in aside]
        return tuple(sum(1 for level in levels if level == wanted) for wanted in (4, 3, 2, 1))

    conflict = bool(minimal)
    least = min(cost(names) for names in maximal)
    best = [names for names in maximal if cost(names) == least] if conflict else []
    outer, inner = outer_of(ids), inner_of(ids)
    later = {}
    for one in evidence:
        possible = listed(one.outer & until)
        if not possible or possible[0] == FIRST:
            continue
        if one.replaced:
            later[one.id] = _month(possible[0])
        elif len(best) == 1 and one.id not in best[0]:
            window = listed(outer_of(best[0]) & until)
            goes_on = holds(outer_of(best[0]), examined) and holds(outer_of(best[0]), examined + 1)
            if possible[0] > window[-1] and not goes_on:
                later[one.id] = _month(possible[0])
    verdict = "conflict" if conflict else "firm" if inner & until else "edge"
    return {
        "verdict": verdict,
        "outer": "none" if conflict else text(outer, examined),
        "inner": "none" if conflict else text(inner, examined),
        "conflicts": sorted(sorted(names) for names in minimal),
        "consistent": sorted(
            (
                {
                    "keep": sorted(names),
                    "outer": text(outer_of(names), examined),
                    "inner": text(inner_of(names), examined),
                }
                for names in maximal
            ),
            key=lambda one: one["keep"],
        ),
        "best": sorted(sorted(names) for names in best),
        "later_work": later,
        "readings": {
            one.id: [name for name, months in one.readings.items() if months & outer & until]
            for one in binding
            if one.readings
        },
    }


#: Words for a stretch of time with the months they mean: (text, outer, core), each by a rule of its own.
def random_words(random: Random) -> tuple[str, set[int], set[int]]:
    """Return a wording with its outer and core months, expanded one by one."""
    year = random.randint(1950, 1962)
    form = random.choice(("year", "month", "early", "mid", "late", "decade part", "season", "circa", "half", "range"))
    if form == "month":
        month = random.randint(1, 12)
        return f"{year}-{month:02d}", *_same(_in_year(year, month, month))
    if form in ("early", "mid", "late"):
        wide, narrow = {"early": ((1, 6), (1, 4)), "mid": ((4, 9), (5, 8)), "late": ((7, 12), (9, 12))}[form]
        return f"{form} {year}", _in_year(year, *wide), _in_year(year, *narrow)
    if form == "decade part":
        word = random.choice(("early", "mid", "late"))
        wide, narrow = {"early": ((0, 4), (0, 3)), "mid": ((3, 7), (4, 6)), "late": ((5, 9), (7, 9))}[word]
        return f"{word} 1950s", _years(1950 + wide[0], 1950 + wide[1]), _years(1950 + narrow[0], 1950 + narrow[1])
    if form == "season":
        word = random.choice(("spring", "summer", "autumn"))
        wide, narrow = {"spring": ((3, 6), (4, 5)), "summer": ((6, 9), (7, 8)), "autumn": ((9, 12), (10, 11))}[word]
        return f"{word} {year}", _in_year(year, *wide), _in_year(year, *narrow)
    if form == "circa":
        return f"c. {year}", _years(year - 5, year + 5), _years(year, year)
    if form == "half":
        half = random.choice((1, 2))
        return f"{('first', 'second')[half - 1]} half of {year}", *_same(_in_year(year, 6 * half - 5, 6 * half))
    if form == "range":
        last = year + random.randint(1, 3)
        return f"{year}-{last % 100:02d}", *_same(_years(year, last))
    return str(year), *_same(_years(year, year))


def _same(months: set[int]) -> tuple[set[int], set[int]]:
    return months, months


def _in_year(year: int, first: int, last: int) -> set[int]:
    return {12 * year + month - 1 for month in range(first, last + 1)}


def _years(first: int, last: int) -> set[int]:
    return {month for year in range(first, last + 1) for month in _in_year(year, 1, 12)}


def use(start: set[int] | None, end: set[int] | None) -> tuple[int, int]:
    """Return outer and inner bits of a period of use: some start and some end allow the month; all of them do."""
    starts = (FIRST, FIRST) if start is None else (min(start), max(start))
    ends = (LAST, LAST) if end is None else (min(end), max(end))
    outer = where(lambda month: starts[0] <= month <= ends[1])
    inner = where(lambda month: starts[1] <= month <= ends[0])
    return outer, inner


def with_lag(outer: set[int], role: str, least: int, most: int | None) -> tuple[int, int]:
    """Return outer and inner bits of completion for a dated part or a later event."""
    sign = 1 if role == "part" else -1

    def fits(month: int, dated: int) -> bool:
        lag = sign * (month - dated)
        return least <= lag and (most is None or lag <= most)

    if most is None:  # the nearest dated month decides, and the furthest
        near, far = sorted((min(outer), max(outer)), reverse=sign < 0)
        return where(lambda month: fits(month, near)), where(lambda month: fits(month, far))
    return (
        where(lambda month: any(fits(month, one) for one in outer)),
        where(lambda month: all(fits(month, one) for one in outer)),
    )
