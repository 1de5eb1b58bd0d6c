"""The date code stamped on an electronic component: not finished before the week the part was made."""

from dataclasses import replace

from appraise.dating.codes import Code, CodeReading, read_code
from appraise.dating.dated import of_readings
from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.dating.periods import week_of
from appraise.dating.result import Reading
from appraise.records.vocabulary import EvidenceKind, EvidenceRole
from appraise.rules.published import facts

KIND = EvidenceKind.COMPONENT_CODE
DEFAULT_ROLE = EvidenceRole.PART

_NOTES = {
    "week 53": "Week 53 is accepted; few years have one.",
    "after the last list": "Registration of sources ended with the list of 2001.",
    "older than the oldest list": "The oldest published list of sources is of 1946.",
    "date only": "No source is given: the figures may be a part number.",
}


def read(line: Line) -> Found:
    """Return the weeks the code under 'By id' may mean as months, every decade of a one-figure year kept.

    Typed words count as for any dated part where no code is given.
    """
    stamped = line.reference
    if not stamped or stamped in facts() or stamped in line.tables.feature_periods:
        return read_by_id_or_typed(line)
    code = read_code(stamped, line.settings.examined // 12)
    if isinstance(code, str):
        return Found(None, (line.finding("DAT-20", "reference", stamped, reason=code),))
    if line.typed:
        typed = read_by_id_or_typed(line.without_reference())
        return replace(typed, findings=(*typed.findings, line.finding("DAT-26", "reference", stamped)), fact=stamped)
    notes = [line.finding("DAT-22", "reference", stamped, note=_NOTES[note]) for note in code.notes]
    if code.one_figure:
        years = ", ".join(str(one.year) for one in code.readings if not one.unlikely)
        notes.append(line.finding("DAT-21", "reference", stamped, years=years))
    words = f"code {code.stamped}"
    return Found(of_readings(_readings(code), words, frozenset({"week"})), tuple(notes), None, "", stamped)


def _readings(code: Code) -> tuple[Reading, ...]:
    """Return each reading as months; a reading of the second split names its source too."""
    usual = code.readings[0].source
    found: dict[str, Reading] = {}
    for one in code.readings:
        week = week_of(one.year, one.week)
        if week is not None:
            name = _name(one, usual)
            found.setdefault(name, Reading(name, week.outer, week.core, one.unlikely))
    return tuple(found.values())


def _name(one: CodeReading, usual: str) -> str:
    return str(one.year) if one.source == usual else f"{one.year} (source {one.source})"
