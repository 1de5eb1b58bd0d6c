"""Totals of a revalued schedule, the bridge from last year's to this year's, and the causes of the change.

The bridge closes exactly: prior total + continuing change − removed + added = new total. Totals are sums of rounded
lines and never rounded again. What changed its market or type of value stands apart from what the market did.
"""

from collections.abc import Callable, Iterable, Sequence

from appraise.model.figure import Figure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.kinds import SHOWN_PERCENT, Kind, money, typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.model.operations import DIFFERENCE, PERCENT_SHARE, SUM
from appraise.records.declare import place_of
from appraise.records.items import RENAMINGS, Renaming
from appraise.records.vocabulary import Treatment
from appraise.records.yearly import TREATMENTS
from appraise.schedule.revaluation import ROLLS, RevaluedLine, Year
from appraise.valuing.working import Worked, Working


def totals(ledger: Ledger, lines: Sequence[RevaluedLine], *, currency: str) -> Worked:
    """Return the totals of a schedule, or of part of one.

    Figures: prior_total (removed lines included), removed_total, added_total, continuing_prior, continuing_new,
    continuing_change, continuing_change_pct, new_total, total_change, total_change_pct, new_total_unrounded,
    rounding_difference. A line without a figure leaves the totals it belongs to without one, and says why.
    """
    exact = typed_money(currency)
    work = Working(ledger, "YRL-01")
    continuing = [one for one in lines if one.treatment not in (Treatment.ADDED, Treatment.REMOVED)]
    removed = [one for one in lines if one.treatment is Treatment.REMOVED]
    added = [one for one in lines if one.treatment is Treatment.ADDED]
    prior = work.figure("prior_total", exact, SUM, *_prior_rounded(lines))
    work.figure("removed_total", exact, SUM, *_prior_rounded(removed))
    work.figure("added_total", exact, SUM, *_new_rounded(added))
    before = work.figure("continuing_prior", exact, SUM, *_prior_rounded(continuing))
    after = work.figure("continuing_new", exact, SUM, *_new_rounded(continuing))
    change = work.figure("continuing_change", exact, DIFFERENCE, after, before)
    _percent(work, "continuing_change_pct", change, before)
    new = work.figure("new_total", exact, SUM, *_new_rounded(lines))
    total_change = work.figure("total_change", exact, DIFFERENCE, new, prior)
    _percent(work, "total_change_pct", total_change, prior)
    unrounded = work.figure("new_total_unrounded", money(currency), SUM, *_new(lines))
    work.figure("rounding_difference", money(currency), DIFFERENCE, new, unrounded)
    return work.done()


def causes(ledger: Ledger, lines: Sequence[RevaluedLine], *, currency: str) -> Worked:
    """Return what the change of the total is made of, before rounding; the parts add up to the total change.

    Figures: by_index, by_percent, by_fresh, by_condition (as typed), by_market (the first three less condition),
    by_basis (market or type of value changed: no growth), by_rounding, added, removed, explained. Added and removed
    are rounded values; held lines change nothing but by rounding.
    """
    cash = money(currency)
    work = Working(ledger, "YRL-01")
    continuing = [one for one in lines if one.treatment not in (Treatment.ADDED, Treatment.REMOVED)]
    named: dict[str, Callable[[RevaluedLine], bool]] = {
        "by_index": lambda one: one.like_for_like and one.treatment is Treatment.INDEX,
        "by_percent": lambda one: one.like_for_like and one.treatment is Treatment.PERCENT,
        "by_fresh": lambda one: one.like_for_like and one.treatment not in ROLLS,
        "by_basis": lambda one: not one.like_for_like,
    }
    moved = [_moved(work, name, [one for one in continuing if belongs(one)], cash) for name, belongs in named.items()]
    state = [
        work.cell(TREATMENTS, one.line, "condition_change", name=f"condition{number}", kind=typed_money(currency))
        for number, one in enumerate(continuing, start=1)
        if one.like_for_like and given(one.line.condition_change)
    ]
    condition = work.figure("by_condition", cash, SUM, *state)
    like_for_like = work.figure("by_like", cash, SUM, *moved[:3])
    parts = [work.figure("by_market", cash, DIFFERENCE, like_for_like, condition), condition, moved[3]]
    new = _rounding(work, "new", _new_rounded(continuing), _new(continuing), cash)
    old = _rounding(work, "prior", _prior_rounded(continuing), _prior(continuing), cash)
    parts.append(work.figure("by_rounding", cash, DIFFERENCE, new, old))
    added = [one for one in lines if one.treatment is Treatment.ADDED]
    parts.append(work.figure("added", cash, SUM, *_new_rounded(added)))
    gains = work.figure("gained", cash, SUM, *parts)
    removed = [one for one in lines if one.treatment is Treatment.REMOVED]
    lost = work.figure("removed", cash, SUM, *_prior_rounded(removed))
    work.figure("explained", cash, DIFFERENCE, gains, lost)
    return work.done()


def prior_totals_as_printed(ledger: Ledger, lines: Sequence[RevaluedLine], *, currency: str) -> Worked:
    """Return last year's total as it was printed, in each currency it was printed in (figures `prior_total_USD` ...).

    For a schedule whose currency changed: it stands beside the total restated in the new currency.
    """
    work = Working(ledger, "YRL-01")
    by_currency: dict[str, list[Outcome]] = {}
    for number, one in enumerate(lines, start=1):
        if one.prior_rounded is None:
            continue
        old = one.line.prior_currency if given(one.line.prior_currency) else currency
        typed = work.cell(TREATMENTS, one.line, "prior_rounded", name=f"printed{number}")
        by_currency.setdefault(old, []).append(typed)
    for old, amounts in by_currency.items():
        work.figure(f"prior_total_{old}", typed_money(old), SUM, *amounts)
    return work.done()


def groups(
    ledger: Ledger, lines: Sequence[RevaluedLine], group_of: Callable[[RevaluedLine], str], *, currency: str
) -> dict[str, Worked]:
    """Return the totals of each group (by family, by location ...), in the order in which the groups first appear."""
    found: dict[str, list[RevaluedLine]] = {}
    for one in lines:
        found.setdefault(group_of(one), []).append(one)
    return {
        name: totals(ledger.under(f"group{number}"), members, currency=currency)
        for number, (name, members) in enumerate(found.items(), start=1)
    }


@frozen
class Due:
    """One line due for inspection, and its item."""

    item: str
    line: RevaluedLine


def due_list(lines: Iterable[RevaluedLine]) -> tuple[Due, ...]:
    """Return the lines due for inspection, those never seen first, then by last inspection."""
    due = [Due(str(one.line.item), one) for one in lines if "re-inspect" in one.flags]
    return tuple(sorted(due, key=_last_seen))


def schedule_findings(lines: Sequence[RevaluedLine], year: Year, renamings: Sequence[Renaming]) -> tuple[Finding, ...]:
    """Return what is to be said of the schedule as a whole: doubled lines, splits and joins, change of currency."""
    found = [*_doubled(lines), *_splits(lines, renamings), *_currency(lines, year)]
    return tuple(dict.fromkeys(found))


def _doubled(lines: Sequence[RevaluedLine]) -> list[Finding]:
    """One item and type of value stands on one line only."""
    seen: set[tuple[object, object]] = set()
    found = []
    for one in lines:
        key = (one.line.item, one.line.value_type)
        if given(one.line.item) and key in seen:
            found.append(finding("YRL-31", place_of(TREATMENTS, one.line, "item"), one.line.item, found=one.line.item))
        seen.add(key)
    return found


def _splits(lines: Sequence[RevaluedLine], renamings: Sequence[Renaming]) -> list[Finding]:
    """An item split or joined leaves its old line removed and its new lines added, so that nothing counts twice."""
    treatments = {one.line.item: one.treatment for one in lines if given(one.line.item)}
    found = []
    for row in renamings:
        if not (given(row.old) and given(row.new)):
            continue
        old, new = treatments.get(row.old), treatments.get(row.new)
        if row.old in treatments and old is not Treatment.REMOVED and row.old != row.new:
            place = place_of(RENAMINGS, row, "old")
            found.append(finding("YRL-32", place, row.old, row.new, found=row.old, new=row.new))
        if row.new not in treatments or (new is not Treatment.ADDED and row.old != row.new):
            place = place_of(RENAMINGS, row, "new")
            found.append(finding("YRL-33", place, row.old, row.new, found=row.new, old=row.old))
    return found


def _currency(lines: Sequence[RevaluedLine], year: Year) -> list[Finding]:
    old = {one.line.prior_currency for one in lines if one.prior_rounded is not None and given(one.line.prior_currency)}
    blank = any(one.prior_rounded is not None and not given(one.line.prior_currency) for one in lines)
    before = {str(one) for one in old} | ({year.currency} if blank else set())
    if not before or before == {year.currency}:
        return []
    words = ", ".join(sorted(before))
    changed = next(one for one in lines if given(one.line.prior_currency) and one.line.prior_currency != year.currency)
    place = place_of(TREATMENTS, changed.line, "prior_currency")
    found = [finding("YRL-34", place, found=words, now=year.currency)]
    if len(before) > 1:
        found.append(finding("YRL-35", place, found=words))
    if not given(year.terms.currency_reason):
        found.append(finding("YRL-36", place, found=words, now=year.currency))
    return found


def bridge_closes(worked: Worked) -> bool | None:
    """Say whether prior + continuing change − removed + added = new, exactly; None where a figure is missing."""
    names = ("prior_total", "continuing_change", "removed_total", "added_total", "new_total")
    outcomes = [worked[name] for name in names]
    numbers = [one.number for one in outcomes if isinstance(one, Figure)]
    if len(numbers) != len(outcomes):
        return None
    prior, change, removed, added, new = numbers
    return prior + change - removed + added == new


def _moved(work: Working, name: str, lines: Sequence[RevaluedLine], cash: Kind) -> Outcome:
    """Return by how much lines moved before rounding."""
    now = work.figure(f"{name}_new", cash, SUM, *_new(lines))
    then = work.figure(f"{name}_prior", cash, SUM, *_prior(lines))
    return work.figure(name, cash, DIFFERENCE, now, then)


def _rounding(
    work: Working, name: str, rounded: Sequence[Outcome], unrounded: Sequence[Outcome], cash: Kind
) -> Outcome:
    """Return what rounding line by line added to a sum."""
    after = work.figure(f"{name}_rounded_sum", cash, SUM, *rounded)
    before = work.figure(f"{name}_sum", cash, SUM, *unrounded)
    return work.figure(f"{name}_rounding", cash, DIFFERENCE, after, before)


def _percent(work: Working, name: str, change: Outcome, base: Outcome) -> None:
    """Make the percent of a change; `n/a` where there was nothing before."""
    if isinstance(base, Figure) and base.number == 0:
        work.note(name, "n/a")
    else:
        work.figure(name, SHOWN_PERCENT, PERCENT_SHARE, change, base)


def _last_seen(due: Due) -> tuple[str, str]:
    last = due.line.line.inspected
    return (last.isoformat() if given(last) else "", due.item)


def _prior(lines: Iterable[RevaluedLine]) -> list[Outcome]:
    return [one.prior for one in lines if one.prior is not None]


def _prior_rounded(lines: Iterable[RevaluedLine]) -> list[Outcome]:
    return [one.prior_rounded for one in lines if one.prior_rounded is not None]


def _new(lines: Iterable[RevaluedLine]) -> list[Outcome]:
    return [one.new for one in lines if one.new is not None]


def _new_rounded(lines: Iterable[RevaluedLine]) -> list[Outcome]:
    return [one.new_rounded for one in lines if one.new_rounded is not None]
