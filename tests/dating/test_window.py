"""Ends, parts, explanations, later work and limits of the window."""

from dataclasses import replace

import pytest
from support.dating import EXAMINED, month, plain, window

from appraise.dating.result import Advice, Statement, Verdict
from appraise.dating.sweep import LISTED_CONFLICTS, _minimal_hitting_sets, _search, maximal_agreeing
from appraise.dating.window import date_window
from appraise.model.months import Months
from appraise.records.vocabulary import EvidenceKind, EvidenceStatus


def _case(*evidence: dict[str, object]) -> dict[str, object]:
    return {"id": "X", "examined": "2026-11", "evidence": list(evidence)}


def test_the_ends_name_the_statements_that_set_them() -> None:
    found = window(
        _case(
            {"id": "binding", "from": "early 1957", "to": "late 1960"},
            {"id": "logo", "from": "mid 1959"},
            {"id": "serial", "date": "1959-60"},
        )
    )
    assert found.edges.first == ("logo",)
    assert found.edges.last == ("binding", "serial")
    assert found.edges.inner_first == ("logo",)
    assert found.edges.inner_last == ("binding",)


def test_the_ends_of_a_provisional_window_are_those_of_the_best_explanation() -> None:
    found = window(
        _case(
            {"id": "body", "from": "1950", "to": "1954"},
            {"id": "plate", "from": "1951", "to": "1956"},
            {"id": "pot", "from": "1962", "status": "unverified"},
        )
    )
    assert found.verdict is Verdict.CONFLICT
    assert found.shown is not None
    assert (found.shown.outer.edtf(), found.shown.provisional, found.shown.set_aside) == (
        "1951-01/1954-12",
        True,
        ("pot",),
    )
    assert (found.edges.first, found.edges.last) == (("plate",), ("body",))


def test_no_evidence_gives_no_window() -> None:
    found = date_window("X", [], EXAMINED)
    assert (found.verdict, found.outer.edtf(), found.shown) == (Verdict.FIRM, "../..", None)
    assert [one.code for one in found.findings] == ["DAT-40"]


def test_only_replaced_evidence_dates_later_work_and_no_window() -> None:
    found = window(_case({"id": "tuners", "from": "1975", "status": "replaced"}))
    assert found.shown is None
    assert found.later_work == {"tuners": month("1975-01")}


def test_a_replaced_part_open_below_dates_nothing() -> None:
    found = window(
        _case({"id": "body", "date": "1960"}, {"id": "case", "to": "1962", "status": "replaced"}),
    )
    assert found.later_work == {}


def test_the_examination_bounds_but_is_not_printed() -> None:
    """A use that is typed to end after the examination leaves the window open."""
    assert window(_case({"id": "a", "from": "2020", "to": "2030"})).outer.edtf() == "2020-01/.."
    assert window(_case({"id": "a", "date": "2026"})).outer.edtf() == "2026-01/.."
    assert window(_case({"id": "a", "date": "2026-11"})).outer.edtf() == "2026-11"


def test_what_lies_after_the_examination_is_impossible_by_itself() -> None:
    found = window(_case({"id": "a", "from": "2030"}, {"id": "b", "date": "1960"}))
    assert found.conflicts == (("a",),)
    assert [one.keep for one in found.explanations] == [("b",)]
    assert found.later_work == {}
    assert (Advice.IMPOSSIBLE, ("a",)) in found.advice


def test_a_tie_shows_no_window() -> None:
    found = window(_case({"id": "a", "to": "1959-06"}, {"id": "b", "from": "1959-07"}))
    assert found.tie
    assert found.shown is None
    assert "DAT-42" in [one.code for one in found.findings]


def test_strengths_are_never_added_up() -> None:
    """One statement of strength 3 outweighs any number of strength 2."""
    found = date_window(
        "X",
        [
            plain("strong", month("1950-01"), month("1950-12"), strength=3),
            *(plain(f"weak{n}", month("1960-01"), month("1960-12"), strength=2) for n in range(5)),
        ],
        EXAMINED,
    )
    assert [one.keep for one in found.best] == [("strong",)]


def test_unverified_counts_as_strength_one() -> None:
    found = date_window(
        "X",
        [
            plain("document", month("1950-01"), month("1950-12"), strength=4, status=EvidenceStatus.UNVERIFIED),
            plain("style", month("1960-01"), month("1960-12"), strength=2),
        ],
        EXAMINED,
    )
    assert [one.keep for one in found.best] == [("style",)]


def test_each_part_has_its_own_window() -> None:
    found = window(
        _case(
            {"id": "wood", "part": "body", "from": "1952", "to": "1954"},
            {"id": "pickups", "part": "electronics", "from": "1951", "to": "1955"},
            {"id": "rout", "part": "body", "from": "1953"},
        )
    )
    assert [(one.part, one.statements, one.outer.edtf()) for one in found.parts] == [
        ("body", ("wood", "rout"), "1953-01/1954-12"),
        ("electronics", ("pickups",), "1951-01/1955-12"),
    ]


def test_other_evidence_settles_a_reading_and_is_named() -> None:
    found = window(
        _case(
            {"id": "body", "from": "1964", "to": "1968"},
            {
                "id": "code",
                "role": "part",
                "lag": [0, 24],
                "alt": [{"name": year, "date": f"week 12 of {year}"} for year in ("1956", "1966", "1976")],
            },
        )
    )
    left = found.readings["code"]
    assert (left.left, left.dropped, left.settled_by) == (("1966",), ("1956", "1976"), ("body",))


def test_plain_intervals_list_every_pair() -> None:
    early = [plain(f"a{n}", month("1950-01"), month("1951-12")) for n in range(8)]
    late = [plain(f"b{n}", month("1960-01"), month("1961-12")) for n in range(8)]
    found = date_window("X", [*early, *late], EXAMINED)
    assert len(found.conflicts) == 64
    assert not found.more_conflicts


def _union(name: str, missing: int) -> Statement:
    """Return a statement that allows every second month of nine but one: only all nine such leave none."""
    base = month("1950-01")
    allowed = [base + 2 * n for n in range(9) if n != missing]
    months = Months.of(run for one in allowed for run in Months.between(one, one).runs)
    return replace(plain(name, None, None), outer=months, inner=months)


def test_with_unions_a_conflict_may_need_all_statements() -> None:
    found = date_window("X", [_union(f"e{n}", n) for n in range(9)], EXAMINED)
    assert found.conflicts == (tuple(f"e{n}" for n in range(9)),)
    assert len(found.explanations) == 9


@pytest.mark.parametrize("each", [2, 3])
def test_too_many_conflicts_are_cut_and_said_so(each: int) -> None:
    """Each month is missing in several statements, so that one of each group makes a conflict: each ** 9 of them."""
    statements = [_union(f"e{n}{copy}", n) for n in range(9) for copy in range(each)]
    found = date_window("X", statements, EXAMINED)
    assert len(found.conflicts) == LISTED_CONFLICTS
    assert found.more_conflicts
    assert "DAT-51" in [one.code for one in found.findings]
    for conflict in found.conflicts:
        assert sorted(int(one[1]) for one in conflict) == list(range(9))


def test_two_statements_with_one_id_are_our_mistake() -> None:
    with pytest.raises(ValueError, match="one id"):
        date_window("X", [plain("a", 1, 2), plain("a", 1, 2)], EXAMINED)


@pytest.mark.parametrize(
    ("evidence", "pattern", "ids"),
    [
        (
            [{"id": "logo", "to": "mid 1959"}, {"id": "tuners", "from": "late 1959"}],
            Advice.TRANSITION,
            ("logo", "tuners"),
        ),
        (
            [{"id": "a", "date": "1950"}, {"id": "b", "date": "1950"}, {"id": "pot", "from": "1962", "strength": 2}],
            Advice.LATE_PART,
            ("pot",),
        ),
        (
            [{"id": "a", "date": "1950"}, {"id": "b", "date": "1950"}, {"id": "old", "date": "1930"}],
            Advice.OLD_STOCK,
            ("old",),
        ),
        ([{"id": "label", "to": "1959-06"}, {"id": "brace", "from": "1959-07"}], Advice.OLD_STOCK, ("label",)),
        (
            [
                {"id": "a", "date": "1950"},
                {"id": "b", "date": "1950"},
                {"id": "no", "date": "1962", "kind": "serial number"},
            ],
            Advice.MISREAD,
            ("no",),
        ),
        (
            [
                {"id": "body", "part": "body", "date": "1952"},
                {"id": "pickups", "part": "electronics", "date": "1952"},
                {"id": "neck", "part": "neck", "date": "1965"},
                {"id": "serial", "part": "plate", "date": "1965"},
            ],
            Advice.COMPOSITE,
            ("body", "pickups", "neck", "serial"),
        ),
        (
            [{"id": "s", "alt": [{"name": "a", "date": "1957"}, {"name": "b", "date": "1963"}]}],
            Advice.SEVERAL_READINGS,
            ("s",),
        ),
        (
            [{"id": "a", "to": "1950"}, {"id": "zip", "from": "1963-07", "kind": "postal code or telephone"}],
            Advice.LEGAL_MARK,
            ("zip",),
        ),
    ],
)
def test_advice_for_the_pattern(evidence: list[dict[str, object]], pattern: Advice, ids: tuple[str, ...]) -> None:
    assert (pattern, ids) in window(_case(*evidence)).advice


def test_evidence_that_agrees_gets_no_advice() -> None:
    assert window(_case({"id": "a", "date": "1957-59"}, {"id": "b", "from": "1958"})).advice == ()


def test_kind_of_evidence_does_not_change_a_window() -> None:
    windows = {
        date_window("X", [plain("a", month("1950-01"), month("1951-01"), kind=kind)], EXAMINED).outer.edtf()
        for kind in EvidenceKind
    }
    assert windows == {"1950-01/1951-01"}


def test_the_search_finds_each_minimal_conflict_once() -> None:
    """The search used where conflicts are many gives the same sets as the exact enumeration."""
    statements = [_union(f"e{n}{copy}", n) for n in range(9) for copy in range(1 + (n < 3))]
    sets = [one.outer for one in statements]
    agreeing = maximal_agreeing(sets)
    everything = (1 << len(sets)) - 1
    outside = sorted({everything & ~mask for mask in agreeing})
    searched = list(_search(outside, 0, everything))
    assert len(searched) == len(set(searched)) == 8
    assert sorted(searched) == sorted(_minimal_hitting_sets(outside) or [])
