"""The chain of figures, line by line, and every figure of the cases as a spreadsheet computes it."""

from decimal import Decimal
from pathlib import Path

import pytest
from support.office import recalculated_figures
from support.valuing import all_cases
from support.valuing_comparison import PLAIN, opinion_of, valuation_of

from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.place import Place
from appraise.valuing.explain import chain_of, explained

OWN = ("V01", "V02", "V03", "V04", "V05")


def test_every_figure_is_a_line_that_a_calculator_can_redo() -> None:
    part = next(case for case in all_cases() if case.id == "V03").parts[0]
    ledger = RecordingLedger("V03")
    valuation_of(part, ledger)
    lines = {one.id: (one.sentence, one.result, one.currency) for one in explained(ledger.figures)}
    assert list(lines) == list(ledger.figures)
    assert lines["V03.c2.converted"] == ("19150.00 × rate 1.2189", "23341.94", "USD")
    assert lines["V03.c1.time_factor"] == ("104.4667 ÷ 104.6667", "0.998089", "")
    assert lines["V03.c3.adj_factor"] == ("(1 + -8.86 %) × (1 + -8.80 %) × (1 + -8.00 %)", "0.764701", "")
    assert lines["V03.subject.originality"] == ("100 × (1 − 4 %) × (1 − 5 %), not below 20", "91.20", "")
    assert lines["V03.c1.price"] == ("as typed: Sales, row 2, price", "21000.00", "USD")


def test_the_chain_of_one_figure_is_what_it_was_made_from() -> None:
    _, ledger = opinion_of(PLAIN)
    chain = chain_of("G01.fmv.c2.adjusted", ledger.figures)
    ids = [one.id for one in chain]
    assert ids[-1] == "G01.fmv.c2.adjusted"
    assert ids[0] == "G01.fmv.subject.originality_floor"
    assert all(".c2." in one or ".subject." in one for one in ids)
    assert "G01.fmv.c2.net_pct" not in ids
    assert chain_of("nowhere", ledger.figures) == ()


def test_every_typed_figure_names_its_cell() -> None:
    for case in all_cases():
        if case.id in OWN:
            for part in case.parts:
                ledger = RecordingLedger(part.scope)
                valuation_of(part, ledger)
                typed = [one for one in ledger.figures.values() if one.operation == "typed"]
                assert typed
                assert all(one.places and all(isinstance(place, Place) for place in one.places) for one in typed)


@pytest.mark.office
@pytest.mark.parametrize("case", OWN)
def test_the_figures_of_a_case_come_out_the_same_in_a_spreadsheet(case: str, tmp_path: Path) -> None:
    for number, part in enumerate(next(one for one in all_cases() if one.id == case).parts):
        ledger = RecordingLedger(part.scope)
        valuation_of(part, ledger)
        figures = [one for one in ledger.figures.values() if isinstance(one.value, Decimal)]
        folder = tmp_path / str(number)
        folder.mkdir()
        computed = recalculated_figures(figures, folder)
        assert {one.id: computed[one.id] for one in figures} == {one.id: one.number for one in figures}
        assert any(one.operation not in ("typed", "noted") for one in figures)


@pytest.mark.office
def test_model_periods_and_sensitivities_come_out_the_same_in_a_spreadsheet(tmp_path: Path) -> None:
    periods = "maker | model | inner_first | inner_last | outer_first | outer_last | effect\n"
    windows = {"G01": "1933-02/1933-12 or 1941-01/1943-03", "s1": "1931-01", "s2": "1942-12", "s3": "1936-05/1936-06"}
    rows = [
        "Skarvholm | Consul 17 | 1934 | 1939 | 1931 | 1942 | 20",
        "Skarvholm | Consul 17 | 1934 | 1939 | 1934 | 1939 | -7.5",
    ]
    for number, row in enumerate(rows):
        _, ledger = opinion_of(PLAIN | {"model_periods": periods + row}, windows)
        figures: list[Figure] = [one for one in ledger.figures.values() if isinstance(one.value, Decimal)]
        folder = tmp_path / str(number)
        folder.mkdir()
        computed = recalculated_figures(figures, folder)
        assert {one.id: computed[one.id] for one in figures} == {one.id: one.number for one in figures}
        assert any(one.operation == "model period share" for one in figures)
