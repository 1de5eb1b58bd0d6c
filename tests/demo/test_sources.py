"""The text sources of the demonstration jobs agree with the declarations of the sheets."""

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from support.demo import job_folders, read_job, read_rows

from appraise.model.missing import given
from appraise.records.declare import ColumnKind
from appraise.records.job import SHEETS
from appraise.records.vocabulary import PhotoKind, Route, Treatment, ValueType

FOLDERS = job_folders()
each_job = pytest.mark.parametrize("folder", FOLDERS, ids=[folder.name for folder in FOLDERS])

#: Types of value that rest on comparisons of their own.
COMPARED = {ValueType.FAIR_MARKET, ValueType.RETAIL_REPLACEMENT}

#: A photograph of one of these shows the mark by which the object is known.
MARKS = {PhotoKind.SERIAL, PhotoKind.LABEL, PhotoKind.HEAD_FRONT, PhotoKind.HEAD_BACK}


def cells(folder: Path) -> Iterator[tuple[str, dict[str, Any]]]:
    for key, rows in read_rows(folder).items():
        for row in rows:
            yield key, row


def test_the_jobs_the_project_promises_are_there() -> None:
    assert {"estate", "insurance"} <= {folder.name for folder in FOLDERS}


@each_job
def test_required_columns_are_filled(folder: Path) -> None:
    gaps = [
        (SHEETS[key].name, column.key, row)
        for key, row in cells(folder)
        for column in SHEETS[key].columns
        if column.required == "always" and column.key not in row
    ]
    # A reconciliation is owed wherever a value is concluded.
    assert [gap for gap in gaps if gap[:2] != ("Opinions", "reconciliation") or "not_valued" not in gap[2]] == []


@each_job
def test_references_resolve(folder: Path) -> None:
    rows = read_rows(folder)
    by_name = {sheet.name: key for key, sheet in SHEETS.items()}

    def known(sheet: str) -> set[str]:
        first = SHEETS[by_name[sheet]].columns[0].key
        return {row[first] for row in rows.get(by_name[sheet], [])}

    open_ends = [
        (SHEETS[key].name, column.key, row[column.key])
        for key, row in cells(folder)
        for column in SHEETS[key].columns
        if column.kind is ColumnKind.REFERENCE and column.key in row and row[column.key] not in known(column.refers_to)
    ]
    assert open_ends == []


@each_job
def test_ids_stand_once(folder: Path) -> None:
    rows = read_rows(folder)
    for key in ("items", "evidence", "sales", "comparisons", "people", "assumptions", "sources"):
        counted = Counter(row["id"] for row in rows.get(key, []))
        assert [one for one, times in counted.items() if times > 1] == [], key


@each_job
def test_every_opinion_has_its_comparisons(folder: Path) -> None:
    """Three weighted comparisons at least, none with more than half the weight.

    The short route and the lines carried on from last year need none.
    """
    job = read_job(folder)
    lines = {(line.item, line.value_type): line for line in job.opinions}
    carried = {line.item for line in job.treatments if line.treatment is not Treatment.FRESH}
    for item in job.items:
        for terms in job.value_terms:
            if item.id in carried:
                continue
            opinion = lines[(item.id, terms.value_type)]
            if given(opinion.not_valued) or opinion.route is Route.SHORT or terms.value_type not in COMPARED:
                continue
            weights = [
                line.weight for line in job.comparisons if (line.item, line.value_type) == (item.id, terms.value_type)
            ]
            used = [weight for weight in weights if weight]
            assert len(used) >= 3, (item.id, terms.value_type)
            assert 2 * max(used) <= sum(used), (item.id, terms.value_type)


@each_job
def test_every_item_has_its_photographs_history_parts_and_evidence(folder: Path) -> None:
    job = read_job(folder)
    for item in job.items:
        kinds = {photo.kind for photo in job.photos if photo.item == item.id}
        assert PhotoKind.FRONT in kinds, item.id
        assert kinds & MARKS, item.id
        for sheet in ("history", "parts", "evidence", "inspection"):
            assert any(line.item == item.id for line in getattr(job, sheet)), (item.id, sheet)


@each_job
def test_photograph_files_of_evidence_are_photographs_of_the_item(folder: Path) -> None:
    job = read_job(folder)
    shown = {(photo.item, photo.file) for photo in job.photos}
    assert [line.id for line in job.evidence if given(line.photo) and (line.item, line.photo) not in shown] == []


@each_job
def test_a_reason_stands_beside_every_adjustment(folder: Path) -> None:
    reasons = [
        ("discount", "discount_reason"),
        ("level", "level_reason"),
        ("deductions", "deductions_reason"),
        ("configuration", "configuration_reason"),
        ("provenance", "provenance_reason"),
        ("other", "other_reason"),
        ("lump", "lump_reason"),
    ]
    for line in read_job(folder).comparisons:
        for adjustment, reason in reasons:
            assert given(getattr(line, adjustment)) == given(getattr(line, reason)), (line.id, adjustment)
