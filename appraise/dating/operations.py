"""The operations of dating: the later and the earlier of several months."""

from decimal import Decimal

from appraise.model.operations import Numbers, operation


@operation("latest month", "the latest of these months", lambda refs, places: f"MAX({','.join(refs)})")
def LATEST_MONTH(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Return the largest month number; at least one is needed."""
    return max(values)


@operation("earliest month", "the earliest of these months", lambda refs, places: f"MIN({','.join(refs)})")
def EARLIEST_MONTH(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Return the smallest month number; at least one is needed."""
    return min(values)
