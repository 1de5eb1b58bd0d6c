"""Replacement with comparable: a used one of like age, quality, condition and use, from the best comparable outlet.

Worked out as the retail build-up is; what differs is the market the comparisons are brought to (secondary retail, not
the dearest outlet), which the line of Value types states. Tax and costs stand beside the base, never hidden in it.
"""

from appraise.model.ledger import Ledger
from appraise.records.vocabulary import ValueType
from appraise.valuing.inputs import Inputs
from appraise.valuing.methods import retail_replacement
from appraise.valuing.result import Valuation

VALUES = (ValueType.COMPARABLE_REPLACEMENT,)


def value(inputs: Inputs, ledger: Ledger) -> Valuation:
    """Return the replacement value with a comparable item."""
    return retail_replacement.value(inputs, ledger)
