"""A material from a protected species. Its listing is a caution about trade; it never bounds the date."""

from dataclasses import replace

from appraise.dating.dated import Dated
from appraise.dating.line import Found, Line, text_of
from appraise.dating.lookup import read_fact, unknown_id
from appraise.model.months import ALL_MONTHS
from appraise.records.vocabulary import EvidenceKind, EvidenceRole
from appraise.rules.published import facts

KIND = EvidenceKind.SPECIES
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return a statement that bounds nothing, with the caution of the published fact if one is named.

    Old stock stays in lawful use for decades, so the day of a listing says nothing about manufacture. Whatever is
    typed in From, To or Date is kept for print and not computed with.
    """
    fact = facts().get(line.reference)
    if fact is not None:
        found = read_fact(line, fact)
        return found if not fact.bounds else replace(found, dated=Dated(ALL_MONTHS, ALL_MONTHS, "no bound"))
    if line.reference:
        unknown = unknown_id(line, tuple(one for one in facts() if one.startswith("J")))
        if not line.typed:
            return unknown
    typed = text_of(line.evidence.date) or text_of(line.evidence.to) or text_of(line.evidence.from_)
    note = line.finding("DAT-29", "kind", typed)
    return Found(Dated(ALL_MONTHS, ALL_MONTHS, typed or "no bound"), (note,))
