"""The schedule of insurance uses agrees with the report and with the figures of the demonstration."""

from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from support.demo import REPOSITORY
from support.workbooks import sound_rows, workbook

from appraise.jobs.examine import examine
from appraise.jobs.report import write_report
from appraise.jobs.report_inputs import report_inputs
from appraise.jobs.schedule import schedule_rows, total_rows
from appraise.model.figure import Figure

DEMO = REPOSITORY / "workbooks_demo"
TODAY = date(2025, 3, 1)
D = Decimal


def insured(folder: Path, **changes: Any) -> Any:
    path = workbook(folder, **{"assignment": {"use": "insurance"}, **changes})
    return examine(path, today=TODAY)


def sums(examined: Any) -> dict[str, tuple[str, Any]]:
    totals = report_inputs(examined, {}, draft=True).totals
    return {one.what: (one.which, one.amount) for one in total_rows(examined, totals)}


def test_every_row_of_the_demonstration_has_the_value_of_its_report() -> None:
    examined = examine(DEMO / "insurance" / "insurance.xlsx", today=TODAY)
    rows = list(schedule_rows(examined))
    assert [one.number for one in rows] == [str(one.number) for one in examined.job.items]
    by_type = examined.job.value_terms[0].value_type
    total = next(one for one in report_inputs(examined, {}, draft=False).totals if one.value_type is by_type)
    assert isinstance(total.total, Figure)
    assert sum((one.value for one in rows if one.value), D(0)) == total.total.number
    assert {one.value_type for one in rows} == {str(by_type)}
    assert rows[0].photo == "photos/I01-front.jpg"
    assert rows[0].value_date == examined.job.assignment.effective_date


def test_the_yearly_demonstration_shows_the_change_and_leaves_out_what_was_sold() -> None:
    examined = examine(DEMO / "yearly" / "yearly.xlsx", today=TODAY)
    rows = {one.number: one for one in schedule_rows(examined)}
    assert "10" not in rows
    prior = {str(one.item): one.prior_rounded for one in examined.job.treatments}
    for item in examined.job.items:
        row = rows.get(str(item.number))
        if row is not None and row.change is not None and row.value is not None:
            assert row.value - row.change == prior[str(item.id)]
    assert any(one.change for one in rows.values())


def kept_apart(**more: Any) -> list[dict[str, Any]]:
    """The rows of the sound job's two items, the first in a house, the second in a studio."""
    places = {"G01": "House", "A01": "Studio"}
    return [{**row, "location": places[row["id"]], **more} for row in sound_rows()["items"]]


@pytest.mark.parametrize(("typed", "main", "away"), [(None, "House", "A01"), ("Studio", "Studio", "G01")])
def test_what_is_kept_away_from_the_main_location(tmp_path: Path, typed: str | None, main: str, away: str) -> None:
    """Without a main location typed it is where most items are; of two alike the first."""
    examined = insured(tmp_path, items=kept_apart(), policy={"main_location": typed})
    (total,) = report_inputs(examined, {}, draft=True).totals
    value = examined.results[away].valuations[0].rounded
    assert total.exposure is not None
    assert (total.exposure.main, total.exposure.away) == (main, (away,))
    assert isinstance(value, Figure) and isinstance(total.exposure.value, Figure)
    assert total.exposure.value.number == value.number
    assert sums(examined)["Main location"][0] == main


def test_what_is_above_the_limit_for_one_item_the_pieces_of_a_set_being_one(tmp_path: Path) -> None:
    examined = insured(tmp_path, policy={"item_cap": D(1000)})
    (total,) = report_inputs(examined, {}, draft=True).totals
    assert total.exposure is not None
    assert [one.items for one in total.exposure.over] == [("G01",)]
    together = insured(tmp_path, items=kept_apart(set_id="S1"), policy={"item_cap": D(1000)})
    (total,) = report_inputs(together, {}, draft=True).totals
    assert total.exposure is not None
    (over,) = total.exposure.over
    assert (over.items, over.set_id) == (("G01", "A01"), "S1")
    assert isinstance(over.value, Figure) and isinstance(total.total, Figure)
    assert over.value.number == total.total.number


def test_without_a_limit_or_an_insurance_use_nothing_is_said(tmp_path: Path) -> None:
    assert "Above the limit for one item" not in sums(insured(tmp_path))
    estate = examine(workbook(tmp_path, policy={"item_cap": D(1000)}), today=TODAY)
    assert report_inputs(estate, {}, draft=True).totals[0].exposure is None


def test_the_file_lies_beside_the_report_of_an_insurance_use_only(tmp_path: Path) -> None:
    names = {}
    for use in ("insurance", "estate"):
        path = workbook(tmp_path, f"{use}.xlsx", assignment={"use": use})
        done = write_report(path, None, draft=True, overwrite=False, today=TODAY)
        names[use] = [one.path.name for one in done.written]
    assert "insurance-schedule.xlsx" in names["insurance"]
    assert "estate-schedule.xlsx" not in names["estate"]
    page = openpyxl.load_workbook(tmp_path / "insurance" / "insurance-schedule.xlsx")["Schedule"]
    heads = [cell.value for cell in page[1]]
    assert heads[:3] == ["No.", "Class", "Maker"]
    assert isinstance(page.cell(2, heads.index("Value date") + 1).value, datetime)
