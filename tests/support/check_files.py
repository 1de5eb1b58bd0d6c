"""Check cases as data: a sound job, what is changed in it, what must be found. The format is docs/check_cases.md."""

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from PIL import Image
from support.checks import claim_job, division_job, donation_job, expert_job, gift_job, insurance_job, sound_job
from support.checks import yearly_job as last_years_job
from support.workbooks import workbook

from appraise.jobs.examine import Examined, examine
from appraise.records.job import SHEETS
from appraise.workbook.rows import rows_of

OWN_CASES = Path(__file__).parent.parent / "cases" / "checks"
TODAY = date(2026, 1, 5)
BASES = {
    "estate": sound_job,
    "insurance": insurance_job,
    "gift": gift_job,
    "donation": donation_job,
    "insurance claim": claim_job,
    "division of property": division_job,
    "expert report": expert_job,
    "yearly reappraisal": last_years_job,
}
CASE_KEYS = {"id", "title", "source", "base", "change", "add", "remove", "expected", "silent", "alone"}


@dataclass(frozen=True, slots=True)
class CheckCase:
    """One case: id, the base job's use, the case's data."""

    id: str
    base: str
    data: Mapping[str, Any]


def all_check_cases() -> list[CheckCase]:
    """Return the project's cases and those of the folder APPRAISE_EXTRA_CASES names, by file name."""
    folders = [OWN_CASES]
    if extra := os.environ.get("APPRAISE_EXTRA_CASES"):
        folders.append(Path(extra) / "checks")
    return [read_case(file) for folder in folders if folder.is_dir() for file in sorted(folder.glob("*.toml"))]


def read_case(file: Path) -> CheckCase:
    """Return the case in a file; an unknown key, sheet or base is an error of the case."""
    data = tomllib.loads(file.read_text("utf-8"), parse_float=Decimal)
    if unknown := set(data) - CASE_KEYS:
        raise KeyError(f"{file.name}: no key {', '.join(sorted(unknown))} in a check case")
    base = data.get("base", "estate")
    if base not in BASES:
        raise KeyError(f"{file.name}: no base {base}; known: {', '.join(BASES)}")
    return CheckCase(data.get("id", file.stem), base, data)


def base_of(case: CheckCase, folder: Path) -> Examined:
    """Return the unchanged job of a case, examined: what it raises is not the case's."""
    return _examined(rows_of(BASES[case.base]()), folder)


def examined(case: CheckCase, folder: Path) -> Examined:
    """Return the job of a case with its changes made, written to a workbook, read and examined."""
    rows = rows_of(BASES[case.base]())
    for name, changes in case.data.get("change", {}).items():
        for change in [changes] if isinstance(changes, dict) else changes:
            _change(rows, name, dict(change))
    for name, ids in case.data.get("remove", {}).items():
        rows[name] = [row for row in rows[name] if row.get("id") not in ids]
    for name, added in case.data.get("add", {}).items():
        rows[name] = [*rows.get(name, []), *added]
    return _examined(rows, folder)


def _change(rows: dict[str, Any], name: str, change: dict[str, Any]) -> None:
    if SHEETS[name].form:
        target = rows[name]
    else:
        found = [row for row in rows[name] if row.get("id") == change.get("id")] if "id" in change else []
        target = found[0] if found else rows[name][change.pop("row") - 1]
        change.pop("id", None)
    for key, value in change.items():
        SHEETS[name].column(key)
        target[key] = None if value == "" else Decimal(value) if type(value) is int else value


def _examined(rows: dict[str, Any], folder: Path) -> Examined:
    folder.mkdir(exist_ok=True)
    path = workbook(folder, rows=rows)
    for number, photo in enumerate(rows.get("photos", [])):
        file = folder / str(photo["file"])
        file.parent.mkdir(exist_ok=True)
        Image.new("RGB", (20, 30), (11 * number % 256, 80, 40)).save(file)
    return examine(path, today=TODAY)
