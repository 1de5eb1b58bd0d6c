"""Until when the file of a report is kept.

The later of so many years after the report was prepared and so many after the final disposition of a proceeding in
which the appraiser testified. Counted from preparation, never from the effective date. 29 February becomes 1 March,
the later of the two customary readings. Testimony given or expected without a final disposition leaves no day: hold.
Each version issued has its own day.
"""

from datetime import date

from appraise.valuing.days import years_after


def keep_until(
    prepared: date, *, years: int, disposed: date | None = None, years_after_testimony: int, pending: bool = False
) -> date | None:
    """Return the last day the file must be kept; None: no day can be named, hold it.

    prepared               day the report (this version) was prepared
    years                  after preparation (rule data; some states differ)
    disposed               final disposition of a proceeding with testimony, if there was one
    years_after_testimony  after that disposition (rule data)
    pending                testimony was given or is expected and the proceeding is not finally disposed of

    >>> keep_until(date(2024, 2, 29), years=5, years_after_testimony=2)
    datetime.date(2029, 3, 1)
    """
    if pending:
        return None
    after_preparation = years_after(prepared, years)
    if disposed is None:
        return after_preparation
    return max(after_preparation, years_after(disposed, years_after_testimony))
