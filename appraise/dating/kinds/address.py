"""A postal code or a telephone number in an address: typed, or a published fact by id."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.ADDRESS
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the months in which the form was in use."""
    return read_by_id_or_typed(line)
