"""What a workfile holds besides files of the user: settings and rules with citations, versions, retention, figures."""

import platform
from collections.abc import Iterable, Iterator
from dataclasses import asdict, fields
from datetime import date
from decimal import Decimal
from importlib import metadata
from typing import Any

from appraise import __version__
from appraise.jobs.examine import Examined
from appraise.jobs.proof import job_figures
from appraise.model.figure import Figure
from appraise.model.missing import Missing, given, value_or
from appraise.records.declare import Sheet
from appraise.records.job import FORMAT, SHEETS
from appraise.records.vocabulary import Use
from appraise.rules.cited import Citation
from appraise.rules.published import facts
from appraise.rules.thresholds import Threshold, threshold
from appraise.rules.uses import use_rules
from appraise.rules.value_types import definition_for
from appraise.schedule.retention import keep_until
from appraise.valuing.explain import plain
from appraise.valuing.limits import DEFAULT_LIMITS

#: Sheets with one record that hold settings of the method, not facts about the things.
_SETTING_SHEETS = ("assignment", "policy", "liquidation_terms", "yearly_terms")
_LOCAL = (
    "Some states, licensing bodies, courts and terms of engagement ask for a longer time. Local rules and licensed "
    "practice come first; this day is worked out from the rule named here alone."
)
_GIFT = (
    "A gift that was not adequately disclosed on a return has no end of the time for assessment "
    "(26 U.S.C. 6501(c)(9)): consider keeping the file for good."
)


def figure_lines(figures: Iterable[Figure]) -> Iterator[str]:
    """Yield a line for each figure: its id, a tab, and its value in plain digits."""
    for figure in figures:
        yield f"{figure.id}\t{plain(figure)}".replace("\n", " ")


def figures_file(examined: Examined) -> bytes:
    """Return every figure of a job, a line each, in the order made."""
    return "".join(f"{line}\n" for line in figure_lines(job_figures(examined))).encode()


def versions() -> dict[str, Any]:
    """Return what computed this: the program, Python, and every package it needs, with versions."""
    needed = (one.split(";")[0] for one in metadata.requires("appraise") or () if "extra ==" not in one)
    names = sorted({_package(one) for one in needed}, key=str.lower)
    return {
        "program": f"appraise {__version__}",
        "workbook_format": FORMAT,
        "python": platform.python_version(),
        "packages": {name: version for name in names if (version := _version(name))},
    }


def _package(requirement: str) -> str:
    end = next((i for i, sign in enumerate(requirement) if not (sign.isalnum() or sign in "-_.")), len(requirement))
    return requirement[:end]


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        # Needed on other systems only.
        return ""


def settings(examined: Examined) -> dict[str, Any]:
    """Return the settings used: what was typed on the forms, and our defaults where nothing can be typed."""
    job = examined.job
    typed = {SHEETS[key].name: _typed(SHEETS[key], getattr(job, key)) for key in _SETTING_SHEETS}
    defaults = {name: str(value) for name, value in asdict(DEFAULT_LIMITS).items()}
    value_types = [_typed(SHEETS["value_terms"], one) for one in job.value_terms]
    return {
        "typed": {name: one for name, one in typed.items() if one},
        "value_types": value_types,
        "limits of findings (our defaults, no source)": defaults,
    }


def _typed(sheet: Sheet, record: Any) -> dict[str, str]:
    found = {}
    for column in sheet.columns:
        value = getattr(record, column.key)
        if value is not Missing.BLANK:
            found[column.heading] = _text(value)
    return found


def _text(value: object) -> str:
    if isinstance(value, Missing):
        return value.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def rules(examined: Examined, day: date) -> dict[str, Any]:
    """Return the rules used, each with its citation: elements asked for, definitions, limits, published facts."""
    job = examined.job
    use = value_or(job.assignment.use, Use.ESTATE)
    where = value_or(job.assignment.jurisdiction, "")
    types = [one.value_type for one in job.value_terms if given(one.value_type)]
    defined = [one for value_type in types if (one := definition_for(value_type, use, where, day))]
    named = {str(one.reference) for one in job.evidence if given(one.reference)}
    known = facts()
    return {
        "day": day.isoformat(),
        "elements": [
            {"id": one.id, "statement": one.statement, **_citation(one.citation)}
            for one in use_rules(use).elements
            if one.asked(where, day)
        ],
        "definitions": [
            {"value_type": str(one.value_type), "statement": one.statement, **_citation(one.citation)}
            for one in defined
        ],
        "retention": [_limit(one) for one in _retention_rules(day)],
        "published_facts": [
            {"id": name, "mark": known[name].mark, "rule": known[name].rule, "source": known[name].source}
            for name in sorted(named)
            if name in known
        ],
    }


def _citation(citation: Citation) -> dict[str, str]:
    found = {one.name: getattr(citation, one.name) for one in fields(citation)}
    return {name: str(value) for name, value in found.items() if value is not None}


def _limit(rule: Threshold) -> dict[str, str]:
    return {
        "rule": rule.name,
        "statement": rule.statement,
        "figure": f"{rule.figure} {rule.unit}",
        **_citation(rule.citation),
    }


def _retention_rules(day: date) -> tuple[Threshold, Threshold]:
    return threshold("retention-years", day), threshold("retention-years-after-testimony", day)


def retention(examined: Examined) -> dict[str, Any]:
    """Return until when the file is kept, by which rule, and what else may ask for longer.

    `keep_until` is null where no day can be named; `because` then says why.
    """
    a, case = examined.job.assignment, examined.job.court_case
    prepared = a.signed_on if given(a.signed_on) else a.report_date
    notes = [_LOCAL, *([_GIFT] if a.use is Use.GIFT else [])]
    if not given(prepared):
        return {"keep_until": None, "because": "the day of the report is not stated", "rules": [], "notes": notes}
    after_preparation, after_testimony = _retention_rules(prepared)
    testimony = case.testimony_expected is True
    ended = value_or(case.ended_on, None)
    pending = testimony and ended is None
    day = keep_until(
        prepared,
        years=int(after_preparation.figure),
        disposed=ended if testimony else None,
        years_after_testimony=int(after_testimony.figure),
        pending=pending,
    )
    because = "testimony was given or is expected and the proceeding has not ended: hold the file" if pending else ""
    return {
        "keep_until": None if day is None else day.isoformat(),
        "because": because or f"prepared on {prepared.isoformat()}",
        "rules": [_limit(after_preparation), _limit(after_testimony)],
        "notes": notes,
    }
