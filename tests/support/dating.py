"""Reads date-window cases and builds statements from them, without the workbook."""

import json
import os
from pathlib import Path
from typing import Any

from appraise.dating.dated import Dated, Lag, of_readings, read_stated, read_use, with_role
from appraise.dating.result import DateWindow, Reading, Statement
from appraise.dating.settings import Settings
from appraise.dating.window import date_window
from appraise.model.months import Month, Months, month_number, month_text
from appraise.model.place import Place
from appraise.records.vocabulary import EvidenceKind, EvidenceRole, EvidenceStatus

ROLES = {"whole": EvidenceRole.WHOLE, "part": EvidenceRole.PART, "after": EvidenceRole.AFTER}
EXAMINED = month_number(2026, 11)
SETTINGS = Settings(EXAMINED)


def month(text: str) -> Month:
    """Return the number of a month written `1959-03`."""
    year, part = text.split("-")
    return month_number(int(year), int(part))


def case_files() -> list[Path]:
    """Return the files with date-window cases: ours, and those of the folder that APPRAISE_EXTRA_CASES names."""
    folders = [Path(__file__).parents[1] / "cases" / "date_windows"]
    extra = os.environ.get("APPRAISE_EXTRA_CASES")
    if extra:
        folders.append(Path(extra) / "date_windows")
    return [file for folder in folders for file in sorted(folder.glob("*.json"))]


def cases() -> list[dict[str, Any]]:
    """Return every case; a file holds one object or a list of them."""
    found = []
    for file in case_files():
        read = json.loads(file.read_text("utf-8"))
        found += read if isinstance(read, list) else [read]
    return found


def dated(words: dict[str, Any], settings: Settings) -> Dated:
    """Return the months of one statement or one alternative; a refused wording fails the test."""
    read = (
        read_stated(words["date"], settings)
        if "date" in words
        else read_use(words.get("from") or "", words.get("to") or "", settings)
    )
    assert isinstance(read, Dated), read
    return read


def statement(line: dict[str, Any], settings: Settings, row: int = 2) -> Statement:
    """Return one line of a case's evidence as a statement."""
    role = ROLES[line.get("role", "whole")]
    least, most = line.get("lag") or (0, None)
    lag: Lag = (least, most)
    if "alt" in line:
        read = [(one["name"], dated(one, settings)) for one in line["alt"]]
        words = of_readings(tuple(Reading(name, one.outer, one.inner) for name, one in read), line.get("say", ""))
    else:
        words = dated(line, settings)
    made = with_role(words, role, lag)
    return Statement(
        id=line["id"],
        part=line.get("part", "body"),
        say=line.get("say", line["id"]),
        kind=EvidenceKind(line.get("kind", "feature period")),
        source="case",
        status=EvidenceStatus(line.get("status", "original")),
        strength=line.get("strength", 3),
        outer=made.outer,
        inner=made.inner,
        place=Place("Evidence", row, "statement"),
        words=made.words,
        role=role,
        lag=lag,
        readings=made.readings,
    )


def window(case: dict[str, Any]) -> DateWindow:
    """Return the window of a case."""
    examined = month(case["examined"])
    settings = Settings(examined)
    statements = [statement(line, settings, row) for row, line in enumerate(case["evidence"], start=2)]
    return date_window(case.get("id", "X"), statements, examined)


def as_expected(found: DateWindow) -> dict[str, Any]:
    """Return a window in the form of the cases' `expected`."""
    return {
        "verdict": found.verdict.value,
        "outer": found.outer.edtf(),
        "inner": found.inner.edtf(),
        "conflicts": [list(one) for one in found.conflicts],
        "consistent": [
            {"keep": list(one.keep), "outer": one.outer.edtf(), "inner": one.inner.edtf()} for one in found.explanations
        ],
        "best": [list(one.keep) for one in found.best],
        "later_work": {one: month_text(first) for one, first in found.later_work.items()},
        "readings": {one: list(left.left) for one, left in found.readings.items()},
    }


def plain(
    name: str,
    first: Month | None,
    last: Month | None,
    *,
    strength: int = 3,
    status: EvidenceStatus = EvidenceStatus.ORIGINAL,
    part: str = "body",
    kind: EvidenceKind = EvidenceKind.FEATURE,
    inner: Months | None = None,
) -> Statement:
    """Return a statement with one plain run of months."""
    outer = Months.between(first, last)
    return Statement(
        id=name,
        part=part,
        say=name,
        kind=kind,
        source="invented",
        status=status,
        strength=strength,
        outer=outer,
        inner=outer if inner is None else inner,
        place=Place("Evidence", 2, "statement"),
    )
