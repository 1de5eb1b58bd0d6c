"""A patent or registered-design number, or such a notice: not made before the grant of the latest one named."""

from dataclasses import replace

from appraise.dating.dated import Dated
from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.dating.numbers import Grant, read_grants
from appraise.model.months import Months
from appraise.records.vocabulary import EvidenceKind, EvidenceRole
from appraise.rules.published import facts, variants_of

KIND = EvidenceKind.PATENT
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the lower bound that the numbers under 'By id' set, a published fact, or what is typed.

    Several numbers: the latest grant counts. An old number on a new object is normal, so there is no upper bound.
    """
    name = line.reference
    known = name in facts() or name in line.tables.feature_periods or variants_of(name)
    if not name or known:
        return read_by_id_or_typed(line)
    grants = read_grants(name)
    if isinstance(grants, str):
        return Found(None, (line.finding("DAT-23", "reference", name, reason=grants),))
    if line.typed:
        typed = read_by_id_or_typed(line.without_reference())
        return replace(typed, findings=(*typed.findings, line.finding("DAT-26", "reference", name)), fact=name)
    notes = tuple(
        line.finding("DAT-24", "reference", one.number, years=one.months.edtf()) for one in grants if one.disputed
    )
    strength = 3 if all(one.seen for one in grants) else 2
    return Found(_lower_bound(grants), notes, strength, "; ".join(one.source for one in grants), name)


def _lower_bound(grants: tuple[Grant, ...]) -> Dated:
    outer = inner = Months.between(None, None)
    for one in grants:
        outer = outer & Months.between(one.months.first, None)
        inner = inner & (Months.between(one.months.last, None) if one.months.last is not None else Months())
    return Dated(outer, inner, "; ".join(f"{one.number}: {one.months.edtf()}" for one in grants))
