"""The record a final report leaves, and what is made of the records found."""

import json
from datetime import date
from decimal import Decimal
from pathlib import Path
from shutil import copy, copytree
from typing import Any

import pytest
from support.demo import REPOSITORY

from appraise.files.hashes import sha256_of
from appraise.jobs.examine import Examined, examine
from appraise.jobs.history import KIND, digest_of, found_histories, record_files, record_folders
from appraise.jobs.record import record_of
from appraise.jobs.report import write_report
from appraise.jobs.revalue import revalue_job
from appraise.schedule.history import Histories, PastSchedule, PastValue, before

DEMO = REPOSITORY / "workbooks_demo" / "yearly"
TODAY = date(2025, 7, 14)
RETAIL = "retail replacement value"


def examined(folder: Path) -> Examined:
    return examine(folder / "yearly.xlsx", today=TODAY)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A copy of the yearly demonstration without its photographs, with its records."""
    copy(DEMO / "yearly.xlsx", tmp_path)
    copytree(DEMO / "records", tmp_path / "records")
    return tmp_path


def codes(folder: Path) -> list[str]:
    return [one.finding.code for one in examined(folder).judged if "YRL-45" <= one.finding.code <= "YRL-48"]


def change(file: Path, **values: Any) -> None:
    content = json.loads(file.read_text("utf-8")) | values
    file.write_text(json.dumps(content), "utf-8")


def test_the_record_says_what_was_reported(tmp_path: Path) -> None:
    report = tmp_path / "report.docx"
    report.write_bytes(b"a report")
    found = examined(DEMO)
    raw = record_of(found, report)
    content = json.loads(raw)
    assert (content["kind"], content["format"], content["effective_date"]) == (KIND, 1, "2025-06-30")
    assert content["workbook"] == {"name": "yearly.xlsx", "sha256": sha256_of(DEMO / "yearly.xlsx")}
    assert content["report"]["sha256"] == sha256_of(report)
    assert content["digest"] == digest_of(content)
    items = {one["id"]: one for one in content["items"]}
    assert items["Y01"]["values"] == [
        {
            "value_type": RETAIL,
            "value": "42787.62",
            "rounded": "42800",
            "market": "dealer retail",
            "treatment": "index",
        }
    ]
    assert items["Y10"]["values"] == [], "the removed line has no value this year"
    assert raw == record_of(found, report), "same job, same bytes"
    said = raw.decode()
    assert "Leontyne" not in said and "Strand" not in said, "no names, no places"


def test_a_final_report_leaves_a_record_and_a_draft_leaves_none(job: Path) -> None:
    draft = write_report(job / "yearly.xlsx", job / "draft", draft=True, overwrite=False, today=TODAY)
    assert "Record" not in {one.what for one in draft.written}
    copytree(DEMO / "photos", job / "photos")
    copytree(DEMO / "pages", job / "pages")
    done = write_report(job / "yearly.xlsx", job / "out", draft=False, overwrite=False, today=TODAY)
    (record,) = [one for one in done.written if one.what == "Record"]
    content = json.loads(record.path.read_bytes())
    assert content["report"]["sha256"] == sha256_of(done.written[0].path)
    revalued = revalue_job(job / "yearly.xlsx", date(2026, 6, 30), job / "out", overwrite=False, today=TODAY)
    assert revalued.recorded
    kept = sorted(one.name for one in (job / "out" / "records").iterdir())
    assert kept == [*(f"marsk-{year}-record.json" for year in (2022, 2023, 2024)), "yearly-record.json"]
    again = examine(revalued.written, today=TODAY)
    assert not {one.finding.code for one in again.judged} & {"YRL-45", "YRL-46", "YRL-47", "YRL-48"}


def test_what_is_written_can_be_read(tmp_path: Path) -> None:
    report = tmp_path / "report.docx"
    report.write_bytes(b"a report")
    (tmp_path / "yearly-record.json").write_bytes(record_of(examined(DEMO), report))
    (schedule,) = found_histories(record_files([tmp_path]), ["Y01"]).schedules
    assert (schedule.day, schedule.currency, schedule.edited) == (date(2025, 6, 30), "USD", False)
    assert schedule.total(RETAIL) == Decimal(297600)
    assert schedule.total(RETAIL, "flat-top guitar") == Decimal(42800)
    assert schedule.total("fair market value") is None


def test_the_demonstration_meets_its_records(job: Path) -> None:
    assert codes(job) == []
    histories = examined(job).histories
    assert [one.day.year for one in histories.schedules] == [2022, 2023, 2024]
    assert histories.schedules[-1].total(RETAIL) == Decimal(283890)


def test_a_missing_record_is_noticed(job: Path) -> None:
    (job / "records" / "marsk-2024-record.json").unlink()
    assert codes(job) == ["YRL-45"]


def test_an_edited_record_is_noticed_and_not_used(job: Path) -> None:
    file = job / "records" / "marsk-2023-record.json"
    file.write_text(file.read_text("utf-8").replace('"rounded": "990"', '"rounded": "995"'), "utf-8")
    assert codes(job) == ["YRL-46"]
    past = before(examined(job).histories, date(2025, 6, 30), "USD")
    assert [one.day.year for one in past] == [2022, 2024]


def test_a_record_of_other_values_is_noticed(job: Path) -> None:
    file = job / "records" / "marsk-2024-record.json"
    content = json.loads(file.read_text("utf-8"))
    content["items"][0]["values"][0]["value"] = "41317.40"
    content["digest"] = digest_of(content)
    file.write_text(json.dumps(content), "utf-8")
    assert codes(job) == ["YRL-47"]


@pytest.mark.parametrize(
    "values",
    [{"format": 2}, {"kind": "a letter"}, {"items": 7}, {"effective_date": "last summer"}, {"format": "one"}],
)
def test_a_record_that_cannot_be_read_is_named(job: Path, values: dict[str, Any]) -> None:
    change(job / "records" / "marsk-2022-record.json", **values)
    assert codes(job) == ["YRL-48"]


def test_damaged_and_foreign_files_and_other_schedules(tmp_path: Path) -> None:
    (tmp_path / "a-record.json").write_bytes(b"\xff\xfe not json")
    (tmp_path / "b-record.json").write_text("[]", "utf-8")
    copy(DEMO / "records" / "marsk-2024-record.json", tmp_path)
    files = record_files([tmp_path, tmp_path / "not there"])
    found = found_histories(files, ["Z99"])
    assert found.schedules == (), "no item in common"
    assert set(found.unreadable) == {"a-record.json", "b-record.json"}
    twice = found_histories([*files, *files], ["Y01"])
    assert len(twice.schedules) == 1


def test_the_folders_looked_into(tmp_path: Path) -> None:
    assert record_folders(tmp_path / "marsk.xlsx") == (tmp_path, tmp_path / "records", tmp_path / "marsk")


def test_only_intact_earlier_years_of_the_currency_stand_beside_this_one_four_at_most() -> None:
    value = (PastValue("A", RETAIL, "banjo", Decimal(1), Decimal(1)),)
    years = [PastSchedule(f"{year}", date(year, 6, 30), "USD", value) for year in range(2018, 2026)]
    others = [
        PastSchedule("e", date(2023, 1, 1), "EUR", value),
        PastSchedule("x", date(2023, 1, 1), "USD", value, edited=True),
    ]
    found = before(Histories((*years, *others)), date(2025, 6, 30), "USD")
    assert [one.day.year for one in found] == [2021, 2022, 2023, 2024]
