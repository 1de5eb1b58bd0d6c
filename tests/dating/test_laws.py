"""Laws of date windows, on families drawn by hypothesis: plain runs and unions, every status and strength."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from support.dating import as_expected, month

from appraise.dating.result import DateWindow, Reading, Statement, Verdict
from appraise.dating.window import date_window, up_to
from appraise.model.months import Months, Run
from appraise.model.place import Place
from appraise.records.vocabulary import EvidenceKind, EvidenceStatus

EXAMINED = month("1975-06")
STARTS = st.integers(month("1950-01"), month("1972-12"))


@st.composite
def run_months(draw: st.DrawFn) -> tuple[Months, Months]:
    """Return an outer run, perhaps open at one end, and an inner part of it, perhaps empty."""
    first, length = draw(STARTS), draw(st.integers(0, 60))
    opened = draw(st.sampled_from(("", "", "", "below", "above")))
    outer = Months.between(None if opened == "below" else first, None if opened == "above" else first + length)
    inner = outer & Months.between(first + draw(st.integers(0, 40)), first + length - draw(st.integers(0, 40)))
    return outer, inner


@st.composite
def statement(draw: st.DrawFn, name: str) -> Statement:
    parts = draw(st.lists(run_months(), min_size=1, max_size=3))
    readings = tuple(Reading(f"r{place}", *one) for place, one in enumerate(parts)) if len(parts) > 1 else ()
    return Statement(
        id=name,
        part=draw(st.sampled_from(("body", "neck", "label"))),
        say=name,
        kind=draw(st.sampled_from(tuple(EvidenceKind))),
        source="invented",
        status=draw(st.sampled_from(tuple(EvidenceStatus))),
        strength=draw(st.integers(1, 4)),
        outer=Months.of(run for outer, _ in parts for run in outer.runs),
        inner=Months.of(run for _, inner in parts for run in inner.runs),
        place=Place("Evidence", 2, "statement"),
        readings=readings,
    )


@st.composite
def families(draw: st.DrawFn) -> list[Statement]:
    return [draw(statement(f"e{place}")) for place in range(draw(st.integers(0, 6)))]


def dated(family: list[Statement]) -> DateWindow:
    return date_window("X", family, EXAMINED)


def within(smaller: Months, larger: Months) -> bool:
    return up_to(smaller, EXAMINED) <= up_to(larger, EXAMINED)


def common(window: DateWindow, ids: tuple[str, ...]) -> Months:
    """Return the months up to the examination that all the named statements allow."""
    found = Months.between(None, EXAMINED)
    for one in ids:
        found = found & window.statement(one).outer
    return found


@given(families(), st.randoms(use_true_random=False))
@settings(max_examples=150, deadline=None)
def test_the_order_of_the_evidence_does_not_matter(family: list[Statement], random: object) -> None:
    shuffled = list(family)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = as_expected(dated(family)), as_expected(dated(shuffled))
    for found in (one, other):
        found["conflicts"] = sorted(sorted(ids) for ids in found["conflicts"])
        found["best"] = sorted(sorted(ids) for ids in found["best"])
        found["consistent"] = sorted(
            ({**line, "keep": sorted(line["keep"])} for line in found["consistent"]), key=lambda line: line["keep"]
        )
    assert one == other


@given(families(), st.data())
@settings(max_examples=100, deadline=None)
def test_repeating_a_statement_changes_no_window(family: list[Statement], data: st.DataObject) -> None:
    if not family:
        return
    again = replace(data.draw(st.sampled_from(family)), id="again")
    one, other = dated(family), dated([*family, again])
    assert (one.verdict, one.outer, one.inner) == (other.verdict, other.outer, other.inner)
    assert {(line.outer, line.inner) for line in one.explanations} == {
        (line.outer, line.inner) for line in other.explanations
    }


@given(families(), statement("new"))
@settings(max_examples=150, deadline=None)
def test_more_binding_evidence_never_widens(family: list[Statement], new: Statement) -> None:
    binding = replace(new, status=EvidenceStatus.ORIGINAL)
    one, other = dated(family), dated([*family, binding])
    assert within(other.outer, one.outer)
    assert within(other.inner, one.inner)


@given(families(), statement("new"))
@settings(max_examples=100, deadline=None)
def test_a_replaced_item_bounds_nothing(family: list[Statement], new: Statement) -> None:
    replaced = replace(new, status=EvidenceStatus.REPLACED)
    one, other = as_expected(dated(family)), as_expected(dated([*family, replaced]))
    other["later_work"].pop("new", None)
    assert one == other


@given(families())
@settings(max_examples=150, deadline=None)
def test_inner_lies_within_outer(family: list[Statement]) -> None:
    window = dated(family)
    for one in (window, *window.explanations, *window.parts):
        assert within(one.inner, one.outer)


@given(families())
@settings(max_examples=200, deadline=None)
def test_every_explanation_agrees_and_is_maximal(family: list[Statement]) -> None:
    window = dated(family)
    for one in window.explanations:
        agreed = common(window, one.keep)
        assert agreed
        assert up_to(one.outer, EXAMINED) == agreed
        assert not any(agreed & window.statement(other).outer for other in one.set_aside)


@given(families())
@settings(max_examples=200, deadline=None)
def test_every_conflict_is_minimal(family: list[Statement]) -> None:
    window = dated(family)
    assert bool(window.conflicts) == (window.verdict is Verdict.CONFLICT)
    for conflict in window.conflicts:
        assert not common(window, conflict)
        for one in conflict:
            assert common(window, tuple(other for other in conflict if other != one))


@given(families(), st.integers(-600, 600))
@settings(max_examples=100, deadline=None)
def test_shifting_everything_shifts_the_result(family: list[Statement], months: int) -> None:
    moved = [
        replace(
            one,
            outer=one.outer.shift(months),
            inner=one.inner.shift(months),
            readings=tuple(
                replace(line, outer=line.outer.shift(months), inner=line.inner.shift(months)) for line in one.readings
            ),
        )
        for one in family
    ]
    one, other = dated(family), date_window("X", moved, EXAMINED + months)
    assert (one.verdict, one.outer.shift(months), one.inner.shift(months)) == (other.verdict, other.outer, other.inner)
    assert one.conflicts == other.conflicts
    assert [(line.keep, line.outer.shift(months)) for line in one.explanations] == [
        (line.keep, line.outer) for line in other.explanations
    ]
    assert {name: first + months for name, first in one.later_work.items()} == other.later_work
    assert one.readings == other.readings


@given(families())
@settings(max_examples=100, deadline=None)
def test_the_examination_is_never_printed_as_an_end(family: list[Statement]) -> None:
    """Where only the examination bounds from above the window is open."""
    window = dated(family)
    for one in (window, *window.explanations):
        if one.outer and one.outer.last == EXAMINED:
            assert any(EXAMINED + 1 not in line.outer for line in window.statements)


@given(families())
@settings(max_examples=100, deadline=None)
def test_each_end_shown_is_set_by_the_statements_named(family: list[Statement]) -> None:
    window = dated(family)
    if window.shown is None or not window.shown.outer:
        return
    outer = window.shown.outer
    for end, beyond, ids in ((outer.first, -1, window.edges.first), (outer.last, 1, window.edges.last)):
        assert bool(ids) == (end is not None)
        for one in ids:
            assert end is not None
            assert end in window.statement(one).outer
            assert end + beyond not in window.statement(one).outer


def test_open_and_touching_runs_are_one_set() -> None:
    """Months.of merges what touches: the sweep relies on it."""
    merged = Months.of([Run(None, 5), Run(6, 9), Run(20, None), Run(12, 13)])
    assert merged.runs == (Run(None, 9), Run(12, 13), Run(20, None))
