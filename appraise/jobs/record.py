"""The record a final report leaves beside it.

JSON, documented in docs/record.md. It holds ids, values, days, markets and hashes; no names, no places. Its digest is
taken over its content, so that an edited record is noticed; it is no signature.
"""

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from appraise.files.hashes import sha256_of
from appraise.jobs.examine import Examined
from appraise.jobs.history import KIND, digest_of
from appraise.model.figure import Figure
from appraise.model.missing import given
from appraise.records.items import Item
from appraise.records.job import FORMAT


def record_of(examined: Examined, report: Path) -> bytes:
    """Return the record of a final report that was written to `report`."""
    a, read = examined.job.assignment, examined.read
    content: dict[str, Any] = {
        "kind": KIND,
        "format": FORMAT,
        "workbook": _file(examined.path),
        "library": None if read.library is None else _file(read.library),
        "report": _file(report),
        "use": _text(a.use),
        "issue": _text(a.issue_number),
        "effective_date": _text(a.effective_date),
        "report_date": _text(a.report_date),
        "currency": _text(a.currency),
        "items": [_item(examined, item) for item in examined.job.items if given(item.id)],
    }
    content["digest"] = digest_of(content)
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode()


def _item(examined: Examined, item: Item) -> dict[str, Any]:
    result = examined.results[str(item.id)]
    window = result.window.outer.edtf() if result.window is not None and result.window.outer else None
    return {
        "id": str(item.id),
        "number": _text(item.number),
        "family": _text(item.family),
        "made": window,
        "inspected": _text(item.inspected_on),
        "values": list(_values(examined, item)),
    }


def _values(examined: Examined, item: Item) -> Iterator[dict[str, Any]]:
    job = examined.job
    markets = {one.value_type: one.market for one in job.value_terms}
    lines = {(one.item, one.value_type): one for one in job.treatments}
    for one in examined.results[str(item.id)].valuations:
        if not (isinstance(one.value, Figure) and isinstance(one.rounded, Figure)):
            continue
        line = lines.get((item.id, one.value_type))
        market = line.market if line is not None and given(line.market) else markets.get(one.value_type)
        yield {
            "value_type": str(one.value_type),
            "value": f"{one.value.number:f}",
            "rounded": f"{one.rounded.number:f}",
            "market": _text(market),
            "treatment": None if line is None else _text(line.treatment),
        }


def _file(path: Path) -> dict[str, str]:
    return {"name": path.name, "sha256": sha256_of(path)}


def _text(value: object) -> str | None:
    if value is None or not given(value):
        return None
    if isinstance(value, date):
        return value.isoformat()
    return f"{value:f}" if isinstance(value, Decimal) else str(value)
