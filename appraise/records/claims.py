"""Cost new and depreciation, facts weighed for actual cash value, the policy and what it covers."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import (
    CashValueReading,
    DeductibleOrder,
    DepreciationManner,
    SetClause,
    SettlementBasis,
)

COVER_USES = ("insurance", "insurance claim", "yearly reappraisal")


@frozen(kw_only=True)
class Depreciation:
    """The cost of a new one of one item, and what is taken off for age, use and the market."""

    row: int
    item: str | Missing = column(
        "Item id",
        K.REFERENCE,
        refers_to="Items",
        required="always",
        hint="One line for each item whose cost new is wanted.",
        example="G04",
    )
    price: Decimal | Missing = column(
        "Price new",
        K.AMOUNT,
        required="always",
        hint="What a new one of like kind and quality costs today, before tax.",
        example="2399.00",
    )
    currency: str | Missing = column(
        "Currency", K.CURRENCY, hint="Of price and freight. Blank: report currency.", example="USD"
    )
    seen_on: date | Missing = column(
        "Price seen on", K.DAY, hint="Its exchange rate is used. Blank: date of loss.", example="2025-03-20"
    )
    source: str | Missing = column(
        "Source of the price",
        K.LONG_TEXT,
        required="always",
        hint="Maker's list, dealer's quotation, invoice.",
        example="maker's list of March 2025",
    )
    freight: Decimal | Missing = column("Freight", K.AMOUNT, hint="To the owner's door. Blank: 0.", example="85.00")
    tax: Decimal | Missing = column(
        "Sales tax %", K.PERCENT, hint="On the price, where the policy pays it. Blank: 0.", example="8"
    )
    manner: DepreciationManner | Missing = column(
        "Depreciated",
        K.CHOICE,
        choices=DepreciationManner,
        hint="Blank: by age and life. Not for old instruments whose price rises with age.",
        example="by age and life",
    )
    in_service: date | Missing = column(
        "In use since",
        K.DAY,
        required="by age and life, unless an effective age is typed",
        hint="Day it was first used. Full months to the date of loss are counted.",
        example="2017-09-20",
    )
    effective_age: Decimal | Missing = column(
        "Effective age, months",
        K.WHOLE,
        hint="Instead of the real age, if a rebuild or hard use made it younger or older.",
        example="36",
    )
    effective_age_reason: str | Missing = column(
        "Why this effective age",
        K.LONG_TEXT,
        required="with an effective age",
        hint="What made it younger or older than its years.",
        example="re-coned and re-covered in 2022, invoice in file",
    )
    life: Decimal | Missing = column(
        "Useful life, months",
        K.WHOLE,
        required="by age and life",
        hint="From new until only the residual is left: 240 is twenty years.",
        example="240",
    )
    residual: Decimal | Missing = column(
        "Residual %", K.PERCENT, hint="What is left at the end of its life, of the cost new. Blank: 0.", example="20"
    )
    percent_good: Decimal | Missing = column(
        "Percent good",
        K.PERCENT,
        required="by percent good",
        hint="What it is worth by its condition, of the cost new.",
        example="65",
    )
    yearly: Decimal | Missing = column(
        "Percent a year", K.PERCENT, required="by a percent each year", hint="For the two yearly manners.", example="20"
    )
    functional: Decimal | Missing = column(
        "Functional %", K.PERCENT, hint="Outdated in use. Taken after age. Blank: 0.", example="5"
    )
    functional_reason: str | Missing = column(
        "Why functional",
        K.LONG_TEXT,
        required="with a functional percent",
        hint="What it lacks against a new one.",
        example="no effects loop",
    )
    economic: Decimal | Missing = column(
        "Economic %", K.PERCENT, hint="Weak market for such things. Taken last. Blank: 0.", example="10"
    )
    economic_reason: str | Missing = column(
        "Why economic",
        K.LONG_TEXT,
        required="with an economic percent",
        hint="What outside it lowers its worth.",
        example="large cabinets sell slowly",
    )


@frozen(kw_only=True)
class ValueFact:
    """One fact weighed in a broad-evidence finding of actual cash value."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G04"
    )
    fact: str | Missing = column(
        "Fact",
        K.LONG_TEXT,
        required="always",
        hint="What bears on the value: cost new less depreciation, sales, offers, cost, use, condition.",
        example="two private sales of the same model in the spring",
    )
    points_to: Decimal | Missing = column(
        "Points to",
        K.AMOUNT,
        hint="The amount it points to, in report currency. Blank: a fact without a figure.",
        example="1650",
    )
    weight: Decimal | Missing = column(
        "Weight", K.NUMBER, required="with an amount", hint="0: told, not counted.", example="2"
    )
    reason: str | Missing = column(
        "Why this weight",
        K.LONG_TEXT,
        required="always",
        hint="Why it counts so much or so little.",
        example="nearest in time and condition",
    )


@frozen(kw_only=True)
class Policy:
    """The one record of the sheet Policy: what the insurer promised, in the policy's own terms."""

    row: int
    insurer: str | Missing = column("Insurer", hint="As named in the policy.", example="Hollin Gate Mutual")
    number: str | Missing = column("Policy number", K.VERBATIM, hint="As on the policy.", example="HG-00417")
    starts: date | Missing = column(
        "Policy year from", K.DAY, hint="First day of the policy year.", example="2024-07-01"
    )
    ends: date | Missing = column("Policy year to", K.DAY, hint="Last day.", example="2025-06-30")
    clause: str | Missing = column(
        "Valuation clause",
        K.LONG_TEXT,
        required="always",
        hint="Word for word from the policy; never from memory.",
        example="",
    )
    basis: SettlementBasis | Missing = column(
        "Pays",
        K.CHOICE,
        choices=SettlementBasis,
        required="always",
        hint="As that clause says. A stated amount is a ceiling, not an agreed value.",
        example="actual cash value",
    )
    cash_value: CashValueReading | Missing = column(
        "Reads actual cash value as",
        K.CHOICE,
        choices=CashValueReading,
        required="where actual cash value is stated",
        hint="From the policy or the law of the place; ask the insurer.",
        example="cost new less depreciation",
    )
    limit: Decimal | Missing = column("Blanket limit", K.AMOUNT, hint="One limit over everything.", example="60000")
    item_cap: Decimal | Missing = column("Limit for one item", K.AMOUNT, hint="A set is one item.", example="15000")
    main_location: str | Missing = column(
        "Main location",
        hint="As under Location on Items; the others are away. Blank: where most items are kept.",
        example="Port Aldous house",
    )
    margin: Decimal | Missing = column(
        "Margin clause %", K.PERCENT, hint="At most this percent of an item's scheduled amount.", example="110"
    )
    coinsurance: Decimal | Missing = column(
        "Coinsurance %", K.PERCENT, hint="Part of the value that must be insured. Blank: none.", example="100"
    )
    deductible: Decimal | Missing = column("Deductible", K.AMOUNT, hint="Blank: 0.", example="500")
    deductible_order: DeductibleOrder | Missing = column(
        "Deductible taken",
        K.CHOICE,
        choices=DeductibleOrder,
        required="with coinsurance and a deductible",
        hint="Blank: after the ratio.",
        example="after the ratio",
    )
    exact_ratio: bool | Missing = column(
        "Exact ratio",
        K.YES_NO,
        hint="yes: loss times limit divided by required, the ratio not rounded. Blank: its six decimals are carried.",
        example="no",
    )
    agreed_until: date | Missing = column(
        "Agreed value until", K.DAY, hint="Last day of the agreed value; then coinsurance applies.", example=""
    )
    set_clause: SetClause | Missing = column(
        "Pair and set clause",
        K.CHOICE,
        choices=SetClause,
        hint="Blank: smaller of difference and restoring.",
        example="smaller of difference and restoring",
    )
    inflation_guard: Decimal | Missing = column(
        "Inflation guard % a year", K.PERCENT, hint="Raises the limit day by day, not compounded.", example="4"
    )


@frozen(kw_only=True)
class Cover:
    """What the policy or schedule holds for one item."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    value: Decimal | Missing = column(
        "Value now", K.AMOUNT, hint="On the policy's basis. Blank: as concluded in this workbook.", example="18500.00"
    )
    scheduled: Decimal | Missing = column(
        "Scheduled limit", K.AMOUNT, hint="What the schedule shows, neither agreed nor stated.", example="17000"
    )
    agreed: Decimal | Missing = column(
        "Agreed value", K.AMOUNT, hint="Fixed by insurer and insured; paid in full on total loss.", example=""
    )
    stated: Decimal | Missing = column(
        "Stated amount", K.AMOUNT, hint="A ceiling only. Never the same cell as an agreed value.", example=""
    )


DEPRECIATION = declare_sheet(
    Depreciation,
    "Depreciation",
    "Cost of a new one, less age, use and market.",
    uses=("insurance", "insurance claim"),
)
VALUE_FACTS = declare_sheet(
    ValueFact,
    "Value facts",
    "Facts weighed where actual cash value is read by broad evidence.",
    uses=("insurance claim",),
)
POLICY = declare_sheet(Policy, "Policy", "The terms of the policy, one line for each.", form=True, uses=COVER_USES)
COVERS = declare_sheet(Cover, "Cover", "What the policy holds for each item.", uses=COVER_USES)
