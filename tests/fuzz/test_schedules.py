"""Random schedules through the real writer and reader, and everything that is computed from them.

Whatever stands in the cells there is no trace, and each finding's place exists. Of well-formed schedules what is
written comes back, totals are the sums of the rounded lines, and the order of rows changes no figure.
"""

import random
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.random_jobs import TABLES, Rows, any_schedules, sound_schedules, total_of
from support.workbooks import workbook

from appraise.findings.entries import action, message
from appraise.jobs.check import check_job
from appraise.jobs.examine import Examined, examine
from appraise.jobs.report_inputs import job_totals
from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.records.job import SHEETS
from appraise.workbook.cells import Book
from appraise.workbook.reading.read import read_job
from appraise.workbook.rows import rows_of

TODAY = date(2025, 2, 10)
FEW = settings(
    deadline=None, max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
MANY = settings(FEW, max_examples=60)
_NUMBER = iter(range(10**9))


def written(folder: Path, rows: Rows) -> Path:
    return workbook(folder, f"job{next(_NUMBER)}.xlsx", rows=rows)


def examined(folder: Path, rows: Rows) -> Examined:
    return examine(written(folder, rows), today=TODAY)


def figures(job: Examined) -> dict[str, Any]:
    """Return every figure and window of a job, by item id."""
    found: dict[str, Any] = {}
    for computed, ledger in map(job.computation.recorded, job.job.items):
        found[str(computed.item.id)] = (
            computed.window.outer.edtf(),
            {one.id: (one.value, one.operation) for one in ledger.figures.values()},
            [(one.value_type, getattr(one.rounded, "number", None)) for one in computed.valuations],
        )
    return found


@MANY
@given(any_schedules())
def test_whatever_is_typed_there_is_no_trace_and_each_finding_has_its_place(tmp_path: Path, rows: Rows) -> None:
    path = written(tmp_path, rows)
    checked = check_job(path, today=TODAY)
    assert list(checked.lines())
    assert checked.as_json()
    with Book(path) as book:
        tabs = {one.name: one for one in book.sheets}
        last = {name: max((row.number for row in book.rows(part)), default=0) for name, part in tabs.items()}
    for one in checked.examined.judged:
        place = one.finding.place
        assert message(one.finding) and action(one.finding)
        assert checked.examined.where(place)
        if not place.sheet or place.sheet not in tabs:
            continue
        assert place.row <= last[place.sheet]
        if place.column and place.sheet in {sheet.name for sheet in SHEETS.values()}:
            sheet = next(sheet for sheet in SHEETS.values() if sheet.name == place.sheet)
            assert place.column in {column.key for column in sheet.columns}
    copy, _ = checked.write_annotated(path.with_suffix(".copy.xlsx"), overwrite=False)
    assert read_job(copy).job == checked.examined.job


@FEW
@given(sound_schedules())
def test_what_is_written_comes_back(tmp_path: Path, rows: Rows) -> None:
    job = read_job(written(tmp_path, rows)).job
    again = read_job(written(tmp_path, rows_of(job))).job
    assert again == job
    for name in TABLES:
        assert len(getattr(job, name)) == len(rows[name])


@FEW
@given(sound_schedules())
def test_totals_are_the_sums_of_the_rounded_lines(tmp_path: Path, rows: Rows) -> None:
    job = examined(tmp_path, rows)
    for total in job_totals(RecordingLedger("schedule"), job, job.job):
        rounded = [
            one.rounded.number
            for result in job.results.values()
            for one in result.valuations
            if one.value_type is total.value_type and isinstance(one.rounded, Figure)
        ]
        lines: list[Decimal] = [one for one in rounded if isinstance(one, Decimal)]
        assert lines
        assert isinstance(total.total, Figure)
        assert total.total.number == total_of(lines)


@FEW
@given(sound_schedules(), st.integers(0, 2**32))
def test_the_order_of_rows_changes_no_figure(tmp_path: Path, rows: Rows, seed: int) -> None:
    mixed = {**rows}
    order = random.Random(seed)
    for name in TABLES:
        mixed[name] = order.sample(rows[name], len(rows[name]))
    before, after = examined(tmp_path, rows), examined(tmp_path, mixed)
    assert figures(before) == figures(after)
    assert sorted(one.finding.code for one in before.judged) == sorted(one.finding.code for one in after.judged)


def test_the_schedules_drawn_have_figures(tmp_path: Path) -> None:
    """The laws above would hold for nothing at all: the schedules they are about are worked out to the end."""
    found = figures(examine(workbook(tmp_path, "plain.xlsx"), today=TODAY))["G01"]
    assert len(found[1]) > 20
    assert found[2][0][1] is not None
