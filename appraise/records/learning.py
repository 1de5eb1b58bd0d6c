"""Sheets to learn from: what valued items brought afterwards, and objects sold twice."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Family, Market, PriceKind, ValueType


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


LATER_SALES = declare_sheet(
    LaterSale, "Later sales", "What valued items brought afterwards; never in a client's report.", library=True
)
REPEAT_SALES = declare_sheet(RepeatSale, "Repeat sales", "Objects sold twice, for an index of your own.", library=True)
