"""The JSON form: stable keys, described in the documentation, the same bytes for the same findings."""

import json
from datetime import date
from pathlib import Path

from appraise.findings.answers import answer_key, judge
from appraise.findings.entries import message
from appraise.findings.record import findings_json
from appraise.model.finding import finding
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Answer
from appraise.records.vocabulary import FeeBasis

STOP = finding("ITM-02", Place("Items", 3, "serial"), "G01", "A01", found="2217")
FEE = finding("ASG-02", Place("Assignment", 0, "fee_basis"), found=FeeBasis.PERCENT)
DOCUMENT = Path(__file__).parents[2] / "docs" / "findings_json.md"


def record() -> dict[str, object]:
    key = answer_key(STOP)
    answer = filled(
        Answer,
        row=2,
        code=key.code,
        subjects=key.about,
        column_key=key.column,
        found_mark=key.mark,
        reason="é seen by hand",
        initials="MT",
        day=date(2025, 2, 10),
    )
    text = findings_json(judge([STOP, FEE], [answer]), lambda place: f"{place.sheet}!F{place.row}")
    assert "é" in text
    assert text.endswith("}\n")
    return json.loads(text)  # type: ignore[no-any-return]


def test_values() -> None:
    found = record()
    assert found["format"] == 1
    assert found["counts"] == {"stop": 1, "warn": 0, "note": 0, "released": 1, "answered": 0}
    fee, stop = found["findings"]  # type: ignore[misc]
    assert (fee["code"], fee["found"], fee["status"], fee["answer"]) == ("ASG-02", "percent of value", "open", None)
    assert (stop["sheet"], stop["row"], stop["column"], stop["cell"]) == ("Items", 3, "serial", "Items!F3")
    assert stop["subjects"] == ["G01", "A01"]
    assert stop["message"] == message(STOP)
    assert stop["answer"] == {"reason": "é seen by hand", "initials": "MT", "day": "2025-02-10"}


def test_every_key_is_documented_and_every_documented_key_is_there() -> None:
    found = record()
    keys = {*found, *found["counts"], *found["findings"][1], *found["findings"][1]["answer"]}  # type: ignore[index,misc]
    told = {line.split("`")[1] for line in DOCUMENT.read_text("utf-8").splitlines() if line.startswith("| `")}
    assert keys == told
