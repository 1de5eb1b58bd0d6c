"""A part that carries the date on which it was made; completion came later by the lag."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.DATED_PART
DEFAULT_ROLE = EvidenceRole.PART


def read(line: Line) -> Found:
    """Return the date of the part."""
    return read_by_id_or_typed(line)
