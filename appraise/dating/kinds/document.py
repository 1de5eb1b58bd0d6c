"""A document or sale: receipt, ledger, photograph, letter. Most are later than completion and bound from above."""

from dataclasses import replace

from appraise.dating.line import Found, Line
from appraise.dating.lookup import read_by_id_or_typed
from appraise.model.missing import given
from appraise.records.vocabulary import EvidenceKind, EvidenceRole

KIND = EvidenceKind.DOCUMENT
#: The wider reading: a receipt taken for the date of the object itself would make the window too narrow.
DEFAULT_ROLE = EvidenceRole.AFTER


def read(line: Line) -> Found:
    """Return the date of the document; asks what it is the date of where that is not typed."""
    found = read_by_id_or_typed(line)
    if found.dated is None or given(line.evidence.role):
        return found
    return replace(found, findings=(*found.findings, line.finding("DAT-25", "role")))
