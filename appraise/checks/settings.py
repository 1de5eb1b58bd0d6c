"""Thresholds of the checks. None of them is a rule of law: each is our default, no source, and may be set otherwise."""

from decimal import Decimal

from appraise.model.frozen import frozen


@frozen(kw_only=True)
class Settings:
    """The thresholds; every one is our default, no source.

    inspection_months     an inspection older than this at the effective date is stale
    retrospective_months  an inspection later than this after the effective date shows another condition
    photo_months          a photograph older than this at the inspection is old
    grade_distance        grades between comparison and subject above which they are unlike
    detail_value          from this value on an item is shown from front and back [report currency]
    short_value           the short route serves up to this value [report currency]
    range_steps           a range of more rounding steps than this does not bear so fine a rounding
    history_months        a dealing with the subject this recent bears on the value
    history_percent       and a value further from its price than this needs a word
    collected_years       such an object this old is collected for its age
    resale_days           two records of one price within so many days may be one sale
    common_ratio_items    so many items with one and the same ratio between two values look computed from one another
    description_words     a description shorter than this does not tell an object from its like
    reason_words          a reconciliation shorter than this gives no reason
    """

    inspection_months: int = 36
    retrospective_months: int = 6
    photo_months: int = 36
    grade_distance: Decimal = Decimal(2)
    detail_value: Decimal = Decimal(5000)
    short_value: Decimal = Decimal(1000)
    range_steps: Decimal = Decimal(100)
    history_months: int = 24
    history_percent: Decimal = Decimal(50)
    resale_days: int = 7
    collected_years: int = 25
    common_ratio_items: int = 3
    description_words: int = 4
    reason_words: int = 4


DEFAULT_SETTINGS = Settings()
