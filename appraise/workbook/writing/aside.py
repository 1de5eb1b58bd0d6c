"""Sheets a use has but seldom needs: they are there, hidden, until the appraiser shows them or types into them.

Nothing depends on a sheet being seen: a hidden sheet is read like any other.
"""

#: Fields of the job whose sheets most jobs leave empty: tables that are kept in the library, or sheets of rare cases.
_SELDOM = frozenset(
    (
        "paired_sales",
        "repeat_sales",
        "later_sales",
        "rates",
        "indexes",
        "deductions",
        "model_periods",
        "feature_periods",
        "serial_ranges",
        "clauses",
        "sources",
        "renamings",
    )
)
#: Further ones, by use.
_SELDOM_IN = {
    "estate": ("alternate", "counsel_figures", "shares"),
    "insurance": ("depreciation",),
    "insurance claim": ("sets", "pieces", "value_facts"),
    "yearly reappraisal": ("depreciation",),
}
#: Sheets that are seldom needed, but by this use.
_SHOWN_IN = {"yearly reappraisal": ("indexes",), "insurance claim": ("paired_sales",)}


def set_aside(use: str) -> frozenset[str]:
    """Return the fields of the job whose sheets are hidden in a new workbook for `use`; none for the library (use "").

    >>> "rates" in set_aside("estate"), "indexes" in set_aside("yearly reappraisal")
    (True, False)
    """
    if not use:
        return frozenset()
    return (_SELDOM | frozenset(_SELDOM_IN.get(use, ()))) - frozenset(_SHOWN_IN.get(use, ()))
