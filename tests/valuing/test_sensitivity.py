"""Values that stand beside an opinion: without later evidence, without one comparison, without the level step."""

from dataclasses import replace

from support.valuing import all_cases, figure_text
from support.valuing_comparison import PLAIN, codes, drawn, figures_text, inputs_of, opinion_of, valuation_of

from appraise.model.figure import Figure, Outcome
from appraise.model.ledger import RecordingLedger
from appraise.model.place import Place
from appraise.records.vocabulary import Route
from appraise.valuing.sensitivity import effect_of_level, leave_one_out

INDEXED = PLAIN | {
    "items": "id | index\nG01 | X",
    "sales": PLAIN["sales"].replace("2024-03-01", "2024-01-31"),
}


def shown(outcome: Outcome) -> str:
    return figure_text(outcome) if isinstance(outcome, Figure) else "none"


def test_an_index_point_after_the_date_is_said_and_left_out_beside() -> None:
    points = "index | month | figure\nX | 2024-01 | 100\nX | 2024-09 | 100\nX | 2025-01 | 140"
    valuation, ledger = opinion_of(INDEXED | {"indexes": points})
    figures = figures_text(valuation)
    # November lies half-way to 140: 120; as known in November the index still stood at 100
    assert (figures["index_valuation"], figures["value_rounded"], figures["without_later"]) == (
        "120.0000",
        "13200",
        "11000",
    )
    later = [one for one in valuation.findings if one.code == "VAL-14"]
    assert [(one.place, one.found) for one in later] == [(Place("Items", 2, "index"), "2025-01")]
    assert "G01.fmv.without_later.c1.time_factor" in ledger.figures


def test_a_point_in_the_month_of_the_date_is_not_later() -> None:
    points = "index | month | figure\nX | 2024-01 | 100\nX | 2024-11 | 120\nX | 2025-01 | 140"
    valuation, _ = opinion_of(INDEXED | {"indexes": points})
    assert "without_later" not in valuation.figures
    assert "VAL-14" not in codes(valuation.findings)


def test_a_later_sale_with_weight_is_left_out_beside() -> None:
    sheets = PLAIN | {"sales": PLAIN["sales"].replace("2024-05-01", "2024-11-16")}
    valuation, _ = opinion_of(sheets)
    figures = figures_text(valuation)
    assert (figures["value_rounded"], figures["without_later"]) == ("11000", "10500")
    assert "CMP-09" in codes(valuation.findings)


def test_a_later_sale_without_weight_changes_nothing() -> None:
    sheets = PLAIN | {
        "sales": PLAIN["sales"].replace("2024-05-01", "2024-11-16"),
        "comparisons": PLAIN["comparisons"].replace("s2   | 1", "s2   | 0"),
    }
    assert "without_later" not in opinion_of(sheets)[0].figures


def test_without_any_earlier_sale_nothing_is_left() -> None:
    sales = PLAIN["sales"]
    for day in ("2024-03-01", "2024-05-01", "2024-06-01"):
        sales = sales.replace(day, "2024-12-01")
    valuation, _ = opinion_of(PLAIN | {"sales": sales})
    assert figures_text(valuation)["without_later"] == "none"


def test_leave_one_out_of_three() -> None:
    part = next(case for case in all_cases() if case.id == "V03").parts[0]
    ledger = RecordingLedger("V03")
    valuation = valuation_of(part, ledger)
    found = leave_one_out(inputs_of(part), ledger, valuation)
    assert list(found) == ["c1", "c2", "c3", "c4", "c5"]  # c6 has no weight
    # without c4: (3 x 21402.33 + 2 x 23518.88 + 2 x 20253.06 + 23063.45) / 8
    assert shown(ledger.figures["V03.without_c4.mean"]) == "21851.79"
    assert shown(found["c4"]) == "21900"


def test_leaving_out_the_only_one_leaves_nothing() -> None:
    sheets = PLAIN | {"comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1"}
    part = drawn(sheets)
    ledger = RecordingLedger("x")
    assert leave_one_out(inputs_of(part), ledger, valuation_of(part, ledger)) == {}


def test_effect_of_the_market_level_step() -> None:
    part = next(case for case in all_cases() if case.id == "V03").parts[0]
    ledger = RecordingLedger("V03")
    valuation = valuation_of(part, ledger)
    found = effect_of_level(inputs_of(part), ledger, valuation)
    # c3 and c4 come from dealers and stand 15 percent higher without the step
    assert shown(ledger.figures["V03.without_level.c3.time"]) == "31697.22"
    without = ledger.figures["V03.without_level.mean"]
    mean = ledger.figures["V03.mean"]
    assert shown(found["effect"]) == f"{mean.number - without.number:f}"
    assert mean.number < without.number


def test_without_a_level_step_there_is_no_effect_to_show() -> None:
    part = next(case for case in all_cases() if case.id == "V05").parts[0]
    ledger = RecordingLedger("V05")
    valuation = valuation_of(part, ledger)
    assert effect_of_level(inputs_of(part), ledger, valuation) == {}
    assert leave_one_out(inputs_of(part), ledger, replace(valuation, route=Route.RELATIVE)) == {}
