"""The finished demonstration jobs: no open stop or warning, every answer holds, values as worked by hand."""

from datetime import date
from decimal import Decimal

import pytest
from support.demo import REPOSITORY, job_folders, workbook_of

from appraise.findings.entries import Severity
from appraise.jobs.examine import Examined, examine
from appraise.model.figure import Figure
from appraise.records.vocabulary import ValueType

FINISHED = ("estate", "insurance", "claim", "donation")
TODAY = date(2025, 5, 5)


@pytest.fixture(scope="module")
def examined() -> dict[str, Examined]:
    return {folder.name: examine(workbook_of(folder), today=TODAY) for folder in job_folders()}


@pytest.mark.parametrize("name", FINISHED)
def test_nothing_grave_is_open(examined: dict[str, Examined], name: str) -> None:
    open_findings = [one.finding for one in examined[name].judged if one.open and one.severity is not Severity.NOTE]
    assert open_findings == []


@pytest.mark.parametrize("name", FINISHED)
def test_every_answer_holds(examined: dict[str, Examined], name: str) -> None:
    used = [one.answer for one in examined[name].judged if one.answer is not None]
    assert len(used) == len(examined[name].job.answers)


#: Value before rounding. G01, I08, W01, Y03, Y09 are the worked cases V03, V05, V10, V12, whose figures
#: were worked by hand with the rules of the project.
WORKED = {
    ("estate", "G01", ValueType.FAIR_MARKET): Decimal("22128.58"),
    ("insurance", "I08", ValueType.RETAIL_REPLACEMENT): Decimal("124242.16"),
    ("claim", "W01", ValueType.FAIR_MARKET): Decimal("31462.80"),
    ("claim", "W01", ValueType.DIMINUTION): Decimal("8992.87"),
    ("yearly", "Y03", ValueType.RETAIL_REPLACEMENT): Decimal("12847.63"),
    ("yearly", "Y09", ValueType.RETAIL_REPLACEMENT): Decimal("25300.00"),
}


@pytest.mark.parametrize("wanted", WORKED, ids=lambda one: f"{one[0]}-{one[1]}-{one[2].name}")
def test_items_of_the_worked_cases_come_out_to_the_cent(
    examined: dict[str, Examined], wanted: tuple[str, str, ValueType]
) -> None:
    job, item, value_type = wanted
    (valuation,) = [
        one for result in (examined[job].results[item],) for one in result.valuations if one.value_type is value_type
    ]
    assert isinstance(valuation.value, Figure)
    assert valuation.value.number == WORKED[wanted]


def test_the_demonstrations_stand_in_the_repository() -> None:
    assert all(folder.is_relative_to(REPOSITORY / "workbooks_demo") for folder in job_folders())
