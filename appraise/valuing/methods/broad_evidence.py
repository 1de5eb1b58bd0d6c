"""Actual cash value by broad evidence: every fact that bears on it, weighed with a reason.

Facts without a figure are told and not counted; the figures are averaged by the weights typed. To the cent.
"""

from collections.abc import Sequence

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given
from appraise.model.operations import WEIGHTED_MEAN
from appraise.model.place import Place
from appraise.records.claims import VALUE_FACTS, ValueFact
from appraise.records.declare import place_of
from appraise.valuing.working import Worked, Working


def broad_evidence(ledger: Ledger, item: str, facts: Sequence[ValueFact], *, currency: str) -> Worked:
    """Return the weighted mean of what an item's facts point to (figure `broad_evidence`)."""
    work = Working(ledger, "LOS-01", item)
    weighted: list[Outcome] = []
    for number, fact in enumerate(facts, start=1):
        if fact.points_to is Missing.BLANK or fact.weight == 0:
            continue
        if given(fact.weight) and fact.weight < 0:
            refused = work.refuse(f"fact{number}", "LOS-15", place_of(VALUE_FACTS, fact, "weight"))
            weighted += [refused, refused]
            continue
        weight = work.cell(VALUE_FACTS, fact, "weight", name=f"fact{number}_weight")
        weighted += [weight, work.cell(VALUE_FACTS, fact, "points_to", name=f"fact{number}")]
    if weighted:
        work.figure("broad_evidence", money(currency), WEIGHTED_MEAN, *weighted)
    else:
        place = place_of(VALUE_FACTS, facts[0], "points_to") if facts else Place(VALUE_FACTS.name)
        work.refuse("broad_evidence", "LOS-15", place)
    return work.done()
