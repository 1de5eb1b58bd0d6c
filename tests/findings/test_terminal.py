"""Findings as plain text: place, word, code, sentence; below it what to do; then the count."""

from datetime import date

import pytest

from appraise.findings.answers import Counts, answer_key, judge
from appraise.findings.entries import action, message
from appraise.findings.terminal import all_lines, count_line, finding_lines
from appraise.model.finding import Finding, finding
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Answer

STOP = finding("ITM-02", Place("Items", 3, "serial"), "G01", "A01", found="2217")
WARN = finding("SAL-05", Place("Sales", 2, "related"), "G01", "S001", found="yes", line="c1")


def where(place: Place) -> str:
    return f"{place.sheet}!F{place.row}"


def answer(one: Finding, **values: object) -> Answer:
    key = answer_key(one)
    told = {"code": key.code, "subjects": key.about, "column_key": key.column, "found_mark": key.mark, **values}
    return filled(Answer, row=2, reason="seen by hand", initials="MT", day=date(2025, 2, 10), **told)


def test_a_finding_is_two_lines_the_second_below_the_word() -> None:
    (judged,) = judge([STOP], ())
    first, second = finding_lines(judged, where)
    assert first == f"Items!F3  stop  ITM-02  {message(STOP)}"
    assert second == f"          {action(STOP)}"
    assert first.index("stop") == second.index(action(STOP))


def test_released_answered_and_lapsed_say_so() -> None:
    released = "\n".join(all_lines(judge([STOP], [answer(STOP)]), where))
    assert released.splitlines() == [
        f"Items!F3  released  ITM-02  {message(STOP)}",
        "          MT, 2025-02-10: seen by hand",
    ]
    assert "Sales!F2  answered  SAL-05" in "\n".join(all_lines(judge([WARN], [answer(WARN)]), where))
    lapsed = judge([STOP], [answer(STOP, found_mark="00000000")])
    lines = list(finding_lines(lapsed[0], where))
    assert lines[0].startswith("Items!F3  stop  ITM-02")
    assert "the value has changed. MT, 2025-02-10: seen by hand" in lines[1]


def test_how_to_answer_names_what_to_type() -> None:
    (judged,) = judge([WARN], ())
    key = answer_key(WARN)
    assert list(finding_lines(judged, where, how_to_answer=True))[-1].strip() == (
        f"To answer: code SAL-05, about G01; S001, column key related, mark {key.mark}."
    )


def test_what_cannot_be_answered_does_not_say_how() -> None:
    (judged,) = judge([finding("ASG-06", Place("Value types"))], ())
    assert len(list(finding_lines(judged, where, how_to_answer=True))) == 2


def test_lines_wrap_below_the_word() -> None:
    (judged,) = judge([STOP], ())
    lines = list(finding_lines(judged, where, width=60))
    assert all(len(line) <= 60 for line in lines)
    assert all(line.startswith("          ") for line in lines[1:])
    assert " ".join(line.strip() for line in lines).split() == " ".join(finding_lines(judged, where)).split()


def test_terminal_markup_of_the_user_stays_text() -> None:
    hostile = finding("ITM-02", Place("Items", 3, "serial"), "[red]G01[/]", "A01", found=":guitar: \\[/]")
    (judged,) = judge([hostile], ())
    assert "[red]G01[/]" in next(iter(finding_lines(judged, where)))


@pytest.mark.parametrize(
    ("counts", "line"),
    [
        (Counts(), "No findings."),
        (Counts(stops=1, warnings=2), "1 stop, 2 warnings."),
        (Counts(stops=2, warnings=1, notes=3), "2 stops, 1 warning, 3 notes."),
        (Counts(released=1), "No open findings. Settled in writing: 1 stop released."),
        (Counts(notes=1, released=2, answered=3), "1 note. Settled in writing: 2 stops released, 3 answered."),
    ],
)
def test_the_count_line(counts: Counts, line: str) -> None:
    assert count_line(counts) == line


def blanks(*rows: int) -> list[Finding]:
    return [finding("CEL-21", Place("Parts", row, "state"), heading="State", hint="Six answers.") for row in rows]


def test_the_same_said_of_many_cells_is_told_once_with_all_of_them() -> None:
    lines = list(all_lines(judge([*blanks(4, 5, 6, 9), STOP], ()), where))
    told = [line for line in lines if "CEL-21" in line]
    assert told == ["Parts!F4 to F6, F9 (4 cells)  stop  CEL-21  State is blank."]
    assert any("ITM-02" in line for line in lines)


def test_two_of_a_kind_are_told_one_by_one() -> None:
    assert sum("CEL-21" in line for line in all_lines(judge(blanks(4, 5), ()), where)) == 2


def test_of_many_runs_of_cells_the_first_are_named_and_all_are_counted() -> None:
    (line, _) = all_lines(judge(blanks(2, 4, 6, 8, 10, 12), ()), where)
    assert line.startswith("Parts!F2, F4, F6, F8, ... (6 cells)  stop")


def test_an_answered_finding_never_hides_among_others() -> None:
    same = [finding("CEL-22", Place("Inspection", row, "found"), heading="Found", hint="") for row in (4, 5, 6)]
    text = "\n".join(all_lines(judge(same, [answer(same[0])]), where))
    assert text.count("released") == 3
