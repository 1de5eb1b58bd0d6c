"""The date window of one item from its statements.

Outer and inner windows, the verdict, what set the ends, minimal conflicts, every explanation ranked, later work,
and readings left. The examination is always evidence: manufacture was completed no later than its month; it is
never printed as the end of a window.

Rule: intersection of the sets of months of all binding statements; common practice of dating by terminus post
quem and terminus ante quem, no source for the ranking (levels of strength are compared one by one, never added).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from appraise.dating.advice import advice_of, findings_of
from appraise.dating.result import (
    DateWindow,
    Edges,
    Explanation,
    PartWindow,
    ReadingsLeft,
    Shown,
    Statement,
    Verdict,
)
from appraise.dating.sweep import maximal_agreeing, minimal_conflicts
from appraise.model.finding import Finding
from appraise.model.months import ALL_MONTHS, Month, Months, Run


def date_window(
    item: str, statements: Sequence[Statement], examined: Month, findings: Iterable[Finding] = ()
) -> DateWindow:
    """Return the window of manufacture of `item`, with all that led to it.

    examined  month of the examination
    findings  findings already made while reading the statements; those of the window are added behind them

    No statements, or none that binds: firm and open at both ends, with a finding. Statement ids must be unique.
    """
    if len({one.id for one in statements}) != len(statements):
        raise ValueError(f"{item}: two statements have one id")
    binding = [one for one in statements if one.binding]
    outer, inner = _windows(binding, examined)
    verdict = Verdict.CONFLICT if not outer else Verdict.FIRM if inner else Verdict.EDGE
    conflicts, more = _conflicts(binding, examined) if not outer else ((), False)
    explanations = (
        _explanations(binding, examined) if not outer else (_explanation(binding, frozenset(), outer, inner),)
    )
    best = tuple(one for one in explanations if one.cost == explanations[0].cost) if not outer else ()
    shown = _shown(outer, inner, explanations, best)
    later = _later_work(statements, best, examined)
    kept = binding if not best else [one for one in binding if one.id in best[0].keep]
    window = DateWindow(
        item=item,
        examined=examined,
        verdict=verdict,
        outer=outer,
        inner=inner,
        edges=_edges(kept, shown) if shown else Edges(),
        statements=tuple(statements),
        conflicts=conflicts,
        more_conflicts=more,
        explanations=explanations,
        best=best,
        shown=shown,
        later_work=later,
        readings=_readings_left(binding, outer, examined),
        parts=_part_windows(binding, examined),
        advice=(),
    )
    advice = advice_of(window)
    return replace(window, advice=advice, findings=(*findings, *findings_of(window, advice)))


def as_printed(months: Months, examined: Month) -> Months:
    """Return the months up to the examination, open above where only the examination bounds them.

    >>> from appraise.model.months import month_number
    >>> as_printed(Months.between(month_number(1958, 1), None), month_number(2026, 11)).edtf()
    '1958-01/..'
    """
    if months.runs and months.runs[-1].last is not None and months.runs[-1].last <= examined:
        return months
    runs = [run for run in months.runs if run.first is None or run.first <= examined]
    if runs and (runs[-1].last is None or runs[-1].last > examined):
        runs[-1] = Run(runs[-1].first, None)
    return Months(tuple(runs))


def up_to(months: Months, examined: Month) -> Months:
    """Return the months not later than the examination."""
    if months.runs and months.runs[-1].last is not None and months.runs[-1].last <= examined:
        return months
    return months & Months.between(None, examined)


def _windows(kept: Iterable[Statement], examined: Month) -> tuple[Months, Months]:
    """Return outer and inner window of the statements, as printed; inner within outer."""
    outer = inner = ALL_MONTHS
    for one in kept:
        outer = outer & one.outer
        inner = inner & one.inner
        if not outer:
            break
    return as_printed(outer, examined), as_printed(inner, examined) if outer else Months()


def _conflicts(binding: Sequence[Statement], examined: Month) -> tuple[tuple[tuple[str, ...], ...], bool]:
    sets = [up_to(one.outer, examined) for one in binding]
    found, more = minimal_conflicts(sets, maximal_agreeing(sets))
    return tuple(tuple(binding[place].id for place in places) for places in found), more


def _explanations(binding: Sequence[Statement], examined: Month) -> tuple[Explanation, ...]:
    """Return every maximal agreeing set, best first; equals in the order of the evidence they keep."""
    masks = maximal_agreeing([up_to(one.outer, examined) for one in binding])
    ranked = []
    for mask in masks:
        kept = [place for place in range(len(binding)) if mask >> place & 1]
        aside = frozenset(range(len(binding))) - frozenset(kept)
        outer, inner = _windows((binding[place] for place in kept), examined)
        ranked.append((kept, _explanation(binding, aside, outer, inner)))
    ranked.sort(key=lambda one: (one[1].cost, one[0]))
    return tuple(explanation for _, explanation in ranked)


def _explanation(binding: Sequence[Statement], aside: frozenset[int], outer: Months, inner: Months) -> Explanation:
    kept = [one for place, one in enumerate(binding) if place not in aside]
    dropped = [one for place, one in enumerate(binding) if place in aside]
    levels = [one.rank_strength for one in dropped]
    return Explanation(
        keep=tuple(one.id for one in kept),
        set_aside=tuple(one.id for one in dropped),
        outer=outer,
        inner=inner,
        cost=(levels.count(4), levels.count(3), levels.count(2), levels.count(1)),
        parts=tuple(dict.fromkeys(one.part for one in kept)),
    )


def _shown(
    outer: Months,
    inner: Months,
    explanations: Sequence[Explanation],
    best: Sequence[Explanation],
) -> Shown | None:
    """Return the window that may be printed: none where nothing bounds it or where several are equally good."""
    if outer:
        return Shown(outer, inner, False, ()) if outer != ALL_MONTHS else None
    if len(best) > 1 or best[0].outer == ALL_MONTHS:
        return None
    return Shown(best[0].outer, best[0].inner, True, best[0].set_aside)


def _edges(kept: Sequence[Statement], shown: Shown) -> Edges:
    first, last = _ends(((one.id, one.outer) for one in kept), shown.outer)
    inner_first, inner_last = _ends(((one.id, one.inner) for one in kept), shown.inner)
    return Edges(first, last, inner_first, inner_last)


def _ends(sets: Iterable[tuple[str, Months]], window: Months) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the ids of the statements that exclude the month before the window, and the month after it."""
    if not window:
        return (), ()
    known = list(sets)
    first, last = window.first, window.last
    return (
        () if first is None else tuple(one for one, months in known if first - 1 not in months),
        () if last is None else tuple(one for one, months in known if last + 1 not in months),
    )


def _later_work(statements: Sequence[Statement], best: Sequence[Explanation], examined: Month) -> dict[str, Month]:
    """Return, by id, the month not before which later work was done.

    From what was replaced, and from what the single best explanation sets aside on the late side. A statement
    that is impossible by itself (wholly after the examination) dates nothing.
    """
    aside = frozenset(best[0].set_aside) if len(best) == 1 else frozenset()
    end = best[0].outer.last if aside else None
    found = {}
    for one in statements:
        possible = up_to(one.outer, examined)
        first = possible.first if possible else None
        if first is None:
            continue
        if not one.binding or (one.id in aside and end is not None and first > end):
            found[one.id] = first
    return found


def _readings_left(binding: Sequence[Statement], outer: Months, examined: Month) -> Mapping[str, ReadingsLeft]:
    found = {}
    for one in binding:
        if not one.readings:
            continue
        left = [reading for reading in one.readings if up_to(reading.outer & outer, examined)]
        dropped = [reading for reading in one.readings if reading not in left]
        possible = [reading for reading in dropped if up_to(reading.outer, examined)]
        settled_by = [
            other.id
            for other in binding
            if other is not one and any(not up_to(reading.outer & other.outer, examined) for reading in possible)
        ]
        found[one.id] = ReadingsLeft(
            tuple(reading.name for reading in left), tuple(reading.name for reading in dropped), tuple(settled_by)
        )
    return found


def _part_windows(binding: Sequence[Statement], examined: Month) -> tuple[PartWindow, ...]:
    groups: dict[str, list[Statement]] = {}
    for one in binding:
        groups.setdefault(one.part, []).append(one)
    return tuple(
        PartWindow(part, tuple(one.id for one in kept), *_windows(kept, examined)) for part, kept in groups.items()
    )
