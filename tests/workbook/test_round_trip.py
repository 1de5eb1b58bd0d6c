"""What is written is read again as it was."""

import shutil
import subprocess
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.checks import sound_job
from support.workbooks import codes, workbook

from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN
from appraise.records.declare import Column, ColumnKind
from appraise.records.job import SHEETS, Job
from appraise.records.vocabulary import Family, Use
from appraise.workbook.reading.clean import clean, clean_word
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.write import write_blank, write_job


def without_rows(job: Job) -> dict[str, Any]:
    """Return the records of a job by field, with every row number 0."""
    content = {}
    for name, sheet in SHEETS.items():
        records = getattr(job, name)
        content[name] = replace(records, row=0) if sheet.form else [replace(record, row=0) for record in records]
    return content


def test_a_sound_job_comes_back_whole_and_without_a_fault(tmp_path: Path) -> None:
    result = read_job(workbook(tmp_path))
    assert codes(result) == []
    assert without_rows(result.job) == without_rows(sound_job())


@pytest.mark.office
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is missing")
def test_a_job_saved_by_libreoffice_is_the_same_job(tmp_path: Path) -> None:
    sources = [workbook(tmp_path), write_blank(tmp_path / "blank.xlsx", Use.INSURANCE, families=[Family.BANJO])]
    profile = f"-env:UserInstallation=file://{tmp_path}/profile"
    convert = ["soffice", profile, "--headless", "--convert-to", "xlsx", "--outdir", tmp_path / "saved", *sources]
    subprocess.run(convert, check=True, capture_output=True, timeout=300)
    for source in sources:
        before, after = read_job(source), read_job(tmp_path / "saved" / source.name)
        assert after.job == before.job
        assert after.findings == before.findings


def values_of(column: Column) -> st.SearchStrategy[Any]:
    """Return values a cell of the column can hold, as the reader gives them."""
    if column.choices is not None:
        return st.sampled_from(list(column.choices))
    words = st.text(max_size=12).map(clean).filter(lambda text: text.casefold() not in KEPT_WORDS)
    sign = -1 if column.signed else 0
    by_kind: dict[ColumnKind, st.SearchStrategy[Any]] = {
        ColumnKind.AMOUNT: st.decimals(sign * 10**12, 10**12, places=2),
        ColumnKind.NUMBER: st.decimals(sign * 10**6, 10**6, places=6),
        ColumnKind.PERCENT: st.decimals(sign * 500, 500, places=3),
        ColumnKind.WHOLE: st.integers(sign * 10**9, 10**9).map(Decimal),
        ColumnKind.PERCENTS: st.lists(st.integers(0, 100).map(str), min_size=1).map("; ".join),
        ColumnKind.DAY: st.dates(date(1650, 1, 1), date(2100, 1, 1)),
        ColumnKind.MONTH: st.dates(date(1650, 1, 1), date(2100, 1, 1)).map(lambda day: f"{day:%Y-%m}"),
        ColumnKind.YES_NO: st.booleans(),
        ColumnKind.CURRENCY: st.sampled_from(("USD", "EUR", "GBP", "JPY")),
        **dict.fromkeys(
            (ColumnKind.IDENTITY, ColumnKind.REFERENCE), words.map(clean_word).filter(lambda text: ";" not in text)
        ),
        ColumnKind.FILE: words.map(lambda text: text.replace("\\", "/")),
    }
    return by_kind.get(column.kind, words)


KEPT_WORDS = ("unknown", "not inspected", "example, replace", "leave out")
TABLES = sorted(name for name, sheet in SHEETS.items() if not sheet.form)


@st.composite
def jobs(draw: st.DrawFn) -> tuple[str, list[dict[str, Any]]]:
    """Return the field of a table sheet and rows for it, blanks and the two words among them."""
    name = draw(st.sampled_from(TABLES))
    cells = {
        column.key: st.one_of(values_of(column), st.just(BLANK), *_words(column)) for column in SHEETS[name].columns
    }
    row = st.fixed_dictionaries(cells).map(lambda values: {key: value for key, value in values.items() if value != ""})
    rows = draw(st.lists(row.filter(lambda values: set(values.values()) != {BLANK}), min_size=1, max_size=2))
    return name, rows


def _words(column: Column) -> list[st.SearchStrategy[Any]]:
    """Return the two words that say why there is no value: no id is one, and a list may have the word itself."""
    own = column.choices is not None and "unknown" in list(column.choices)
    if own or column.kind in (ColumnKind.IDENTITY, ColumnKind.REFERENCE, ColumnKind.FILE):
        return []
    return [st.sampled_from((UNKNOWN, NOT_INSPECTED))]


@settings(
    deadline=None, max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
@given(jobs())
def test_whatever_is_written_comes_back(tmp_path: Path, content: tuple[str, list[dict[str, Any]]]) -> None:
    name, rows = content
    path = write_job(tmp_path / "any.xlsx", {"assignment": {"workbook_locale": "en_US"}, name: rows})
    read = getattr(read_job(path).job, name)
    sheet = SHEETS[name]
    expected = [{column.key: row.get(column.key, BLANK) for column in sheet.columns} for row in rows]
    expected = [row for row in expected if set(row.values()) != {BLANK}]
    assert [{column.key: getattr(record, column.key) for column in sheet.columns} for record in read] == expected
