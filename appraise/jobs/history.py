"""Finds and reads the records that earlier final reports left (`jobs.record` writes them; docs/record.md)."""

import json
from collections.abc import Iterable
from datetime import date
from decimal import Decimal, InvalidOperation
from hashlib import sha256
from pathlib import Path
from typing import Any

from appraise.records.job import FORMAT, Job
from appraise.schedule.history import Histories, PastSchedule, PastValue

#: What the file says it is.
KIND = "record of an appraisal report"
SUFFIX = "-record.json"
#: Folder beside a workbook in which records of earlier years are kept.
FOLDER = "records"
#: A record of ten thousand items is a few megabytes.
_LARGEST = 50_000_000


def record_name(stem: str) -> str:
    """Return the name of the record of a workbook.

    >>> record_name("marsk")
    'marsk-record.json'
    """
    return f"{stem}{SUFFIX}"


def digest_of(content: dict[str, Any]) -> str:
    """Return the SHA-256 of a record's content without its digest: keys sorted, no spaces, UTF-8."""
    plain = {key: value for key, value in content.items() if key != "digest"}
    return sha256(json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()).hexdigest()


def record_folders(workbook: Path, out: Path | None = None) -> tuple[Path, ...]:
    """Return the folders in which records of a workbook's earlier years are looked for."""
    beside = workbook.parent
    return tuple(dict.fromkeys((beside, beside / FOLDER, workbook.with_suffix(""), *([] if out is None else [out]))))


def record_files(folders: Iterable[Path]) -> tuple[Path, ...]:
    """Return the record files of some folders, by name in each; a folder that is not there has none."""
    return tuple(file for folder in folders for file in sorted(folder.glob(f"*{SUFFIX}")) if file.is_file())


def found_histories(files: Iterable[Path], items: Iterable[str]) -> Histories:
    """Return the records of a schedule, by day: those that have an item in common with it.

    items  ids of this year's schedule and of last year's
    """
    known = set(items)
    schedules: list[PastSchedule] = []
    unreadable: dict[str, str] = {}
    seen: set[bytes] = set()
    for file in files:
        try:
            raw = file.read_bytes() if file.stat().st_size <= _LARGEST else b""
            content = json.loads(raw)
        except (OSError, ValueError):
            unreadable[file.name] = "it is no record or is damaged"
            continue
        if raw in seen:
            continue
        seen.add(raw)
        found = _past(file.name, content)
        if isinstance(found, str):
            unreadable[file.name] = found
        elif found is not None and known & {one.item for one in found.values}:
            schedules.append(found)
    return Histories(tuple(sorted(schedules, key=lambda one: (one.day, one.file))), unreadable)


def _past(name: str, content: Any) -> PastSchedule | str | None:
    """Return a record, why it cannot be read, or None for one without a day or a value."""
    if not isinstance(content, dict) or content.get("kind") != KIND:
        return "it is no record or is damaged"
    number = content.get("format")
    if not isinstance(number, int) or number > FORMAT:
        return f"its format is {number}; this version reads formats up to {FORMAT}"
    try:
        day = date.fromisoformat(content["effective_date"]) if content["effective_date"] else None
        values = tuple(
            PastValue(
                str(item["id"]),
                str(value["value_type"]),
                str(item["family"] or ""),
                Decimal(value["value"]),
                Decimal(value["rounded"]),
            )
            for item in content["items"]
            for value in item["values"]
        )
        edited = content["digest"] != digest_of(content)
        currency = str(content["currency"] or "")
    except (KeyError, TypeError, ValueError, InvalidOperation):
        return "it is no record or is damaged"
    return PastSchedule(name, day, currency, values, edited) if day is not None and values else None


def histories_of(examined_path: Path, ids: Iterable[str]) -> Histories:
    """Return the records found beside a workbook, in its folder of records and in its folder of outputs."""
    return found_histories(record_files(record_folders(examined_path)), ids)


def ids_of_years(job: Job) -> frozenset[str]:
    """Return the ids of the items of this year's schedule and of last year's."""
    return frozenset(str(one) for one in (*(one.id for one in job.items), *(one.item for one in job.treatments)))
