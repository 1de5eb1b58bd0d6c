"""Checks of extraordinary assumptions and hypothetical conditions: there where needed, of the right kind."""

from collections.abc import Iterable, Iterator
from typing import Any

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.text import covers, mentions, says_nothing, unknown_ids
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.records.assignment import ASSUMPTIONS, Assumption
from appraise.records.declare import Sheet, place_of
from appraise.records.items import ITEMS, PARTS
from appraise.records.market import COMPARISONS, OPINIONS
from appraise.records.vocabulary import AssumptionKind, PartState, Use

#: Words that suppose a thing to be other than it is.
AS_IF = (
    "as if",
    "if repaired",
    "once repaired",
    "after repair",
    "when repaired",
    "if restored",
    "once restored",
    "after restoration",
    "when restored",
    "if complete",
    "were it",
)


def covered_by(context: CheckContext, kind: AssumptionKind, item: str) -> list[Assumption]:
    """Return the assumptions of a kind that hold for an item."""
    return [one for one in context.job.assumptions if one.kind is kind and covers(one.items, item)]


def _id(one: Assumption) -> tuple[str, ...]:
    return (one.id,) if given(one.id) else ()


@check("ASM-01")
def hypothetical_condition_missing(context: CheckContext) -> Iterator[Finding]:
    """A value that supposes what is not so names a hypothetical condition."""
    for item, sheet, record, key in _texts(context):
        word = mentions(getattr(record, key), *AS_IF)
        if word and not covered_by(context, AssumptionKind.HYPOTHETICAL, item):
            yield finding("ASM-01", place_of(sheet, record, key), item, found=word)


@check("ASM-02")
def not_inspected_not_assumed(context: CheckContext) -> Iterator[Finding]:
    """An item that was not inspected is covered by an extraordinary assumption."""
    for key, item in context.items.items():
        unseen = given(item.not_inspected_reason) and item.inspected_on is BLANK
        if unseen and not covered_by(context, AssumptionKind.EXTRAORDINARY, key):
            place = place_of(ITEMS, item, "not_inspected_reason")
            yield finding("ASM-02", place, key, found=str(item.not_inspected_reason))


@check("ASM-03")
def assumption_of_unknown_item(context: CheckContext) -> Iterator[Finding]:
    """An assumption names items that are on the schedule."""
    for one in context.job.assumptions:
        for entry in unknown_ids(one.items, context.items):
            yield finding("ASM-03", place_of(ASSUMPTIONS, one, "items"), *_id(one), found=entry)


@check("ASM-04")
def effect_not_told(context: CheckContext) -> Iterator[Finding]:
    """The effect of an assumption on the value is told."""
    for one in context.job.assumptions:
        if says_nothing(one.effect) or mentions(one.effect, "unknown"):
            yield finding("ASM-04", place_of(ASSUMPTIONS, one, "effect"), *_id(one), found=str(one.effect))


@check("ASM-05")
def kinds_mixed(context: CheckContext) -> Iterator[Finding]:
    """What is known to be false is a hypothetical condition, not an extraordinary assumption."""
    for one in context.job.assumptions:
        word = mentions(one.text, *AS_IF)
        if one.kind is AssumptionKind.EXTRAORDINARY and word:
            yield finding("ASM-05", place_of(ASSUMPTIONS, one, "kind"), *_id(one), found=word)


@check("ASM-06", Use.ESTATE, Use.GIFT, Use.DONATION)
def hypothetical_in_a_tax_report(context: CheckContext) -> Iterator[Finding]:
    """A value for a tax return does not rest on what is known to be false."""
    for one in context.job.assumptions:
        if one.kind is AssumptionKind.HYPOTHETICAL:
            yield finding("ASM-06", place_of(ASSUMPTIONS, one, "kind"), *_id(one), found=one.kind)


@check("ASM-07")
def owners_word_taken(context: CheckContext) -> Iterator[Finding]:
    """Originality that rests on the owner's word is an extraordinary assumption."""
    for part in context.job.parts:
        word = mentions(part.evidence, "owner", "client", "said", "told")
        relied = part.state is not PartState.UNKNOWN and word and given(part.item)
        if relied and given(part.item) and not covered_by(context, AssumptionKind.EXTRAORDINARY, part.item):
            yield finding("ASM-07", place_of(PARTS, part, "evidence"), part.item, found=word, part=str(part.part))


@check("ASM-08")
def no_items_named(context: CheckContext) -> Iterator[Finding]:
    """An assumption holds for some item."""
    for one in context.job.assumptions:
        if says_nothing(one.items):
            yield finding("ASM-08", place_of(ASSUMPTIONS, one, "items"), *_id(one), found=str(one.items))


_REASONS = tuple(column.key for column in COMPARISONS.columns if column.key.endswith("_reason"))


def _texts(context: CheckContext) -> Iterator[tuple[str, Sheet, Any, str]]:
    """Yield item, sheet, record and column of every text that is given where a value may be told under a condition."""
    told: tuple[tuple[Sheet, Iterable[Any], str, tuple[str, ...]], ...] = (
        (OPINIONS, context.job.opinions, "item", ("typed_reason", "reconciliation", "source")),
        (COMPARISONS, context.job.comparisons, "item", _REASONS),
        (ITEMS, context.items.values(), "id", ("description", "structure", "playability")),
    )
    for sheet, records, key_of_item, keys in told:
        for record in records:
            item = getattr(record, key_of_item)
            if given(item):
                yield from ((item, sheet, record, key) for key in keys if given(getattr(record, key)))
