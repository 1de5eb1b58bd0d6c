"""A mark or words a law asked for or made possible, or the name of a state: typed, or a published fact by id."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.LEGAL_MARK
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the months in which a genuine mark is possible."""
    return read_by_id_or_typed(line)
