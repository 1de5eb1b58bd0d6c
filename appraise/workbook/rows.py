"""From a job back to the rows a workbook is written from: next year's workbook begins with this year's."""

from collections.abc import Mapping
from typing import Any

from appraise.model.missing import BLANK, UNREADABLE
from appraise.records.declare import Sheet
from appraise.records.job import SHEETS, Job

#: Key of a row under which values of the user's own columns stand, by heading.
OWN = "own"


def rows_of(job: Job, own: Mapping[str, Mapping[int, Mapping[str, Any]]] | None = None) -> dict[str, Any]:
    """Return what `write_job` takes, by field of the job; blank and unreadable values are left out.

    `own` holds values of the user's own columns by sheet name, row and heading. Sheets without a row are left out.
    """
    rows: dict[str, Any] = {}
    for name, sheet in SHEETS.items():
        records = getattr(job, name)
        kept = {} if own is None else own.get(sheet.name, {})
        if sheet.form:
            row = _row(sheet, records, kept)
            if row:
                rows[name] = row
        elif records:
            rows[name] = [_row(sheet, record, kept) for record in records]
    return rows


def _row(sheet: Sheet, record: Any, kept: Mapping[int, Mapping[str, Any]]) -> dict[str, Any]:
    values = {column.key: getattr(record, column.key) for column in sheet.columns}
    row = {key: value for key, value in values.items() if value is not BLANK and value is not UNREADABLE}
    if record.row in kept:
        row[OWN] = dict(kept[record.row])
    return row
