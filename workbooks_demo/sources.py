"""Reads the text sources of a demonstration job into the rows of its workbook.

A job is a folder of TOML files, read in the order of their names and put together sheet by sheet. The keys of a file
are the names of the sheets as `appraise.records.job.SHEETS` has them; the keys of a row are the columns' keys.
`job.toml` may name further folders under `include` (the appraiser's own tables, shared by several jobs), and under
`cites` the ids of the works of the shared bibliography that the job rests on (all of them if it says nothing).

In a file that holds exactly one item, rows of other sheets that leave out `item` are about that item.
"""

import tomllib
from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from appraise.model.missing import NOT_INSPECTED, UNKNOWN
from appraise.records.declare import Column, ColumnKind, Sheet, filled
from appraise.records.job import SHEETS, Job

HERE = Path(__file__).parent

#: Rows by the key of their sheet; a cell that was not typed is left out of its row.
Rows = dict[str, list[dict[str, Any]]]

#: Words that say why a value is missing, as the workbook's reader takes them.
_MISSING = {"unknown": UNKNOWN, "not inspected": NOT_INSPECTED}

_NUMBERS = {ColumnKind.AMOUNT, ColumnKind.NUMBER, ColumnKind.WHOLE, ColumnKind.PERCENT}


class SourceError(Exception):
    """A source says something its sheet does not know."""


def job_folders() -> tuple[Path, ...]:
    """Return the folders of all jobs, in the order of their names: those with a `job.toml`."""
    return tuple(sorted(file.parent for file in HERE.glob("*/job.toml")))


def read_rows(folder: Path) -> Rows:
    """Return the rows of a job by sheet, every cell as the type its column is read as."""
    rows: Rows = {}
    cited: list[str] | None = None
    for file in _files(folder):
        typed = tomllib.loads(file.read_text("utf-8"), parse_float=Decimal)
        typed.pop("include", None)
        cited = typed.pop("cites", cited)
        for key, lines in typed.items():
            if key not in SHEETS:
                raise SourceError(f"{file.name}: there is no sheet {key}")
            for line in [lines] if isinstance(lines, dict) else lines:
                rows.setdefault(key, []).append(_row(SHEETS[key], _with_item(line, key, typed), file.name))
    if cited is not None:
        known = {line["id"]: line for line in rows["sources"]}
        rows["sources"] = [known[one] for one in cited]
    return rows


def read_job(folder: Path) -> Job:
    """Return the job as records; `row` is the line's place in its sheet's sources, counted from 1."""
    sheets: dict[str, Any] = {}
    for key, lines in read_rows(folder).items():
        sheet = SHEETS[key]
        if sheet.form:
            (line,) = lines
            sheets[key] = filled(sheet.record, **line)
        else:
            sheets[key] = tuple(filled(sheet.record, row=number, **line) for number, line in enumerate(lines, 1))
    return Job(**sheets)


def _files(folder: Path) -> Iterator[Path]:
    include = tomllib.loads((folder / "job.toml").read_text("utf-8")).get("include", [])
    yield folder / "job.toml"
    for other in include:
        yield from sorted((folder / other).resolve().glob("*.toml"))
    yield from (file for file in sorted(folder.glob("*.toml")) if file.name != "job.toml")


def _with_item(line: Mapping[str, Any], key: str, typed: Mapping[str, Any]) -> dict[str, Any]:
    items = typed.get("items", [])
    knows_item = any(column.key == "item" for column in SHEETS[key].columns)
    if knows_item and "item" not in line and len(items) == 1:
        return {"item": items[0]["id"], **line}
    return dict(line)


def _row(sheet: Sheet, line: Mapping[str, Any], file: str) -> dict[str, Any]:
    known = {column.key: column for column in sheet.columns}
    unknown = sorted(set(line) - set(known))
    if unknown:
        raise SourceError(f"{file}: sheet {sheet.name} has no column {', '.join(unknown)}")
    return {key: _cell(known[key], line[key], f"{file}: {sheet.name}, {key}") for key in known if key in line}


def _cell(column: Column, value: Any, where: str) -> Any:
    if column.kind in _NUMBERS and isinstance(value, int | Decimal) and not isinstance(value, bool):
        return Decimal(value)
    if column.kind is ColumnKind.YES_NO and isinstance(value, bool):
        return value
    if column.kind is ColumnKind.DAY and type(value) is date:
        return value
    if column.choices is not None and isinstance(value, str):
        try:
            return column.choices(value)
        except ValueError:
            raise SourceError(f"{where}: {value!r} is not one of its words") from None
    if isinstance(value, str) and value in _MISSING:
        return _MISSING[value]
    if isinstance(value, str) and column.kind not in (*_NUMBERS, ColumnKind.YES_NO, ColumnKind.DAY):
        return value
    raise SourceError(f"{where}: {value!r} is not a {column.kind.value}")
