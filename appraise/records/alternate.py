"""Sheets of an estate valued at the alternate date: each item on its day, counsel's other figures."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Departure, PriceKind


@frozen(kw_only=True)
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


@frozen(kw_only=True)
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


ALTERNATE = declare_sheet(AlternateLine, "Alternate date", "Each item six months after the death.", uses=("estate",))
COUNSEL_FIGURES = declare_sheet(
    CounselFigures, "Counsel's figures", "The rest of the gross estate.", form=True, uses=("estate",)
)
