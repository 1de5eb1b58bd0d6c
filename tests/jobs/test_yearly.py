"""The yearly demonstration job is worked case V12: every line comes out as it does there, to the cent."""

from datetime import date
from decimal import Decimal
from pathlib import Path

from appraise.jobs.examine import examine
from appraise.model.figure import Figure, NoFigure
from appraise.records.vocabulary import Treatment
from appraise.schedule.totals import bridge_closes

DEMO = Path(__file__).parents[2] / "workbooks_demo" / "yearly" / "yearly.xlsx"
TODAY = date(2025, 7, 14)

#: Item, new value before rounding, after rounding, change, flags: the change table of case V12.
CHANGE_TABLE = """
Y01 | 42787.62  | 42800  | 1500 | none
Y02 | 37129.53  | 37100  | -700 | none
Y03 | 12847.63  | 12800  | 300  | none
Y04 | 8785.48   | 8800   | -150 | fresh comparables, index carried
Y05 | 136762.13 | 137000 | 7000 | none
Y06 | 3317.45   | 3300   | 50   | re-inspect
Y07 | 5525.00   | 5550   | 0    | held
Y08 | 1010.02   | 1000   | 10   | none
Y09 | 25300.00  | 25300  | 600  | none
Y11 | 16451.24  | 16500  | 500  | none
Y12 | 7436.00   | 7450   |      | none
"""


def _rows() -> dict[str, list[str]]:
    lines = [[cell.strip() for cell in line.split("|")] for line in CHANGE_TABLE.strip().splitlines()]
    return {cells[0]: cells[1:] for cells in lines}


def test_the_demonstration_has_no_open_stop_and_its_totals_are_those_of_the_case() -> None:
    examined = examine(DEMO, today=TODAY)
    assert examined.open_stops == 0
    (schedule,) = examined.yearly
    expected = {
        "prior_total": "283890",
        "removed_total": "2850",
        "added_total": "7450",
        "continuing_prior": "281040",
        "continuing_new": "290150",
        "continuing_change": "9110",
        "continuing_change_pct": "3.2",
        "new_total": "297600",
        "total_change": "13710",
        "total_change_pct": "4.8",
        "new_total_unrounded": "297352.10",
        "rounding_difference": "247.90",
    }
    found = {name: schedule.totals[name] for name in expected}
    assert {name: one.number for name, one in found.items() if isinstance(one, Figure)} == {
        name: Decimal(text) for name, text in expected.items()
    }
    assert bridge_closes(schedule.totals) is True


def test_each_item_has_the_value_of_its_line() -> None:
    examined = examine(DEMO, today=TODAY)
    expected = _rows()
    for item, result in examined.results.items():
        (valuation,) = result.valuations
        if item == "Y10":
            assert isinstance(valuation.value, NoFigure)
            assert [one.code for one in valuation.value.because] == ["YRL-40"]
            continue
        assert isinstance(valuation.value, Figure) and isinstance(valuation.rounded, Figure)
        assert [valuation.value.number, valuation.rounded.number] == [Decimal(text) for text in expected[item][:2]]
    lines = {str(one.line.item): one for one in examined.yearly[0].lines}
    assert list(lines) == [*list(expected)[:9], "Y10", "Y11", "Y12"]
    for item, (_, _, change, flags) in expected.items():
        assert ", ".join(lines[item].flags) == ("" if flags == "none" else flags)
        moved = lines[item].change
        assert (moved.number if isinstance(moved, Figure) else None) == (Decimal(change) if change else None)
    assert lines["Y10"].treatment is Treatment.REMOVED


def test_the_figures_of_a_line_stand_with_its_item_and_are_the_same_in_both_ledgers() -> None:
    computation = examine(DEMO, today=TODAY).computation
    for plain in computation.computed(figures_later=False):
        kept, ledger = computation.recorded(plain.item)
        assert [one.value for one in plain.valuations] == [one.value for one in kept.valuations]
        (line,) = kept.lines
        own = [one for one in ledger.figures if one.startswith(f"{kept.item.id}.rrv.year.")]
        assert own
        assert all(one.id in ledger.figures for one in line.figures.values() if isinstance(one, Figure))
