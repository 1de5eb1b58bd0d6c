"""Findings as JSON. The form is described in docs/findings_json.md and changes only with its format number."""

import json
from collections.abc import Callable, Sequence
from typing import Any

from appraise.findings.answers import Judged, answer_key, counted
from appraise.findings.entries import action, entry_of, message
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.tables import Answer

#: Format of this record. Keys are added without a new number; one that is renamed or dropped needs one.
FINDINGS_FORMAT = 1


def findings_record(judged: Sequence[Judged], where: Callable[[Place], str]) -> dict[str, Any]:
    """Return findings as plain data: counts first, then each finding in the order given."""
    counts = counted(judged)
    return {
        "format": FINDINGS_FORMAT,
        "counts": {
            "stop": counts.stops,
            "warn": counts.warnings,
            "note": counts.notes,
            "released": counts.released,
            "answered": counts.answered,
        },
        "findings": [_one(each, where) for each in judged],
    }


def findings_json(judged: Sequence[Judged], where: Callable[[Place], str]) -> str:
    """Return the record as text: UTF-8, one key a line, keys always in the same order."""
    return json.dumps(findings_record(judged, where), ensure_ascii=False, indent=1) + "\n"


def _one(judged: Judged, where: Callable[[Place], str]) -> dict[str, Any]:
    finding, entry = judged.finding, entry_of(judged.finding)
    return {
        "code": finding.code,
        "severity": str(entry.severity),
        "status": str(judged.status),
        "sheet": finding.place.sheet,
        "row": finding.place.row,
        "column": finding.place.column,
        "cell": where(finding.place),
        "subjects": [str(one) for one in finding.subjects],
        "found": str(finding.found),
        "mark": answer_key(finding).mark,
        "message": message(finding),
        "action": action(finding),
        "why": entry.why,
        "rule": entry.rule,
        "answer": _answer(judged.answer),
        "lapsed": _answer(judged.lapsed),
    }


def _answer(answer: Answer | None) -> dict[str, str] | None:
    if answer is None:
        return None
    return {
        "reason": str(answer.reason),
        "initials": str(answer.initials),
        "day": answer.day.isoformat() if given(answer.day) else "",
    }
