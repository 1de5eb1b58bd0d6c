"""What the pattern of agreement and conflict suggests; texts are in the catalogue of findings.

Advice never changes a window. It names what to think of, and the statements it is about.
"""

from collections.abc import Iterable, Sequence

from appraise.dating.result import Advice, DateWindow, Explanation, Statement, Verdict
from appraise.model.finding import Finding, finding
from appraise.model.months import ALL_MONTHS, Months
from appraise.model.place import Place
from appraise.records.vocabulary import EvidenceKind

#: Two statements that miss each other by no more than this many months suggest leftover stock or a reference date
#: one step off, rather than a replaced part (our default, no source).
OLD_STOCK_MONTHS = 24

ADVICE_CODES = {
    Advice.TRANSITION: "DAT-43",
    Advice.LATE_PART: "DAT-44",
    Advice.OLD_STOCK: "DAT-45",
    Advice.MISREAD: "DAT-46",
    Advice.COMPOSITE: "DAT-47",
    Advice.SEVERAL_READINGS: "DAT-48",
    Advice.IMPOSSIBLE: "DAT-49",
    Advice.LEGAL_MARK: "DAT-50",
}

_READ_OFF = frozenset({EvidenceKind.SERIAL, EvidenceKind.COMPONENT_CODE, EvidenceKind.INSCRIPTION, EvidenceKind.PATENT})
_MARKS = frozenset({EvidenceKind.LEGAL_MARK, EvidenceKind.ADDRESS})


def advice_of(window: DateWindow) -> tuple[tuple[Advice, tuple[str, ...]], ...]:
    """Return the patterns found, in the order of `Advice`, each with the ids of the statements it is about."""
    in_conflict = frozenset(one for conflict in window.conflicts for one in conflict)
    aside = frozenset(window.best[0].set_aside) if len(window.best) == 1 else in_conflict
    about: dict[Advice, Iterable[str]] = {
        Advice.LATE_PART: [one.id for one in window.statements if one.binding and one.id in window.later_work],
        Advice.OLD_STOCK: _old_stock(window),
        Advice.TRANSITION: _of_kind(window, _ends_of(window)) if window.verdict is Verdict.EDGE else (),
        Advice.MISREAD: _of_kind(window, aside, _READ_OFF),
        Advice.COMPOSITE: _of_kind(window, in_conflict) if _composite(window.best) else (),
        Advice.SEVERAL_READINGS: _several_readings(window),
        Advice.IMPOSSIBLE: [conflict[0] for conflict in window.conflicts if len(conflict) == 1],
        Advice.LEGAL_MARK: _of_kind(window, in_conflict, _MARKS),
    }
    return tuple((advice, tuple(about[advice])) for advice in Advice if tuple(about[advice]))


def _of_kind(
    window: DateWindow, ids: frozenset[str], kinds: frozenset[EvidenceKind] = frozenset(EvidenceKind)
) -> list[str]:
    return [one.id for one in window.statements if one.id in ids and one.kind in kinds]


def _ends_of(window: DateWindow) -> frozenset[str]:
    return frozenset(window.edges.first) | frozenset(window.edges.last)


def _composite(best: Sequence[Explanation]) -> bool:
    """Say whether equally good explanations rest on different parts, each on two statements or more."""
    parts = [part for one in best for part in one.parts]
    return len(best) > 1 and len(set(parts)) == len(parts) and all(len(one.keep) > 1 for one in best)


def _old_stock(window: DateWindow) -> list[str]:
    """Return what the best explanation sets aside on the early side, and the earlier of two that miss narrowly."""
    found = set()
    by_id = {one.id: one for one in window.statements}
    if len(window.best) == 1:
        for one in window.best[0].set_aside:
            if _gap(by_id[one].outer, window.best[0].outer) is not None:
                found.add(one)
    for conflict in window.conflicts:
        if len(conflict) != 2:
            continue
        for early, late in (conflict, conflict[::-1]):
            gap = _gap(by_id[early].outer, by_id[late].outer)
            if gap is not None and gap <= OLD_STOCK_MONTHS:
                found.add(early)
    return [one.id for one in window.statements if one.id in found]


def _gap(early: Months, late: Months) -> int | None:
    """Return by how many months `early` ends before `late` begins; None if it does not."""
    if not early or not late or early.last is None or late.first is None or early.last >= late.first:
        return None
    return late.first - early.last


def _several_readings(window: DateWindow) -> list[str]:
    larger = frozenset(one for conflict in window.conflicts if len(conflict) > 2 for one in conflict)
    return [
        one.id
        for one in window.statements
        if (one.id in window.readings and len(window.readings[one.id].left) > 1)
        or (one.id in larger and len(one.outer.runs) > 1)
    ]


def findings_of(window: DateWindow, advice: tuple[tuple[Advice, tuple[str, ...]], ...]) -> tuple[Finding, ...]:
    """Return the findings of the window itself: no evidence, conflict, tie, and one for each advice."""
    found = []
    if window.outer == ALL_MONTHS:
        found.append(finding("DAT-40", _place(window, ()), window.item))
    if window.verdict is Verdict.CONFLICT:
        about = tuple(dict.fromkeys(one for conflict in window.conflicts for one in conflict))
        sets = "; ".join("{" + ", ".join(conflict) + "}" for conflict in window.conflicts)
        code = "DAT-42" if window.tie else "DAT-41"
        aside = ", ".join(window.best[0].set_aside)
        found.append(finding(code, _place(window, about), window.item, *about, conflicts=sets, aside=aside))
    if window.more_conflicts:
        found.append(finding("DAT-51", _place(window, ()), window.item, listed=len(window.conflicts)))
    for pattern, ids in advice:
        found.append(finding(ADVICE_CODES[pattern], _place(window, ids), window.item, *ids, ids=", ".join(ids)))
    return tuple(found)


def _place(window: DateWindow, ids: Sequence[str]) -> Place:
    """Return the place of the first statement concerned; the sheet as a whole where there is none."""
    concerned: list[Statement] = [one for one in window.statements if one.id in ids] or list(window.statements)
    return concerned[0].place if concerned else Place("Evidence")
