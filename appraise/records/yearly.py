"""Sheets of the yearly revaluation: what is done with each line, and the terms of the whole."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Market, Treatment, ValueType


@frozen(kw_only=True)
class LineTreatment:
    """One line of last year's schedule and what is done with it this year."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    value_type: ValueType | Missing = column(
        "Value type",
        K.CHOICE,
        choices=ValueType,
        required="always",
        hint="Pick from the list.",
        example="retail replacement value",
    )
    treatment: Treatment | Missing = column(
        "Treatment", K.CHOICE, choices=Treatment, required="always", hint="What is done this year.", example="index"
    )
    reason: str | Missing = column(
        "Why this treatment",
        K.LONG_TEXT,
        required="always",
        hint="The reason, for the owner.",
        example="owner reports no change",
    )
    prior_day: date | Missing = column(
        "Prior value of",
        K.DAY,
        required="unless added",
        hint="Day of the value carried here; older than last year if it was held.",
        example="2024-06-30",
    )
    prior_value: Decimal | Missing = column(
        "Prior value before rounding", K.AMOUNT, hint="Rolled from this, never from the rounded.", example="41317.42"
    )
    prior_rounded: Decimal | Missing = column(
        "Prior value", K.AMOUNT, required="unless added", hint="As printed last year.", example="41300"
    )
    prior_currency: str | Missing = column("Prior currency", K.CURRENCY, hint="Blank: report currency.", example="USD")
    prior_value_type: ValueType | Missing = column(
        "Prior value type", K.CHOICE, choices=ValueType, hint="Blank: the same.", example=""
    )
    prior_market: Market | Missing = column(
        "Prior market", K.CHOICE, choices=Market, hint="Market the prior value was found in.", example="dealer retail"
    )
    market: Market | Missing = column(
        "Market", K.CHOICE, choices=Market, hint="This year's. Blank: the same as before.", example=""
    )
    inspected: date | Missing = column("Last inspected", K.DAY, hint="Blank: never seen by you.", example="2023-05-12")
    rolled_years: Decimal | Missing = column(
        "Years rolled so far", K.WHOLE, hint="Years in a row by index or percent, last year included.", example="1"
    )
    index: str | Missing = column(
        "Index",
        K.REFERENCE,
        refers_to="Indexes",
        required="treatment index",
        hint="Id from the sheet Indexes.",
        example="FLAT",
    )
    percent: Decimal | Missing = column(
        "Percent", K.PERCENT, signed=True, required="treatment percent", hint="2.5 raises, -2.5 lowers.", example="2.5"
    )
    new_value: Decimal | Missing = column(
        "New value before rounding",
        K.AMOUNT,
        hint="Fresh comparables or added. Blank: as concluded in this workbook.",
        example="12847.63",
    )
    new_currency: str | Missing = column(
        "Currency of the new value",
        K.CURRENCY,
        hint="Only if all fresh comparables are in one foreign currency.",
        example="",
    )
    condition_change: Decimal | Missing = column(
        "Of the change, by condition",
        K.AMOUNT,
        signed=True,
        hint="Part of the change before rounding that the object's own state explains, with its sign. Blank: none.",
        example="-450.00",
    )
    removed_on: date | Missing = column(
        "Removed on", K.DAY, required="treatment removed", hint="Day it left the schedule.", example="2025-02-14"
    )
    owner_reply: bool | Missing = column(
        "Owner has replied", K.YES_NO, hint="yes: the owner has told of changes, or of none.", example="yes"
    )


@frozen(kw_only=True)
class YearlyTerms:
    """The one record of the sheet Yearly terms: the prior schedule and when lines fall due."""

    row: int
    prior_day: date | Missing = column(
        "Prior schedule of", K.DAY, required="always", hint="Its effective date.", example="2024-06-30"
    )
    inspection_months: Decimal | Missing = column(
        "Inspect every, months", K.WHOLE, hint="Blank: 36, our default, no source.", example="36"
    )
    rolled_years: Decimal | Missing = column(
        "Rolled at most, years", K.WHOLE, hint="Then fresh comparables. Blank: 2, our default.", example="2"
    )
    roll_limit: Decimal | Missing = column(
        "Do not roll above", K.AMOUNT, hint="A dearer line deserves fresh comparables. Blank: none.", example="100000"
    )
    currency_reason: str | Missing = column(
        "Why the currency changed",
        K.LONG_TEXT,
        required="prior currency differs",
        hint="The reason, for the owner.",
        example="the owner moved; the policy is now in EUR",
    )


TREATMENTS = declare_sheet(
    LineTreatment,
    "Treatments",
    "Last year's schedule, and what is done with each line.",
    uses=("yearly reappraisal",),
)
YEARLY_TERMS = declare_sheet(
    YearlyTerms,
    "Yearly terms",
    "The prior schedule, and when lines fall due.",
    form=True,
    uses=("yearly reappraisal",),
)
