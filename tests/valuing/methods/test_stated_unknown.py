"""A cell that says `unknown` is not a blank one: what would rest on it has no figure and names the cell."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from support.valuing_comparison import PLAIN, opinion_of

from appraise.model.figure import NoFigure, Outcome
from appraise.model.ledger import Ledger
from appraise.model.missing import UNKNOWN
from appraise.model.place import Place
from appraise.records.claims import Depreciation, Policy
from appraise.records.declare import filled
from appraise.records.losses import Loss, RepairLine
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.methods.coverage import coinsurance
from appraise.valuing.methods.damage import damage
from appraise.valuing.methods.depreciated_cost import depreciated_cost


def cells(outcome: Outcome) -> list[Place]:
    """Return the cells that a missing figure names."""
    assert isinstance(outcome, NoFigure)
    return [one.place for one in outcome.because]


def test_limit_for_one_item() -> None:
    ledger = Ledger("T")
    policy = filled(Policy, limit=Decimal(60000), item_cap=UNKNOWN)
    loss, value = ledger.typed("loss", Decimal(4590)), ledger.typed("all", Decimal(65445))
    paid = coinsurance(ledger, policy, loss=loss, value=value, loss_day=UNKNOWN, currency="USD")
    assert cells(paid["payment"]) == [Place("Policy", 0, "item_cap")]


def test_tax_on_a_line_of_repairs() -> None:
    loss = filled(Loss, row=2, before=Decimal(9000), as_it_stands=Decimal(5000), stigma=Decimal(5))
    line = filled(RepairLine, row=3, work="labour", amount=Decimal(1000), tax=UNKNOWN)
    worked = damage(Ledger("T"), loss, damages=[], repairs=[line], pairs=[], currency="USD")
    assert cells(worked["loss"]) == [Place("Repairs", 3, "tax")]


@pytest.mark.parametrize("column", ["least", "most"])
def test_bound_of_a_cost(column: str) -> None:
    costs = f"item | kind | percent | {column}\nall | transit insurance | 0.45 | unknown"
    terms = PLAIN["value_terms"].replace("fair market value", "retail replacement value")
    lines = PLAIN["comparisons"].replace("fair market value", "retail replacement value")
    valuation, _ = opinion_of(PLAIN | {"value_terms": terms, "comparisons": lines, "costs": costs})
    assert cells(valuation.figures["value"]) == [Place("Costs", 2, column)]


@pytest.mark.parametrize("column", ["currency", "taxable"])
def test_currency_and_taxability_of_a_cost(column: str) -> None:
    costs = f"item | kind | percent | amount | {column}\nall | sales tax | 7 | |\nall | freight | | 90.00 | unknown"
    terms = PLAIN["value_terms"].replace("fair market value", "retail replacement value")
    lines = PLAIN["comparisons"].replace("fair market value", "retail replacement value")
    valuation, _ = opinion_of(PLAIN | {"value_terms": terms, "comparisons": lines, "costs": costs})
    assert cells(valuation.figures["value"]) == [Place("Costs", 3, column)]


def test_currency_of_a_price_new() -> None:
    line = filled(Depreciation, row=2, item="l1", price=Decimal(2399), currency=UNKNOWN, effective_age=Decimal(36))
    line = replace(line, life=Decimal(240))
    loss_day, place = date(2025, 3, 11), Place("Assignment", 0, "loss_date")
    worked = depreciated_cost(
        Ledger("T"), line, loss_day=loss_day, loss_place=place, rates=rate_table([])[0], currency="USD"
    )
    assert cells(worked["acv"]) == [Place("Depreciation", 2, "currency")]
