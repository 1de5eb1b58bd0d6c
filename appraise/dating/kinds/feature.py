"""A feature with a period of use: typed, or by id from Feature periods or the published facts."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.FEATURE
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the period of use."""
    return read_by_id_or_typed(line)
