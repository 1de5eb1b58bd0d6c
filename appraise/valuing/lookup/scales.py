"""Condition scales: what an item of a grade is worth as a percent of grade 10 (method rule R9)."""

from collections.abc import Iterable
from decimal import Decimal
from itertools import pairwise

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.tables import SCALES, ScaleStep


@frozen
class Scale:
    """One scale: its steps by grade."""

    id: str
    steps: dict[Decimal, ScaleStep]


@frozen
class Scales:
    """All scales by id."""

    by_id: dict[str, Scale]

    def get(self, scale: str) -> Scale | None:
        """Return the scale of that id, None if there is none."""
        return self.by_id.get(scale)


def scales(rows: Iterable[ScaleStep]) -> tuple[Scales, list[Finding]]:
    """Return the scales of the sheet Scales and what is wrong with them. Of two steps of one grade the first holds."""
    findings: list[Finding] = []
    found: dict[str, dict[Decimal, ScaleStep]] = {}
    for row in rows:
        if not given(row.scale):
            continue
        lacking = [key for key in ("grade", "percent") if not given(getattr(row, key))]
        for key in lacking:
            heading = SCALES.column(key).heading
            findings.append(
                finding("TBL-01", place_of(SCALES, row, key), row.scale, sheet=SCALES.name, heading=heading)
            )
        if not (given(row.grade) and given(row.percent)):
            continue
        if row.percent <= 0:
            findings.append(_at(row, "TBL-31", found=row.percent))
            continue
        first = found.setdefault(row.scale, {}).setdefault(row.grade, row)
        if first.percent != row.percent:
            findings.append(_at(row, "TBL-32", found=row.percent, grade=row.grade, other=first.percent))
    for steps in found.values():
        findings += _shape(steps)
    return Scales({scale: Scale(scale, steps) for scale, steps in found.items()}), findings


def _shape(steps: dict[Decimal, ScaleStep]) -> list[Finding]:
    """Return what is odd about the curve: it rises as the grade falls, or its top step is not the steepest.

    The top step is compared, in points a grade, with the steps of the middle: those that end at half the top grade
    or above it. Further down a curve grows steep again (common practice, no source).
    """
    curve = [(grade, _percent(steps[grade]), steps[grade]) for grade in sorted(steps, reverse=True)]
    findings = []
    falls = []
    for (grade, percent, _), (lower, less, row) in pairwise(curve):
        if less > percent:
            findings.append(_at(row, "TBL-33", found=less, grade=lower, higher=grade, percent=percent))
        falls.append(((percent - less) / (grade - lower), lower))
    middle = [fall for fall, lower in falls[1:] if lower >= curve[0][0] / 2]
    if middle and falls[0][0] <= max(middle):
        findings.append(_at(curve[1][2], "TBL-34", found=curve[1][1], fall=falls[0][0], steepest=max(middle)))
    return findings


def _percent(step: ScaleStep) -> Decimal:
    if not given(step.percent):
        raise ValueError(f"the step in row {step.row} has no percent")
    return step.percent


def _at(row: ScaleStep, code: str, *, found: Decimal, **details: object) -> Finding:
    return finding(code, place_of(SCALES, row, "percent"), str(row.scale), found=str(found), scale=row.scale, **details)
