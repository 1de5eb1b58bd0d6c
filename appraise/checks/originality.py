"""Checks of the originality of parts."""

from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import mentions, plain, same_name
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.records.declare import place_of
from appraise.records.items import ITEMS, PARTS, Part
from appraise.records.vocabulary import AssumptionKind, EvidenceStatus, FinishClass, PartState

#: Parts no longer as made.
#: Parts named in one sentence before the rest are only counted.
PARTS_NAMED = 6
DEPARTED = (PartState.LATER_REPLACEMENT, PartState.MODIFIED, PartState.MISSING)
#: Finishes no longer the maker's first.
REFINISHED = (
    FinishClass.FACTORY_REFINISH,
    FinishClass.REFINISH_SAME,
    FinishClass.REFINISH_OTHER,
    FinishClass.STRIPPED,
    FinishClass.OVERSPRAYED,
)


def finish_parts(parts: list[Part]) -> list[Part]:
    """Return the rows about the finish."""
    return [one for one in parts if mentions(one.part, "finish", "lacquer", "varnish")]


@check("PRT-01")
def deduction_without_reason(context: CheckContext) -> Iterator[Finding]:
    """Each deduction has its reason."""
    for place, column, part in blanks(context, "parts"):
        if given(part.item):
            yield finding(
                "PRT-01", place, part.item, found=str(part.deduction), part=_name(part), heading=column.heading
            )


@check("PRT-02")
def original_but_changed(context: CheckContext) -> Iterator[Finding]:
    """A part that was changed is not marked original."""
    for part in context.job.parts:
        if part.state is PartState.ORIGINAL and given(part.changed) and given(part.item):
            yield finding("PRT-02", place_of(PARTS, part, "changed"), part.item, found=part.changed, part=_name(part))


@check("PRT-03")
def state_against_evidence(context: CheckContext) -> Iterator[Finding]:
    """Parts and Evidence say the same of one part."""
    for line in context.job.evidence:
        if not given(line.item) or not given(line.status):
            continue
        for part in context.parts_of.get(line.item, ()):
            original = part.state is PartState.ORIGINAL
            departed = part.state in (PartState.LATER_REPLACEMENT, PartState.PERIOD_REPLACEMENT)
            against = (original and line.status is EvidenceStatus.REPLACED) or (
                departed and line.status is EvidenceStatus.ORIGINAL
            )
            if against and same_name(part.part, line.part):
                place = place_of(PARTS, part, "state")
                yield finding(
                    "PRT-03",
                    place,
                    line.item,
                    str(line.id),
                    found=str(part.state),
                    part=_name(part),
                    status=line.status,
                )


@check("PRT-04")
def unknown_not_assumed(context: CheckContext) -> Iterator[Finding]:
    """A part whose originality is unknown is named in an extraordinary assumption."""
    for part in context.job.parts:
        if part.state is PartState.UNKNOWN and given(part.item) and given(part.part):
            texts = [
                one.text
                for one in context.job.assumptions
                if one.kind is AssumptionKind.EXTRAORDINARY and given(one.text)
            ]
            if not any(plain(part.part).rstrip("s") in plain(text) for text in texts):
                yield finding("PRT-04", place_of(PARTS, part, "state"), part.item, found=part.state, part=part.part)


@check("PRT-05")
def deduction_from_original(context: CheckContext) -> Iterator[Finding]:
    """Nothing is deducted for a part that is original."""
    for part in context.job.parts:
        deducted = given(part.deduction) and part.deduction > 0
        if part.state is PartState.ORIGINAL and deducted and given(part.item):
            found = str(part.deduction)
            yield finding("PRT-05", place_of(PARTS, part, "deduction"), part.item, found=found, part=_name(part))


@check("PRT-06")
def departure_without_deduction(context: CheckContext) -> Iterator[Finding]:
    """A departure from original has a deduction, if only 0."""
    for key in context.items:
        if key in context.adjusted:
            for part in context.parts_of.get(key, ()):
                if part.state in DEPARTED and part.deduction is BLANK:
                    found = str(part.state)
                    yield finding("PRT-06", place_of(PARTS, part, "deduction"), key, found=found, part=_name(part))


@check("PRT-07")
def refinish_not_charged(context: CheckContext) -> Iterator[Finding]:
    """A refinish is charged under Parts, where sales are brought to the item by percents."""
    for key, item in context.items.items():
        if item.finish_class in REFINISHED and key in context.adjusted:
            rows = finish_parts(context.parts_of.get(key, []))
            if not any(given(row.deduction) for row in rows):
                yield finding("PRT-07", place_of(ITEMS, item, "finish_class"), key, found=str(item.finish_class))


@check("PRT-08")
def finish_said_twice(context: CheckContext) -> Iterator[Finding]:
    """Items and Parts say the same of the finish."""
    for key, item in context.items.items():
        for part in finish_parts(context.parts_of.get(key, [])):
            against = (item.finish_class is FinishClass.ORIGINAL and part.state in DEPARTED) or (
                item.finish_class in REFINISHED and part.state is PartState.ORIGINAL
            )
            if against:
                place = place_of(PARTS, part, "state")
                yield finding("PRT-08", place, key, found=str(part.state), finish=item.finish_class)


@check("PRT-09")
def refinish_charged_twice(context: CheckContext) -> Iterator[Finding]:
    """A refinish charged under Parts does not also lower the grade."""
    for key, item in context.items.items():
        charged = any(given(row.deduction) and row.deduction > 0 for row in finish_parts(context.parts_of.get(key, [])))
        low = given(item.grade) and item.grade <= 5
        if charged and low and item.finish_class in REFINISHED and mentions(item.finish_condition, "refinish"):
            found = str(item.finish_condition)
            yield finding("PRT-09", place_of(ITEMS, item, "finish_condition"), key, found=found, grade=item.grade)


@check("PRT-10")
def part_twice(context: CheckContext) -> Iterator[Finding]:
    """Each part of an item is charged once."""
    for key, parts in context.parts_of.items():
        seen: set[str] = set()
        for part in parts:
            if plain(part.part) in seen and plain(part.part):
                yield finding("PRT-10", place_of(PARTS, part, "part"), key, found=_name(part))
            seen.add(plain(part.part))


@check("PRT-11")
def originality_silent(context: CheckContext) -> Iterator[Finding]:
    """An item to which sales are brought by percents has its parts listed."""
    for key, item in context.items.items():
        if key in context.adjusted and key not in context.parts_of:
            yield finding("PRT-11", place_of(ITEMS, item, "id"), key, found=key)


@check("PRT-12")
def whole_deduction_for_a_kept_part(context: CheckContext) -> Iterator[Finding]:
    """A replacement that can be undone, the original part being kept, is charged with that in mind."""
    for part in context.job.parts:
        kept = part.state is PartState.LATER_REPLACEMENT and part.reversible is True and part.original_kept is True
        charged = given(part.deduction) and part.deduction > 0
        spoken = mentions(part.deduction_reason, "kept", "original", "revers", "undo")
        if kept and charged and not spoken and given(part.item):
            found = str(part.deduction)
            yield finding("PRT-12", place_of(PARTS, part, "deduction"), part.item, found=found, part=_name(part))


@check("PRT-13")
def part_unseen(context: CheckContext) -> Iterator[Finding]:
    """What is said of a part rests on something seen; of one item it is asked once for each answer given."""
    unseen: dict[tuple[str, PartState], list[Part]] = {}
    for part in context.job.parts:
        if given(part.state) and part.state is not PartState.UNKNOWN and part.evidence is BLANK and given(part.item):
            unseen.setdefault((part.item, part.state), []).append(part)
    for (item, state), parts in unseen.items():
        names = [_name(part) for part in parts]
        more = f" and {len(names) - PARTS_NAMED} more" if len(names) > PARTS_NAMED else ""
        named = ", ".join(names[:PARTS_NAMED]) + more
        yield finding("PRT-13", place_of(PARTS, parts[0], "evidence"), item, found=str(state), part=named)


def _name(part: Part) -> str:
    return part.part if given(part.part) else ""
