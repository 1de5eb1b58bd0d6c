"""Which statements can be true together: a sweep over the months, cell by cell.

Between two neighbouring ends of any run of any statement nothing changes, so each such cell is looked at once,
however long it is. A set of statements agrees if some cell lies in all of them. Sets of statements are bit masks
here (bit i = statement i). Exact for plain intervals and for unions of runs.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import islice

from appraise.model.months import Months

#: Where statements with several runs make minimal conflicts too many, so many are listed (our default, no source).
LISTED_CONFLICTS = 20
#: Candidates held at once before the exact enumeration of conflicts gives way to a search for some of them.
_CANDIDATES = 2000


def maximal_agreeing(sets: Sequence[Months]) -> list[int]:
    """Return the maximal agreeing sets as masks, by the months in which they first agree.

    The sets must be bounded above. Of no sets, or of empty ones only, the one agreeing set is the empty one.
    """
    peaks = _peaks(sets)
    if all(len(one.runs) <= 1 for one in sets):
        return peaks or [0]
    kept: list[int] = []
    for mask in sorted(set(peaks), key=lambda one: -one.bit_count()):
        if not any(mask & larger == mask for larger in kept):
            kept.append(mask)
    order = {mask: place for place, mask in reversed(list(enumerate(peaks)))}
    return sorted(kept, key=order.__getitem__) or [0]


def _peaks(sets: Sequence[Months]) -> list[int]:
    """Return the masks of the cells that neither neighbour contains; for single runs these are the maximal ones."""
    starts: list[tuple[int | float, int]] = []
    ends: list[tuple[int, int]] = []
    for place, months in enumerate(sets):
        for run in months.runs:
            if run.last is None:
                raise ValueError("the sets must be bounded above")
            starts.append((float("-inf") if run.first is None else run.first, 1 << place))
            ends.append((run.last + 1, 1 << place))
    starts.sort()
    ends.sort()
    peaks: list[int] = []
    mask, at, grown = 0, 0, False
    for end, bit in ends:
        while at < len(starts) and starts[at][0] < end:
            mask |= starts[at][1]
            at += 1
            grown = True
        if grown:
            peaks.append(mask)
            grown = False
        mask &= ~bit
    return peaks


def minimal_conflicts(sets: Sequence[Months], agreeing: Sequence[int]) -> tuple[list[tuple[int, ...]], bool]:
    """Return the minimal conflicts as places of statements, smallest first, and whether there are more than listed.

    `agreeing` are the maximal agreeing sets of the same `sets`. Plain intervals: every pair, always all of them
    (intervals that meet two by two have a common month). With unions at most `LISTED_CONFLICTS`.
    """
    single = [(place,) for place, months in enumerate(sets) if not months]
    if all(len(one.runs) <= 1 for one in sets):
        return [*single, *_disjoint_pairs(sets)], False
    possible = sum(1 << place for place, months in enumerate(sets) if months)
    outside = sorted({possible & ~mask for mask in agreeing}, key=lambda one: (one.bit_count(), one))
    masks = _minimal_hitting_sets(outside) if 0 not in outside else []
    complete = masks is not None
    if masks is None:
        masks = list(islice(_search(outside, 0, possible), LISTED_CONFLICTS))
    found = sorted((_places(mask) for mask in masks), key=lambda one: (len(one), one))
    listed = [*single, *found]
    return listed[:LISTED_CONFLICTS], not complete or len(listed) > LISTED_CONFLICTS


def _disjoint_pairs(sets: Sequence[Months]) -> list[tuple[int, int]]:
    firsts = sorted(
        (run.first, place) for place, months in enumerate(sets) for run in months.runs if run.first is not None
    )
    pairs = []
    for place, months in enumerate(sets):
        for run in months.runs:
            assert run.last is not None
            for _, later in firsts[bisect_right(firsts, (run.last, len(sets))) :]:
                pairs.append((min(place, later), max(place, later)))
    return sorted(pairs)


def _minimal_hitting_sets(edges: Sequence[int]) -> list[int] | None:
    """Return every minimal set that meets each of `edges`; None if there are too many to hold on the way.

    A set of statements conflicts if no agreeing set holds all of it, that is if it meets the outside of each.
    """
    found = [0]
    for edge in edges:
        hit = [one for one in found if one & edge]
        grown = {one | bit for one in found if not one & edge for bit in _bits(edge)}
        minimal = [one for one in grown if not any(small & one == small for small in hit)]
        found = hit + minimal
        if len(found) > _CANDIDATES:
            return None
    return found


def _search(edges: Sequence[int], chosen: int, allowed: int) -> Iterator[int]:
    """Yield the minimal sets that meet each edge, one by one and each once, from `chosen` on.

    Source: K. Murakami, T. Uno, Efficient algorithms for dualizing large-scale hypergraphs (2014), algorithm MMCS;
    from memory. Each statement chosen must have an edge that it alone meets.
    """
    edge = next((one for one in edges if not one & chosen), None)
    if edge is None:
        yield chosen
        return
    options = _bits(edge & allowed)
    allowed &= ~edge
    for bit in options:
        grown = chosen | bit
        if all(any(one & grown == own for one in edges) for own in _bits(grown)):
            yield from _search(edges, grown, allowed)
        allowed |= bit


def _bits(mask: int) -> list[int]:
    return [1 << place for place in _places(mask)]


def _places(mask: int) -> tuple[int, ...]:
    return tuple(place for place in range(mask.bit_length()) if mask >> place & 1)
