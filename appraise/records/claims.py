"""Loss and cover: depreciation, damage, repairs, paired sales, sets, the policy and what it covers."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import (
    CashValueReading,
    DamageOrigin,
    DeductibleOrder,
    DepreciationManner,
    RepairState,
    SetClause,
    SettlementBasis,
)

LOSS_USES = ("insurance claim", "expert report")
COVER_USES = ("insurance", "insurance claim", "yearly reappraisal")


@dataclass(frozen=True, slots=True, kw_only=True)
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
        hint="",
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
        "Why functional", K.LONG_TEXT, required="with a functional percent", hint="", example="no effects loop"
    )
    economic: Decimal | Missing = column(
        "Economic %", K.PERCENT, hint="Weak market for such things. Taken last. Blank: 0.", example="10"
    )
    economic_reason: str | Missing = column(
        "Why economic", K.LONG_TEXT, required="with an economic percent", hint="", example="large cabinets sell slowly"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueFact:
    """One fact weighed in a broad-evidence finding of actual cash value."""

    row: int
    item: str | Missing = column("Item id", K.REFERENCE, refers_to="Items", required="always", hint="", example="G04")
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
        "Why this weight", K.LONG_TEXT, required="always", hint="", example="nearest in time and condition"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What happened to one item, and the values before and after."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="One line for each item hurt.", example="G02"
    )
    event: str | Missing = column(
        "Event", K.LONG_TEXT, required="always", hint="What happened, as reported.", example="dropped by the carrier"
    )
    before: Decimal | Missing = column(
        "Value before",
        K.AMOUNT,
        hint="Just before the event, same kind of value as after. Blank: the value before rounding in this workbook.",
        example="31462.80",
    )
    as_it_stands: Decimal | Missing = column(
        "Value as it stands",
        K.AMOUNT,
        required="always",
        hint="On the same day and in the same market, damaged and not repaired.",
        example="21000.00",
    )
    as_it_stands_reason: str | Missing = column(
        "Why this value as it stands", K.LONG_TEXT, required="always", hint="", example="two dealers' offers in file"
    )
    stigma: Decimal | Missing = column(
        "Lasting loss after repair %",
        K.PERCENT,
        hint="Instead of Paired sales: how much less a well repaired one brings.",
        example="",
    )
    stigma_reason: str | Missing = column(
        "Why this lasting loss", K.LONG_TEXT, required="with a lasting loss", hint="", example=""
    )
    after_repair: Decimal | Missing = column(
        "Value once repaired", K.AMOUNT, hint="Instead of a percent. Higher than before: betterment.", example=""
    )
    after_repair_reason: str | Missing = column(
        "Why this value once repaired", K.LONG_TEXT, required="with a value once repaired", hint="", example=""
    )
    salvage: Decimal | Missing = column(
        "Salvage", K.AMOUNT, hint="What the damaged thing fetches as parts or project.", example="6000"
    )
    threshold: Decimal | Missing = column(
        "Total loss from %", K.PERCENT, hint="Of the value before. Blank: no such test.", example="75"
    )
    cap_by_salvage: bool | Missing = column(
        "Not above value less salvage", K.YES_NO, hint="yes: loss capped at value before less salvage.", example="no"
    )
    net_of_betterment: bool | Missing = column(
        "Less betterment", K.YES_NO, hint="yes: a repair that raises the value is paid less the rise.", example="no"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Damage:
    """One damage found on an item, and when it came about."""

    row: int
    id: str | Missing = column(
        "Damage id", K.IDENTITY, required="always", hint="Permanent, unique in the workbook.", example="D1"
    )
    item: str | Missing = column("Item id", K.REFERENCE, refers_to="Items", required="always", hint="", example="G02")
    part: str | Missing = column("Part", required="always", hint="", example="top")
    description: str | Missing = column(
        "Damage", K.LONG_TEXT, required="always", hint="", example="crack from bridge to edge, 190 mm, fresh wood"
    )
    origin: DamageOrigin | Missing = column(
        "Came about",
        K.CHOICE,
        choices=DamageOrigin,
        required="always",
        hint="Say 'cannot tell' rather than guess.",
        example="from the event",
    )
    origin_reason: str | Missing = column(
        "How it is known",
        K.LONG_TEXT,
        required="always",
        hint="Clean edges, earlier photographs, old glue.",
        example="clean edges; absent on photographs of 2023",
    )
    photo: str | Missing = column("Photo", K.FILE, hint="A file listed on Photos.", example="photos/G02-top.jpg")


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLine:
    """One line of the repair estimate."""

    row: int
    item: str | Missing = column("Item id", K.REFERENCE, refers_to="Items", required="always", hint="", example="G02")
    damage: str | Missing = column(
        "Damage id", K.REFERENCE, refers_to="Damage", hint="Blank: serves all damage from the event.", example="D1"
    )
    work: str | Missing = column("Work or material", required="always", hint="", example="luthier's labour")
    amount: Decimal | Missing = column(
        "Amount", K.AMOUNT, required="always", hint="In report currency, before tax.", example="2860.00"
    )
    tax: Decimal | Missing = column("Sales tax %", K.PERCENT, hint="Only if this line is taxed.", example="7.5")
    state: RepairState | Missing = column(
        "Done or proposed", K.CHOICE, choices=RepairState, required="always", hint="", example="proposed"
    )
    estimator: str | Missing = column(
        "Estimated by", required="always", hint="Who, and when.", example="Ferrow workshop, 2025-01-22"
    )
    second_amount: Decimal | Missing = column(
        "Second estimate", K.AMOUNT, hint="From someone else; shown beside it.", example="3100.00"
    )
    second_estimator: str | Missing = column(
        "Second estimate by", required="with a second estimate", hint="", example="Lunnet & Daughter, 2025-01-25"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PairedSale:
    """Two sales alike but for one thing, from which its effect on the price is read."""

    row: int
    id: str | Missing = column(
        "Pair id", K.IDENTITY, required="always", hint="Permanent, unique in the workbook.", example="pair1"
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", hint="The damaged item it serves. Blank: a general pair.", example=""
    )
    element: str | Missing = column(
        "Differ in",
        required="always",
        hint="The one thing they differ in. Pairs of one name are taken together.",
        example="repaired top crack",
    )
    better: Decimal | Missing = column(
        "Price of the better one",
        K.AMOUNT,
        required="always",
        hint="Undamaged, or with the wanted feature. Both in report currency and on one footing.",
        example="28500.00",
    )
    poorer: Decimal | Missing = column(
        "Price of the poorer one", K.AMOUNT, required="always", hint="Repaired, or without it.", example="23100.00"
    )
    weight: Decimal | Missing = column("Weight", K.NUMBER, required="always", hint="0: shown, not used.", example="2")
    better_source: str | Missing = column(
        "Sale of the better one", required="always", hint="Sale id or published result.", example="S014"
    )
    poorer_source: str | Missing = column("Sale of the poorer one", required="always", hint="", example="S021")
    remark: str | Missing = column(
        "Why they are alike", K.LONG_TEXT, required="always", hint="", example="same model and year, same sale"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SetLoss:
    """A set or pair of which part is lost: the values of the whole and of what is left."""

    row: int
    set_id: str | Missing = column(
        "Set", K.IDENTITY, required="always", hint="The word typed under Set on Items.", example="TEA"
    )
    whole: Decimal | Missing = column(
        "Value of the whole set", K.AMOUNT, required="always", hint="Before the loss.", example="18500.00"
    )
    rest: Decimal | Missing = column(
        "Value of what is left",
        K.AMOUNT,
        required="always",
        hint="As an incomplete set, damaged pieces as repaired.",
        example="12100.00",
    )
    replacement: Decimal | Missing = column(
        "Cost of replacement pieces", K.AMOUNT, hint="Blank: no like pieces can be had.", example="3950.00"
    )
    matching: Decimal | Missing = column(
        "Cost of matching them", K.AMOUNT, hint="Engraving, finish. Blank: 0.", example="640.00"
    )
    repair: Decimal | Missing = column("Repair of surviving pieces", K.AMOUNT, hint="With tax. Blank: 0.", example="")
    repair_loss: Decimal | Missing = column(
        "Lasting loss of repaired pieces", K.AMOUNT, hint="What they stay worth less once repaired.", example=""
    )
    source: str | Missing = column(
        "Basis of these figures", K.LONG_TEXT, required="always", hint="", example="three sales of incomplete services"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of a set, valued as if it stood alone."""

    row: int
    set_id: str | Missing = column(
        "Set", K.REFERENCE, refers_to="Sets", required="always", hint="As on Sets.", example="TEA"
    )
    piece: str | Missing = column("Piece", required="always", hint="", example="sugar bowl")
    alone: Decimal | Missing = column(
        "Value alone", K.AMOUNT, required="always", hint="As a single, not as a share of the set.", example="1500.00"
    )
    lost: bool | Missing = column(
        "Lost", K.YES_NO, required="always", hint="yes if stolen or destroyed.", example="yes"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """The one record of the sheet Policy: what the insurer promised, in the policy's own terms."""

    row: int
    insurer: str | Missing = column("Insurer", hint="As named in the policy.", example="Hollin Gate Mutual")
    number: str | Missing = column("Policy number", K.VERBATIM, hint="", example="HG-00417")
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """What the policy or schedule holds for one item."""

    row: int
    item: str | Missing = column("Item id", K.REFERENCE, refers_to="Items", required="always", hint="", example="G01")
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
LOSSES = declare_sheet(Loss, "Losses", "Items hurt, with their values before and after.", uses=LOSS_USES)
DAMAGE = declare_sheet(Damage, "Damage", "Each damage, and when it came about.", uses=LOSS_USES)
REPAIRS = declare_sheet(RepairLine, "Repairs", "The repair estimate, line by line.", uses=LOSS_USES)
PAIRED_SALES = declare_sheet(
    PairedSale, "Paired sales", "Two sales alike but for one thing, to measure that thing.", library=True
)
SETS = declare_sheet(SetLoss, "Sets", "Sets and pairs that lost a piece.", uses=LOSS_USES)
PIECES = declare_sheet(Piece, "Set pieces", "The pieces of those sets, valued one by one.", uses=LOSS_USES)
POLICY = declare_sheet(Policy, "Policy", "The terms of the policy, one line for each.", form=True, uses=COVER_USES)
COVERS = declare_sheet(Cover, "Cover", "What the policy holds for each item.", uses=COVER_USES)
