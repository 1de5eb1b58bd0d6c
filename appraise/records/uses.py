"""Sheets that only some uses need: proceeds, liquidation, alternate date, yearly treatment, later and repeat sales."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Departure, Family, Market, PriceKind, SaleRoute, Treatment, ValueType

SELLING_USES = ("division of property", "sale advice")


@dataclass(frozen=True, slots=True, kw_only=True)
class Proceeds:
    """How one item would be sold, and what that costs the seller."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="One line for each item.", example="G05"
    )
    route: SaleRoute | Missing = column(
        "Sold by", K.CHOICE, choices=SaleRoute, hint="Blank: auction.", example="auction"
    )
    price: Decimal | Missing = column(
        "Price the buyer pays",
        K.AMOUNT,
        hint="With the buyer's premium. Blank: the fair market value concluded in this workbook.",
        example="24500.00",
    )
    premium_table: str | Missing = column(
        "Premium table",
        K.REFERENCE,
        refers_to="Premiums",
        required="at auction",
        hint="The buyer's premium, which the seller never sees.",
        example="A2",
    )
    sale_day: date | Missing = column(
        "Sale expected on", K.DAY, hint="Picks the premium in force. Blank: effective date.", example="2025-06-14"
    )
    commission_table: str | Missing = column(
        "Commission table",
        K.REFERENCE,
        refers_to="Commissions",
        required="always",
        hint="What the house or dealer keeps of the seller's money.",
        example="M",
    )
    taxed_fees: Decimal | Missing = column(
        "Taxed fees", K.AMOUNT, hint="Illustration, handling. Blank: 0.", example="60.00"
    )
    untaxed_costs: Decimal | Missing = column(
        "Untaxed costs", K.AMOUNT, hint="Carriage and such. Blank: 0.", example="95.00"
    )
    charge_tax: Decimal | Missing = column(
        "Tax on charges %", K.PERCENT, hint="On commission and taxed fees. Blank: 0.", example="5"
    )
    cover: Decimal | Missing = column(
        "Loss and damage cover %", K.PERCENT, hint="Of the hammer price. Blank: 0.", example="1.5"
    )
    yearly: Decimal | Missing = column(
        "Time value % a year", K.PERCENT, hint="Simple interest until the money comes. Blank: 0.", example="6"
    )
    months: Decimal | Missing = column(
        "Months until paid", K.NUMBER, required="with a time value", hint="From the effective date.", example="5"
    )
    source: str | Missing = column(
        "Source of the terms",
        K.LONG_TEXT,
        required="always",
        hint="Where they are published or agreed.",
        example="conditions of sale of 2025-01",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CommissionTier:
    """One tier of a seller's commission; a table is the rows with the same id, in ascending order."""

    row: int
    table: str | Missing = column(
        "Commission table", K.IDENTITY, required="always", hint="Same id on every tier.", example="M"
    )
    house: str | Missing = column(
        "House or dealer", required="always", hint="Name of the house or dealer.", example="Marrowby Rooms"
    )
    currency: str | Missing = column(
        "Currency", K.CURRENCY, required="always", hint="Three letters (ISO 4217).", example="USD"
    )
    up_to: Decimal | Missing = column("Tier up to", K.AMOUNT, hint="Hammer price. Blank: no end.", example="5000")
    rate: Decimal | Missing = column("Rate %", K.PERCENT, required="always", hint="Percent of this tier.", example="15")
    least: Decimal | Missing = column(
        "Not below", K.AMOUNT, hint="Smallest commission on one lot; on any tier.", example="90"
    )
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="seller's terms 2025"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidationTerms:
    """The one record of the sheet Liquidation terms: how the whole would be sold, in good order or at once."""

    row: int
    months: Decimal | Missing = column(
        "Orderly sale, months", K.NUMBER, required="always", hint="Time given to sell.", example="4"
    )
    discount: Decimal | Missing = column(
        "Orderly discount %", K.PERCENT, required="always", hint="For having to sell in that time.", example="12"
    )
    selling: Decimal | Missing = column(
        "Orderly selling cost %", K.PERCENT, required="always", hint="Of what is then left.", example="10"
    )
    commission: Decimal | Missing = column(
        "Forced sale commission %", K.PERCENT, required="always", hint="Of the hammer price.", example="20"
    )
    fixed_costs: Decimal | Missing = column(
        "Forced sale fixed costs", K.AMOUNT, hint="Once for the whole sale. Blank: 0.", example="350.00"
    )
    reason: str | Missing = column(
        "Basis of these figures",
        K.LONG_TEXT,
        required="always",
        hint="What they rest on.",
        example="two closing sales in the region",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidationLot:
    """One lot of equal units in a liquidation."""

    row: int
    id: str | Missing = column("Lot id", K.IDENTITY, required="always", hint="Permanent.", example="u")
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="U01"
    )
    units: Decimal | Missing = column("Units", K.WHOLE, required="always", hint="How many alike.", example="24")
    unit_value: Decimal | Missing = column(
        "Value of one", K.AMOUNT, hint="Blank: the fair market value concluded for the item.", example="312.50"
    )
    holding: Decimal | Missing = column(
        "Holding cost a month", K.AMOUNT, hint="Rent, insurance. Blank: 0.", example="40.00"
    )
    forced: Decimal | Missing = column(
        "Forced sale brings %", K.PERCENT, required="always", hint="Of the value of one.", example="45"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Absorption:
    """So many units of a lot at so much: how fast the market takes them, in the order typed."""

    row: int
    lot: str | Missing = column(
        "Lot id",
        K.REFERENCE,
        refers_to="Liquidation",
        required="always",
        hint="Id from the sheet Liquidation.",
        example="u",
    )
    units: Decimal | Missing = column("Units", K.WHOLE, hint="Blank: all the rest.", example="5")
    percent: Decimal | Missing = column(
        "At % of the value of one", K.PERCENT, required="always", hint="100 is the full value of one.", example="100"
    )
    reason: str | Missing = column(
        "Why", K.LONG_TEXT, required="always", hint="The reason.", example="five sold in a usual year"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class AlternateLine:
    """One item of an estate (or a part of one) six months after the death."""

    row: int
    id: str | Missing = column(
        "Line id",
        K.IDENTITY,
        required="always",
        hint="Permanent. An item disposed of in parts has several.",
        example="a1",
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    share: Decimal | Missing = column(
        "Part of the item %", K.PERCENT, hint="Blank: the whole. The parts of one item make 100.", example=""
    )
    at_death: Decimal | Missing = column(
        "Value at death",
        K.AMOUNT,
        hint="Before rounding, of this part. Blank: as concluded in this workbook.",
        example="24187.36",
    )
    departure: Departure | Missing = column(
        "What became of it",
        K.CHOICE,
        choices=Departure,
        required="always",
        hint="Pick from the list.",
        example="still held",
    )
    day: date | Missing = column(
        "On", K.DAY, required="if no longer held", hint="Day of sale, distribution or completion.", example="2025-03-10"
    )
    contract_day: date | Missing = column(
        "Contract of", K.DAY, hint="Day of a binding contract, if one came first.", example="2025-02-27"
    )
    contract_kept: bool | Missing = column(
        "Contract carried out", K.YES_NO, hint="no: not in substance, so its day does not count.", example="yes"
    )
    price: Decimal | Missing = column("Price received", K.AMOUNT, hint="In report currency.", example="29000.00")
    price_kind: PriceKind | Missing = column(
        "Kind of price",
        K.CHOICE,
        choices=PriceKind,
        required="with a price",
        hint="Pick from the list.",
        example="hammer",
    )
    premium_table: str | Missing = column(
        "Premium table",
        K.REFERENCE,
        refers_to="Premiums",
        required="with a hammer price",
        hint="Id of the table on Premiums.",
        example="A2",
    )
    arms_length: bool | Missing = column(
        "At arm's length", K.YES_NO, required="with a price", hint="no: the price is not the value.", example="yes"
    )
    appraised: Decimal | Missing = column(
        "Appraised then", K.AMOUNT, hint="Your own figure on the day that counts, before rounding.", example="17750.00"
    )
    index: str | Missing = column(
        "Roll by index",
        K.REFERENCE,
        refers_to="Indexes",
        hint="Only where neither a price nor your own figure is typed.",
        example="ARCH",
    )
    remark: str | Missing = column(
        "Remark",
        K.LONG_TEXT,
        required="a later sale differs from the figure",
        hint="Anything a reader should know.",
        example="",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CounselFigures:
    """The one record of the sheet Counsel's figures: the rest of the estate. Blank: no election test is printed."""

    row: int
    other_at_death: Decimal | Missing = column(
        "Other gross estate at death", K.AMOUNT, hint="All that is not on this schedule.", example="14210500.00"
    )
    other_alternate: Decimal | Missing = column(
        "Other gross estate, alternate", K.AMOUNT, hint="The same at the alternate date.", example="14198250.00"
    )
    given_by: str | Missing = column(
        "Given by", required="with a figure", hint="Counsel's name and date of the letter.", example=""
    )


@dataclass(frozen=True, slots=True, kw_only=True)
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
        "Percent", K.PERCENT, required="treatment percent", hint="2.5 raises, -2.5 lowers.", example="2.5"
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
        hint="Part of the change before rounding that the object's own state explains, with its sign. Blank: none.",
        example="-450.00",
    )
    removed_on: date | Missing = column(
        "Removed on", K.DAY, required="treatment removed", hint="Day it left the schedule.", example="2025-02-14"
    )
    owner_reply: bool | Missing = column(
        "Owner has replied", K.YES_NO, hint="yes: the owner has told of changes, or of none.", example="yes"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class LaterSale:
    """What an item brought after it had been valued; for the appraiser's own track record."""

    row: int
    item: str | Missing = column("Item", required="always", hint="Id or name; from any job.", example="G01")
    family: Family | Missing = column(
        "Family", K.CHOICE, choices=Family, required="always", hint="Pick from the list.", example="archtop guitar"
    )
    value_type: ValueType | Missing = column(
        "Value type",
        K.CHOICE,
        choices=ValueType,
        required="always",
        hint="Pick from the list.",
        example="fair market value",
    )
    value: Decimal | Missing = column(
        "Value reported", K.AMOUNT, required="always", hint="As it stood in your report.", example="24200"
    )
    value_day: date | Missing = column(
        "Value of", K.DAY, required="always", hint="The effective date of that report.", example="2024-08-31"
    )
    price: Decimal | Missing = column(
        "Price brought", K.AMOUNT, required="always", hint="In the currency of the value.", example="25100.00"
    )
    price_kind: PriceKind | Missing = column(
        "Kind of price", K.CHOICE, choices=PriceKind, required="always", hint="Pick from the list.", example="all-in"
    )
    market: Market | Missing = column(
        "Market", K.CHOICE, choices=Market, required="always", hint="Pick from the list.", example="auction"
    )
    day: date | Missing = column("Sold on", K.DAY, required="always", hint="Day of the sale.", example="2025-03-05")
    source: str | Missing = column("Source", required="always", hint="Where it comes from.", example="published result")


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatSale:
    """One object sold twice: the raw matter of an index of one's own."""

    row: int
    id: str | Missing = column("Pair id", K.IDENTITY, required="always", hint="Permanent.", example="R01")
    index: str | Missing = column(
        "Index id", required="always", hint="Pairs of one name make one index.", example="OWN-ARCH"
    )
    object: str | Missing = column(
        "Object", required="always", hint="What was sold twice.", example="Skarvholm Consul 17, 2217"
    )
    first_month: str | Missing = column(
        "First month", K.MONTH, required="always", hint="Month of the first sale, yyyy-mm.", example="2019-05"
    )
    first_price: Decimal | Missing = column(
        "First price", K.AMOUNT, required="always", hint="On one footing with the second.", example="17500"
    )
    second_month: str | Missing = column(
        "Second month", K.MONTH, required="always", hint="Month of the second sale, yyyy-mm.", example="2023-10"
    )
    second_price: Decimal | Missing = column(
        "Second price", K.AMOUNT, required="always", hint="Same footing, same currency.", example="21800"
    )
    changed: bool | Missing = column(
        "Changed in between", K.YES_NO, required="always", hint="yes: restored or damaged; not used.", example="no"
    )
    source: str | Missing = column("Sources", required="always", hint="Sale ids or results.", example="S014; S102")


PROCEEDS = declare_sheet(Proceeds, "Proceeds", "What each item would put into the owner's hand.", uses=SELLING_USES)
COMMISSIONS = declare_sheet(
    CommissionTier, "Commissions", "Sellers' commissions by house.", uses=SELLING_USES, library=True
)
LIQUIDATION_TERMS = declare_sheet(
    LiquidationTerms, "Liquidation terms", "How the whole would be sold.", form=True, uses=("sale advice",)
)
LIQUIDATION = declare_sheet(LiquidationLot, "Liquidation", "Lots of equal units.", uses=("sale advice",))
ABSORPTION = declare_sheet(Absorption, "Absorption", "How fast the market takes them.", uses=("sale advice",))
ALTERNATE = declare_sheet(AlternateLine, "Alternate date", "Each item six months after the death.", uses=("estate",))
COUNSEL_FIGURES = declare_sheet(
    CounselFigures, "Counsel's figures", "The rest of the gross estate.", form=True, uses=("estate",)
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
LATER_SALES = declare_sheet(
    LaterSale, "Later sales", "What valued items brought afterwards; never in a client's report.", library=True
)
REPEAT_SALES = declare_sheet(RepeatSale, "Repeat sales", "Objects sold twice, for an index of your own.", library=True)
