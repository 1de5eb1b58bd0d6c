"""Agreed value and stated amount: sums of the insurance contract, not types of value.

An agreed value is fixed between insurer and insured and rests on a replacement value in this report; a stated amount
is only a ceiling. They stand in columns of their own on Cover, are carried as typed, and are never called concluded.
"""

from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.records.assignment import ASSIGNMENT
from appraise.records.claims import COVERS
from appraise.records.vocabulary import ValueType
from appraise.valuing.inputs import Inputs
from appraise.valuing.opinions import opinion_of, without_row
from appraise.valuing.result import Valuation
from appraise.valuing.working import Working

VALUES = (ValueType.AGREED, ValueType.STATED)


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the sum that the contract names for an item, as typed on Cover."""
    cover = inputs.uses.covers.get(inputs.item_id)
    if cover is None:
        return without_row(inputs, "POL-11", COVERS)
    if not given(inputs.tables.currency):
        return without_row(inputs, "LOS-20", ASSIGNMENT)
    work = Working(ledger, "POL-01", inputs.item_id)
    key = "agreed" if inputs.value_type is ValueType.AGREED else "stated"
    work.cell(COVERS, cover, key)
    return opinion_of(inputs, work.done(), key, key)
