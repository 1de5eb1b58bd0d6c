"""Every figure of the cases of the other methods, computed by its formula in a spreadsheet from its arguments."""

from decimal import Decimal
from pathlib import Path

import pytest
from support import valuing_other
from support.office import recalculated
from support.valuing import OWN_CASES, method_named, read_case

from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.operations import OPERATIONS

CASES = ["V05B", "V06", "V07", "V08", "V09", "V10", "V11", "V12"]


class KeptLedger(RecordingLedger):
    """A recording ledger that tells where its figures are kept."""

    kept: dict[str, Figure]

    def __init__(self, scope: str, figures: dict[str, Figure] | None = None) -> None:
        super().__init__(scope, figures)
        if figures is None:
            type(self).kept = self.figures


def figures_of(case: str, monkeypatch: pytest.MonkeyPatch) -> dict[str, Figure]:
    monkeypatch.setattr(valuing_other, "RecordingLedger", KeptLedger)
    part = read_case(OWN_CASES / f"{case}.toml").parts[0]
    method_named(part.method)(part)
    return KeptLedger.kept


@pytest.mark.office
def test_formulas_give_the_figures_of_the_cases(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rows, expected = [], []
    for case in CASES:
        figures = figures_of(case, monkeypatch)
        for figure in figures.values():
            if figure.operation in ("typed", "noted"):
                continue
            values = [figures[one].number for one in figure.arguments]
            cells = [f"{{{index}}}" for index in range(len(values))]
            formula = OPERATIONS[figure.operation].rounded_formula(cells, figure.kind.places)
            rows.append((formula, values))
            expected.append(figure.number)
    assert len(rows) > 200
    assert recalculated(rows, tmp_path) == expected


@pytest.mark.parametrize("case", CASES)
def test_every_argument_is_a_figure_of_the_same_ledger(case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    figures = figures_of(case, monkeypatch)
    made: set[str] = set()
    for id_, figure in figures.items():
        assert set(figure.arguments) <= made, id_
        made.add(id_)
    assert all(isinstance(one.value, Decimal) or one.operation == "noted" for one in figures.values())
