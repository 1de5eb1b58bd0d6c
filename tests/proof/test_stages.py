"""On which sheet of the proof a figure stands."""

from decimal import Decimal

import pytest

from appraise.model.figure import Figure
from appraise.model.kinds import TYPED
from appraise.proof import stages
from appraise.proof.stages import STAGES, Stage, stage_of


@pytest.mark.parametrize(
    ("figure_id", "stage"),
    [
        ("G01.window.first", stages.DATING),
        ("G01.fmv.c1.premium", stages.PRICE),
        ("G01.fmv.c1.converted", stages.PRICE),
        ("G01.fmv.c1.index", stages.TIME),
        ("G01.fmv.index_valuation_months", stages.TIME),
        ("G01.fmv.c1.time_factor", stages.TIME),
        ("G01.fmv.c1.pct_cond", stages.ADJUSTMENTS),
        ("G01.fmv.subject.originality", stages.ADJUSTMENTS),
        ("G01.fmv.c1.window_first_1", stages.ADJUSTMENTS),
        ("G01.fmv.c1.adjusted", stages.ADJUSTMENTS),
        ("G01.fmv.c1.running_weight", stages.RECONCILIATION),
        ("G01.fmv.mean", stages.RECONCILIATION),
        ("G01.fmv.first_month.mean", stages.RECONCILIATION),
        ("G01.rrv.sales_tax", stages.VALUES),
        ("G01.fmv.value_rounded", stages.VALUES),
        ("G01.fmv.a_figure_of_a_new_method", stages.VALUES),
        ("G01.bridge.costs", stages.BRIDGE),
        ("schedule.rrv.causes.by_index", stages.BRIDGE),
        ("schedule.rrv.new_total", stages.BRIDGE),
        ("Y01.rrv.year.factor", stages.SCHEDULE),
        ("schedule.fair_market_value.total", stages.SCHEDULE),
        ("schedule.rrv.limits.after.limit_shortfall", stages.INSURANCE),
        ("V10.coinsurance_penalty", stages.INSURANCE),
    ],
)
def test_stage_by_id(figure_id: str, stage: Stage) -> None:
    assert stage_of(Figure(figure_id, TYPED, Decimal(1), "sum")) is stage


def test_whatever_was_typed_is_an_input() -> None:
    assert stage_of(Figure("G01.fmv.mean", TYPED, Decimal(1), "typed")) is stages.INPUTS


def test_names_of_sheets_need_no_quotes_in_a_formula() -> None:
    assert all(one.sheet.isidentifier() for one in STAGES)
