"""Which required elements of the use are there, and for what they are lacking."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from appraise.checks.context import ItemResults
from appraise.model.figure import Figure
from appraise.model.missing import Missing, given
from appraise.records.declare import Sheet
from appraise.records.job import SHEETS, Job
from appraise.records.vocabulary import Route, Use
from appraise.rules.uses import Element, use_rules


@dataclass(frozen=True, slots=True)
class ElementState:
    """Where a required element stands: whether all it needs was found, and else what it is lacking for.

    lacking  ids of items or people, or the heading of a line of the form sheet; empty where it is present
    """

    element: Element
    present: bool
    lacking: tuple[str, ...] = ()


def element_states(job: Job, results: Mapping[str, ItemResults]) -> tuple[ElementState, ...]:
    """Return the state of every element the use and the jurisdiction ask for, in the order of the rules.

    Without a use, a jurisdiction or an effective date nothing can be asked for: the result is empty (those blanks
    have findings of their own).
    """
    assignment = job.assignment
    use, jurisdiction, day = assignment.use, assignment.jurisdiction, assignment.effective_date
    if not (given(use) and given(jurisdiction) and given(day)):
        return ()
    states = []
    for element in use_rules(Use(use)).elements:
        if element.asked(jurisdiction, day):
            lacking = tuple(dict.fromkeys(gap for need in element.needs for gap in _gaps(need, job, results)))
            states.append(ElementState(element, not lacking, lacking))
    return tuple(states)


def is_covered(job: Job) -> bool:
    """Say whether the jurisdiction is one whose rules the elements of the use rest on (an empty list: any)."""
    assignment = job.assignment
    if not (given(assignment.use) and given(assignment.jurisdiction)):
        return False
    covered = use_rules(Use(assignment.use)).covered
    return not covered or assignment.jurisdiction.split("-")[0].strip().upper() in covered


def _gaps(need: str, job: Job, results: Mapping[str, ItemResults]) -> Iterable[str]:
    if need == "program":
        return ()
    if need.endswith(" per item"):
        return _items_without(need.removesuffix(" per item"), job, results)
    return _blanks(tuple(alternative.split(".") for alternative in need.split("|")), job)


def _blanks(alternatives: tuple[list[str], ...], job: Job) -> Iterable[str]:
    field = alternatives[0][0]
    sheet = SHEETS[field]
    records = (job.assignment,) if sheet.form else getattr(job, field)
    if not records:
        yield f"no line on {sheet.name}"
    for record in records:
        if not any(_said(getattr(record, key)) for _field, key in alternatives):
            yield _name_of(record, sheet, alternatives[0][1])


def _said(value: object) -> bool:
    # "Unknown" and "not inspected" are answers; a blank and an unreadable cell are not.
    return value not in (Missing.BLANK, Missing.UNREADABLE)


def _name_of(record: Any, sheet: Sheet, key: str) -> str:
    if sheet.form:
        return sheet.column(key).heading
    identity = getattr(record, "id", Missing.BLANK)
    return str(identity) if given(identity) else f"{sheet.name}, row {record.row}"


def _items_without(what: str, job: Job, results: Mapping[str, ItemResults]) -> Iterable[str]:
    ids = [item.id for item in job.items if given(item.id)]
    if what == "valuations":
        return [one for one in ids if not _is_valued(results.get(one))]
    having = {record.item for record in getattr(job, what)}
    if what == "comparisons":
        # A short-route figure rests on its stated source instead.
        having |= {one.item for one in job.opinions if one.route is Route.SHORT and given(one.source)}
    return [one for one in ids if one not in having]


def _is_valued(result: ItemResults | None) -> bool:
    return (
        result is not None
        and bool(result.valuations)
        and all(isinstance(one.rounded, Figure) for one in result.valuations)
    )
