"""Reads valuation cases and runs them. The format is described in docs/valuation_cases.md.

A method of the cases is a function from a part of a case to its figures as text, by label. Modules named
`support/valuing_*.py` are imported by themselves, so that a method is added by adding a file.
"""

import importlib
import json
import os
import pkgutil
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import support

from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.missing import BLANK, Missing
from appraise.model.months import Months, month_number
from appraise.records.declare import Column, ColumnKind, Sheet, filled
from appraise.records.job import SHEETS, Job

OWN_CASES = Path(__file__).parents[1] / "cases" / "valuation"
CASE_KEYS = {"id", "title", "source", "method", "expected", "sheets", "windows", "settings", "part"}
WORDS = {word.value: word for word in Missing if word is not BLANK}


@dataclass(frozen=True)
class Part:
    """One run of a method: its scope (what labels begin with), its sheets, windows of manufacture and settings."""

    scope: str
    method: str
    job: Job
    windows: Mapping[str, Months]
    settings: Mapping[str, Any]


@dataclass(frozen=True)
class Case:
    """A case: its parts and the figures expected of them together, by label, as text."""

    id: str
    title: str
    parts: tuple[Part, ...]
    expected: Mapping[str, str]
    file: Path

    def computed(self) -> dict[str, str]:
        """Return the figures of all parts by label."""
        found: dict[str, str] = {}
        for part in self.parts:
            found.update(method_named(part.method)(part))
        return found


Method = Callable[[Part], Mapping[str, str]]
_METHODS: dict[str, Method] = {}


def case_method(name: str) -> Callable[[Method], Method]:
    """Declare the function that runs the cases of a method."""

    def declare(method: Method) -> Method:
        if name in _METHODS:
            raise ValueError(f"method {name} is declared twice")
        _METHODS[name] = method
        return method

    return declare


def method_named(name: str) -> Method:
    """Return the declared method of that name."""
    _import_methods()
    if name not in _METHODS:
        raise KeyError(f"no method {name!r}; known: {', '.join(sorted(_METHODS))}")
    return _METHODS[name]


@cache
def _import_methods() -> None:
    for module in sorted(one.name for one in pkgutil.iter_modules(support.__path__)):
        if module.startswith("valuing_"):
            importlib.import_module(f"support.{module}")


def all_cases() -> list[Case]:
    """Return the project's cases and those of the folder named by APPRAISE_EXTRA_CASES, by file name."""
    folders = [OWN_CASES]
    if extra := os.environ.get("APPRAISE_EXTRA_CASES"):
        folders.append(Path(extra) / "valuation")
    files = [file for folder in folders if folder.is_dir() for file in sorted(folder.iterdir())]
    return [read_case(file) for file in files if file.suffix in (".toml", ".json")]


def read_case(file: Path) -> Case:
    """Return the case written in a TOML or JSON file."""
    text = file.read_text("utf-8")
    data = json.loads(text, parse_float=Decimal) if file.suffix == ".json" else tomllib.loads(text, parse_float=Decimal)
    unknown = set(data) - CASE_KEYS - set(SHEETS)
    if unknown:
        raise KeyError(f"{file.name}: no key {', '.join(sorted(unknown))} in a case")
    case_id = data.get("id", file.stem)
    shared = {"sheets": _sheets(data), "windows": data.get("windows", {}), "settings": data.get("settings", {})}
    parts = []
    for one in data.get("part", [{}]):
        own = {"sheets": _sheets(one), "windows": one.get("windows", {}), "settings": one.get("settings", {})}
        merged = {key: {**shared[key], **own[key]} for key in shared}
        parts.append(
            Part(
                scope=one.get("scope", case_id),
                method=one.get("method", data.get("method", "")),
                job=job_of(merged["sheets"]),
                windows={key: months_of(value) for key, value in merged["windows"].items()},
                settings=merged["settings"],
            )
        )
    return Case(case_id, data.get("title", ""), tuple(parts), expected_of(data["expected"]), file)


def _sheets(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the sheets of a case or part by their field of `Job`, however they are named."""
    fields = {sheet.name: key for key, sheet in SHEETS.items()}
    named = data.get("sheets", {})
    if missing := set(named) - set(fields):
        raise KeyError(f"no sheet {', '.join(sorted(missing))}; known: {', '.join(fields)}")
    return {fields[name]: drawn for name, drawn in named.items()} | {key: data[key] for key in SHEETS if key in data}


def expected_of(stated: str | Mapping[str, str]) -> dict[str, str]:
    """Return the expected figures: a table, or a block with one `label = figure` per line."""
    if not isinstance(stated, str):
        return dict(stated)
    lines = [line.split("=", 1) for line in stated.splitlines() if line.strip()]
    labels = [label.strip() for label, _ in lines]
    if len(set(labels)) != len(labels):
        raise ValueError("a label is expected twice")
    return {label.strip(): text.strip() for label, text in lines}


def job_of(sheets: Mapping[str, Any]) -> Job:
    """Return the job whose sheets are drawn as text or listed as rows, by field of `Job`."""
    fields: dict[str, Any] = {"assignment": filled(SHEETS["assignment"].record)}
    for key, drawn in sheets.items():
        rows = records_of(SHEETS[key], drawn)
        fields[key] = rows[0] if SHEETS[key].form else rows
    return Job(**fields)


def records_of(sheet: Sheet, drawn: Any) -> tuple[Any, ...]:
    """Return the records of a sheet drawn as text, or given as a list of tables (one table for a form)."""
    if isinstance(drawn, str):
        rows = _form_rows(drawn) if sheet.form else _table_rows(drawn)
    else:
        listed = [drawn] if sheet.form else drawn
        rows = [{key: _as_typed(value) for key, value in row.items()} for row in listed]
    known = {column.key for column in sheet.columns}
    if unknown := {key for row in rows for key in row} - known:
        raise KeyError(f"{sheet.name} has no column {', '.join(sorted(unknown))}; known: {', '.join(sorted(known))}")
    first = 0 if sheet.form else 2
    return tuple(
        filled(sheet.record, row=number, **{key: cell(sheet.column(key), text) for key, text in row.items()})
        for number, row in enumerate(rows, first)
    )


def _as_typed(value: object) -> str:
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)


def _cells(line: str) -> list[str]:
    return [text.strip() for text in line.split("|")]


def _table_rows(drawn: str) -> list[dict[str, str]]:
    lines = [_cells(line) for line in drawn.splitlines() if line.strip()]
    keys = lines[0]
    for line in lines[1:]:
        if len(line) != len(keys):
            raise ValueError(f"{len(line)} cells under {len(keys)} keys: {line}")
    return [dict(zip(keys, line, strict=True)) for line in lines[1:]]


def _form_rows(drawn: str) -> list[dict[str, str]]:
    return [{_cells(line)[0]: _cells(line)[1] for line in drawn.splitlines() if line.strip()}]


def cell(column: Column, text: str) -> Any:
    """Return the value of a cell typed as `text`; empty is blank, the words for missing values are these."""
    if text == "":
        return BLANK
    if text in WORDS:
        return WORDS[text]
    kind = column.kind
    if kind is ColumnKind.CHOICE:
        assert column.choices is not None
        return column.choices(text)
    if kind in (ColumnKind.AMOUNT, ColumnKind.NUMBER, ColumnKind.WHOLE, ColumnKind.PERCENT):
        return Decimal(text)
    if kind is ColumnKind.DAY:
        return date.fromisoformat(text)
    if kind is ColumnKind.YES_NO:
        return {"yes": True, "no": False}[text]
    return text


def months_of(text: str) -> Months:
    """Return the months of `1937-01/1938-12`, `1937-01`, `../1938-12` or several joined by ` or `."""
    found = Months()
    for run in text.split(" or "):
        first, _, last = run.partition("/")
        found |= Months.between(_month(first), _month(last or first))
    return found


def _month(text: str) -> int | None:
    return None if text == ".." else month_number(*(int(number) for number in text.split("-")))


def figure_text(figure: Figure) -> str:
    """Return a figure as the cases print it: its decimals, no thousands separators, days as ISO."""
    value = figure.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return f"{value:f}" if figure.kind.places is None else f"{value:.{figure.kind.places}f}"
    return value


def texts_of(ledger: RecordingLedger) -> dict[str, str]:
    """Return every figure of a recording ledger as text, by id."""
    return {figure.id: figure_text(figure) for figure in ledger.figures.values()}


@dataclass
class Aliases:
    """Other names that the cases use for figures: `V02.s1.factor` for `V02.s1.time_factor`."""

    names: Mapping[str, str] = field(default_factory=dict)

    def added(self, texts: Mapping[str, str]) -> dict[str, str]:
        """Return the texts with every figure also under its other name."""
        found = dict(texts)
        for label, text in texts.items():
            stem, _, name = label.rpartition(".")
            if name in self.names:
                found[f"{stem}.{self.names[name]}"] = text
        return found
