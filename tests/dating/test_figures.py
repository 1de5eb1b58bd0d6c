"""Ends of windows as figures that can be worked out again."""

from support.dating import EXAMINED, cases, month, plain, window

from appraise.dating.figures import record_window
from appraise.dating.result import Verdict
from appraise.dating.window import date_window
from appraise.model.figure import Figure
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.operations import OPERATIONS
from appraise.model.place import Place


def test_the_ends_are_figures_with_the_ends_of_the_statements_as_arguments() -> None:
    ledger = RecordingLedger("G01")
    found = date_window(
        "G01",
        [plain("a", month("1957-01"), None), plain("b", month("1955-01"), month("1960-12"))],
        EXAMINED,
    )
    figures = record_window(ledger, found)
    assert list(figures) == ["first", "last", "inner_first", "inner_last"]
    first = ledger.figures["G01.window.first"]
    assert (first.number, first.operation, first.arguments) == (
        month("1957-01"),
        "latest month",
        ("G01.window.a.first", "G01.window.b.first"),
    )
    assert ledger.figures["G01.window.last"].arguments == ("G01.window.b.last",)
    assert ledger.figures["G01.window.a.first"].places == (Place("Evidence", 2, "statement"),)


def test_figures_of_every_case_are_the_window() -> None:
    written = 0
    for case in cases():
        found = window(case)
        figures = record_window(Ledger(case["id"]), found)
        plain_runs = all(len(one.outer.runs) == 1 for one in found.statements if one.binding)
        if found.verdict is Verdict.CONFLICT or not plain_runs:
            assert figures == {}
            continue
        written += 1
        for name, months in (("", found.outer), ("inner_", found.inner)):
            if not months:
                assert f"{name}first" not in figures
                continue
            for end, value in (("first", months.first), ("last", months.last)):
                figure = figures.get(name + end)
                assert (int(figure.number) if isinstance(figure, Figure) else None) == value
    assert written >= 8


def test_the_formulas_are_those_of_a_spreadsheet() -> None:
    assert OPERATIONS["latest month"].rounded_formula(["B2", "B3"], 0) == "ROUND(ROUND(MAX(B2,B3),8),0)"
    assert OPERATIONS["earliest month"].rounded_formula(["B2"], 0) == "ROUND(ROUND(MIN(B2),8),0)"
