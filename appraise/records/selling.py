"""Sheets for division and sale advice: proceeds, commissions, liquidation."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import SaleRoute

SELLING_USES = ("division of property", "sale advice")


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


PROCEEDS = declare_sheet(Proceeds, "Proceeds", "What each item would put into the owner's hand.", uses=SELLING_USES)
COMMISSIONS = declare_sheet(
    CommissionTier, "Commissions", "Sellers' commissions by house.", uses=SELLING_USES, library=True
)
LIQUIDATION_TERMS = declare_sheet(
    LiquidationTerms, "Liquidation terms", "How the whole would be sold.", form=True, uses=("sale advice",)
)
LIQUIDATION = declare_sheet(LiquidationLot, "Liquidation", "Lots of equal units.", uses=("sale advice",))
ABSORPTION = declare_sheet(Absorption, "Absorption", "How fast the market takes them.", uses=("sale advice",))
