"""Short codes of the types of value, as they stand in the ids of figures: `G01.fmv.mean`."""

from appraise.records.vocabulary import ValueType

CODES: dict[ValueType, str] = {
    ValueType.FAIR_MARKET: "fmv",
    ValueType.RETAIL_REPLACEMENT: "rrv",
    ValueType.COMPARABLE_REPLACEMENT: "rcv",
    ValueType.REPLACEMENT_COST_NEW: "rcn",
    ValueType.ACTUAL_CASH: "acv",
    ValueType.AGREED: "agv",
    ValueType.STATED: "sta",
    ValueType.MARKETABLE_CASH: "mcv",
    ValueType.ORDERLY_LIQUIDATION: "olv",
    ValueType.FORCED_LIQUIDATION: "flv",
    ValueType.DIMINUTION: "dim",
}


def scope_of(item: str, value_type: ValueType) -> str:
    """Return the scope of the figures of one opinion.

    >>> scope_of("G01", ValueType.FAIR_MARKET)
    'G01.fmv'
    """
    return f"{item}.{CODES[value_type]}"
