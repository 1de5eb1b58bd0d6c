"""Which required elements of the use are there, and for what they are lacking.

`element_states` is the table at the report's end; `element_findings` reports what is lacking where no other part has
said so already. What is asked of every item (photographs, history, comparisons) has checks of its own.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from appraise.checks.context import CheckContext, ItemResults
from appraise.model.figure import Figure
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given
from appraise.model.place import Place
from appraise.records.declare import Sheet, place_of
from appraise.records.job import SHEETS, Job
from appraise.records.vocabulary import Route, Use
from appraise.rules.cited import Seen
from appraise.rules.uses import Element, use_rules
from appraise.schedule.propose import removed_items

#: A need for an official wording on Clauses, by its key.
_WORDING = "wording "
#: A need of everyone on People who signs.
_SIGNERS = "signers"


@frozen
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
    states = []
    for element in _asked(job):
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


@frozen
class _Gap:
    """What is lacking: the name it is printed by, and the cell (None where rows are lacking)."""

    name: str
    place: Place | None = None


def element_findings(context: CheckContext, found: Iterable[Finding]) -> Iterator[Finding]:
    """Yield what is lacking in cells that no other part has spoken of, one finding for each cell.

    found  the findings of all other checks; this one comes last, so that one blank makes one finding
    """
    seen = context.places_raised | {one.place for one in found}
    for element in _asked(context.job):
        code = "ELM-02" if element.citation.seen is Seen.PRACTICE else "ELM-01"
        in_cells = [need for need in element.needs if "." in need and not need.startswith(_WORDING)]
        for gap in (gap for need in in_cells for gap in _blanks(need, context.job)):
            if gap.place is None or gap.place in seen:
                continue
            seen |= {gap.place}
            details = {"element": element.statement, "source": element.citation.source, "name": gap.name}
            yield finding(code, gap.place, element.id, **details)
    assignment = context.job.assignment
    if given(assignment.use) and given(assignment.jurisdiction) and not is_covered(context.job):
        place = Place(SHEETS["assignment"].name, 0, "jurisdiction")
        yield finding("ELM-03", place, found=assignment.jurisdiction, use=assignment.use)


def _asked(job: Job) -> tuple[Element, ...]:
    assignment = job.assignment
    use, jurisdiction, day = assignment.use, assignment.jurisdiction, assignment.effective_date
    if not (given(use) and given(jurisdiction) and given(day)):
        return ()
    return tuple(one for one in use_rules(Use(use)).elements if one.asked(jurisdiction, day))


def _gaps(need: str, job: Job, results: Mapping[str, ItemResults]) -> Iterable[str]:
    if need == "program":
        return ()
    if need.startswith(_WORDING):
        return _wording(need.removeprefix(_WORDING), job)
    if need.endswith(" per item"):
        return _items_without(need.removesuffix(" per item"), job, results)
    return (gap.name for gap in _blanks(need, job))


def _wording(key: str, job: Job) -> tuple[str, ...]:
    """Return what is lacking where an official wording has to stand; it has a check of its own."""
    held = any(one.key == key and given(one.official) for one in job.clauses)
    return () if held else (f"{SHEETS['clauses'].name}, {key}",)


def _blanks(need: str, job: Job) -> Iterator[_Gap]:
    """Yield the records in which none of the alternatives `sheet.column|sheet.column` is given."""
    alternatives = [alternative.split(".") for alternative in need.split("|")]
    named, key = alternatives[0]
    field = "people" if named == _SIGNERS else named
    sheet = SHEETS[field]
    held = getattr(job, field)
    records = (held,) if sheet.form else held
    if named == _SIGNERS:
        records = tuple(one for one in job.people if one.signs is True)
    if not records:
        yield _Gap(f"no line on {sheet.name}")
    for record in records:
        if not any(_said(getattr(record, one)) for _field, one in alternatives):
            yield _Gap(_name_of(record, sheet, key), place_of(sheet, record, key))


def _said(value: object) -> bool:
    # "Unknown" and "not inspected" are answers; a blank and an unreadable cell are not.
    return value not in (Missing.BLANK, Missing.UNREADABLE)


def _name_of(record: Any, sheet: Sheet, key: str) -> str:
    if sheet.form:
        return sheet.column(key).heading
    identity = getattr(record, "id", Missing.BLANK)
    return str(identity) if given(identity) else f"{sheet.name}, row {record.row}"


def _items_without(what: str, job: Job, results: Mapping[str, ItemResults]) -> Iterable[str]:
    # What has left the schedule stands in the change table only.
    gone = removed_items(job)
    ids = [item.id for item in job.items if given(item.id) and item.id not in gone]
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
