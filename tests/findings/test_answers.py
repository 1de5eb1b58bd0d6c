"""Answers hold for one value of one finding, release only what may be released, and lapse when the value changes."""

from datetime import date

import pytest

from appraise.findings.answers import Counts, Status, answer_key, can_be_answered, counted, judge
from appraise.findings.entries import Severity, entry_of, message, value_mark
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Answer

NOT_RELEASED = finding("ASG-06", Place("Value types"))
STOP = finding("ITM-02", Place("Items", 3, "serial"), "G01", "A01", found="2217")
WARN = finding("SAL-05", Place("Sales", 2, "related"), "G01", "S001", found="yes", line="c1")
NOTE = finding("SAL-09", Place("Sales", 2, "evidence_file"), "G01", "S001")


def answer(one: Finding, row: int = 2, **values: object) -> Answer:
    key = answer_key(one)
    told = {
        "code": key.code,
        "subjects": key.about,
        "column_key": key.column,
        "found_mark": key.mark,
        "reason": "Both really carry it; seen by hand.",
        "initials": "MT",
        "day": date(2025, 2, 10),
        **values,
    }
    return filled(Answer, row=row, **told)


def stands(*findings: Finding, answers: tuple[Answer, ...] = ()) -> dict[str, Status]:
    return {one.finding.code: one.status for one in judge(findings, answers)}


def test_without_answers_everything_is_open_and_sorted_by_place() -> None:
    judged = judge([WARN, STOP, NOT_RELEASED, STOP], ())
    assert [one.finding for one in judged] == [NOT_RELEASED, STOP, WARN]
    assert {one.status for one in judged} == {Status.OPEN}
    assert [one.stops for one in judged] == [True, True, False]


def test_nothing_gives_nothing() -> None:
    assert judge((), ()) == []


def test_a_stop_contrary_to_practice_is_released_and_a_warning_answered() -> None:
    judged = judge([STOP, WARN], [answer(STOP), answer(WARN, 3)])
    assert [(one.status, one.stops, one.open) for one in judged] == [
        (Status.RELEASED, False, False),
        (Status.ANSWERED, False, False),
    ]
    assert judged[0].answer is not None
    assert judged[0].answer.initials == "MT"


@pytest.mark.parametrize("change", [{}, {"found_mark": "00000000"}])
def test_what_is_impossible_is_never_released_and_the_answer_is_pointed_out(change: dict[str, object]) -> None:
    judged = judge([NOT_RELEASED], [answer(NOT_RELEASED, **change)])
    assert [(one.finding.code, one.status) for one in judged] == [("ASG-06", Status.OPEN), ("ANS-03", Status.OPEN)]
    assert judged[0].stops
    assert judged[1].finding.place == Place("Answers", 2, "code")


def test_an_answer_lapses_when_the_value_changes_and_says_so() -> None:
    now = finding("ITM-02", STOP.place, "G01", "A01", found="2218")
    judged = judge([now], [answer(STOP)])
    assert [(one.finding.code, one.status) for one in judged] == [("ITM-02", Status.LAPSED), ("ANS-01", Status.OPEN)]
    assert judged[0].stops
    assert judged[0].answer is None
    assert judged[0].lapsed is not None
    said = judged[1].finding
    assert said.place == Place("Answers", 2, "found_mark")
    assert (said.found, dict(said.details)["mark"]) == (value_mark(STOP), value_mark(now))
    assert "2218" in message(said)


@pytest.mark.parametrize(
    "change",
    [{"subjects": "A01; G01"}, {"subjects": "G01"}, {"column_key": "maker"}, {"code": "ITM-03"}],
)
def test_an_answer_for_another_finding_answers_nothing(change: dict[str, object]) -> None:
    assert stands(STOP, answers=(answer(STOP, **change),)) == {"ITM-02": Status.OPEN, "ANS-02": Status.OPEN}


def test_an_answer_without_a_finding_is_a_note() -> None:
    judged = judge((), [answer(STOP)])
    assert [one.finding.code for one in judged] == ["ANS-02"]
    assert judged[0].finding.subjects == ("ITM-02", "G01", "A01")
    assert entry_of(judged[0].finding).severity is Severity.NOTE


@pytest.mark.parametrize("key", ["reason", "initials", "day", "found_mark"])
def test_an_answer_that_is_not_complete_counts_for_nothing(key: str) -> None:
    assert stands(STOP, answers=(answer(STOP, **{key: BLANK}),)) == {"ITM-02": Status.OPEN}


def test_spaces_and_case_do_not_matter_except_in_ids() -> None:
    mark = value_mark(STOP).upper()
    typed = answer(STOP, code=" itm-02 ", subjects=" G01 ;A01 ", column_key="Serial", found_mark=f" {mark}")
    assert stands(STOP, answers=(typed,)) == {"ITM-02": Status.RELEASED}
    assert stands(STOP, answers=(answer(STOP, subjects="g01; a01"),))["ITM-02"] is Status.OPEN


def test_of_two_answers_with_one_key_the_later_holds() -> None:
    judged = judge([STOP], [answer(STOP, 2, initials="AA"), answer(STOP, 3, initials="BB")])
    assert [(one.finding.code, one.finding.place.row) for one in judged] == [("ITM-02", 3), ("ANS-04", 2)]
    assert judged[0].answer is not None
    assert judged[0].answer.initials == "BB"


def test_one_answer_settles_findings_that_have_one_key() -> None:
    twin = finding("ITM-02", Place("Items", 9, "serial"), "G01", "A01", found="2217")
    assert [one.status for one in judge([STOP, twin], [answer(STOP)])] == [Status.RELEASED, Status.RELEASED]


def test_the_order_of_findings_and_answers_does_not_matter() -> None:
    findings, answers = [NOT_RELEASED, STOP, WARN, NOTE], [answer(STOP), answer(WARN, 3), answer(NOTE, 4)]
    assert judge(findings, answers) == judge(findings[::-1], answers[::-1])


def test_counts() -> None:
    judged = judge([NOT_RELEASED, STOP, WARN, NOTE], [answer(STOP)])
    assert counted(judged) == Counts(stops=1, warnings=1, notes=1, released=1, answered=0)
    assert counted(judge([WARN, NOTE], [answer(WARN), answer(NOTE, 3)])) == Counts(answered=2)
    assert counted([]) == Counts()


def test_the_key_is_what_a_person_types() -> None:
    key = answer_key(STOP)
    assert (key.code, key.about, key.column, key.mark) == ("ITM-02", "G01; A01", "serial", value_mark(STOP))
    assert [can_be_answered(one) for one in (NOT_RELEASED, STOP, WARN, NOTE)] == [False, True, True, True]
