"""Checks of the schedule as a whole and of its yearly update, sale and liquidation: ids that hold, nothing twice."""

import re
from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import affirms, mentions, same_name
from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.items import ITEMS, RENAMINGS
from appraise.records.vocabulary import Treatment, Use
from appraise.records.yearly import TREATMENTS

SHEETS_OF_A_SCHEDULE = ("proceeds", "alternate", "counsel_figures", "treatments", "yearly_terms")


@check("SCH-01")
def columns_of_the_schedule(context: CheckContext) -> Iterator[Finding]:
    """What a line of the yearly, alternate or selling sheets asks for under its condition is given."""
    for place, column, record in blanks(context, *SHEETS_OF_A_SCHEDULE):
        item = getattr(record, "item", None)
        about = (item,) if isinstance(item, str) else ()
        yield finding("SCH-01", place, *about, heading=column.heading, condition=column.required)


@check("SCH-02")
def old_id_still_there(context: CheckContext) -> Iterator[Finding]:
    """An id that was split or joined is not on the schedule any more, but for its line in the year of its removal."""
    removed = {line.item for line in context.job.treatments if line.treatment is Treatment.REMOVED}
    for record in context.job.renamings:
        if given(record.old) and record.old in context.items and record.old != record.new:
            kept = any(other.new == record.old for other in context.job.renamings)
            place = place_of(RENAMINGS, record, "old")
            if not kept and record.old not in removed and place not in context.places_raised:
                yield finding("SCH-02", place, record.old, found=record.old, new=str(record.new))


@check("SCH-03")
def new_id_not_there(context: CheckContext) -> Iterator[Finding]:
    """An id that came from a split or join is on the schedule."""
    later = {record.old for record in context.job.renamings}
    for record in context.job.renamings:
        place = place_of(RENAMINGS, record, "new")
        lost = given(record.new) and record.new not in context.items and record.new not in later
        if lost and given(record.new) and place not in context.places_raised:
            yield finding("SCH-03", place, record.new, found=record.new)


#: A description of a case begins with it: "Case of ...", "Original hard case of ..."; "Bow in its case" is a bow.
_NOT_A_CASE = "in|its|with|without|no|and|for|of|from|plus|including|less"
_A_CASE = re.compile(rf"\s*(?:(?!(?:{_NOT_A_CASE})\b)[\w'’-]+\s+){{0,3}}case\b", re.IGNORECASE)


@check("SCH-04")
def case_twice(context: CheckContext) -> Iterator[Finding]:
    """A case is valued with its instrument or on a line of its own, not both."""
    cases = [
        (key, item)
        for key, item in context.items.items()
        if mentions(item.model, "case") or (given(item.description) and _A_CASE.match(item.description))
    ]
    for key, case in cases:
        for other_key, other in context.items.items():
            linked = (given(case.set_id) and same_name(case.set_id, other.set_id)) or bool(
                mentions(case.description, other_key)
            )
            if other_key != key and linked and affirms(other.description, "case"):
                place = place_of(ITEMS, case, "id")
                yield finding("SCH-04", place, other_key, key, found=key)


@check("SCH-05")
def line_without_treatment(context: CheckContext) -> Iterator[Finding]:
    """In a yearly reappraisal each item has its treatment."""
    if context.use is Use.YEARLY and context.job.treatments:
        treated = {line.item for line in context.job.treatments}
        for key, item in context.items.items():
            if key not in treated:
                yield finding("SCH-05", place_of(ITEMS, item, "id"), key, found=key)


@check("SCH-06")
def removed_and_there(context: CheckContext) -> Iterator[Finding]:
    """A removed line is not valued again."""
    for line in context.job.treatments:
        valued = (line.item, line.value_type) in context.weighted
        if line.treatment is Treatment.REMOVED and valued and given(line.item):
            yield finding("SCH-06", place_of(TREATMENTS, line, "treatment"), line.item, found=line.treatment)
