"""A material, finish, fitting or fastening: typed, or a published fact by id. It dates the part that has it."""

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.MATERIAL
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the months in which the material or fitting was to be had."""
    return read_by_id_or_typed(line)
