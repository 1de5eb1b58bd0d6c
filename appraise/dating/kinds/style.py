"""Style and workmanship: the weakest evidence there is (strength 1)."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.STYLE
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the period the style suggests."""
    return read_by_id_or_typed(line)
