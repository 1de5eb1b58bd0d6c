"""Sales, comparisons, opinions, costs and market notes."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import (
    Compare,
    Conclusion,
    CostKind,
    Family,
    FinishClass,
    Market,
    PriceKind,
    Route,
    ValueType,
)


@frozen(kw_only=True)
class Sale:
    """One price record."""

    row: int
    id: str | Missing = column(
        "Sale id", K.IDENTITY, required="always", hint="Permanent; one record of one price.", example="S001"
    )
    maker: str | Missing = column("Maker", required="always", hint="As the sale names it.", example="Skarvholm")
    model: str | Missing = column("Model", required="always", hint="As the sale names it.", example="Consul 17")
    kind: PriceKind | Missing = column(
        "Kind of price",
        K.CHOICE,
        choices=PriceKind,
        required="always",
        hint="hammer: before the premium. all-in: with it. asking: not paid.",
        example="hammer",
    )
    market: Market | Missing = column(
        "Market",
        K.CHOICE,
        choices=Market,
        required="always",
        hint="Level of the market it was made in.",
        example="auction",
    )
    currency: str | Missing = column(
        "Currency", K.CURRENCY, required="always", hint="Three letters (ISO 4217).", example="USD"
    )
    price: Decimal | Missing = column(
        "Price", K.AMOUNT, required="always", hint="As recorded, in the currency beside it.", example="21000.00"
    )
    day: date | Missing = column(
        "Date",
        K.DAY,
        required="always",
        hint="Day of sale; for an asking price the day it was seen.",
        example="2024-03-16",
    )
    house: str | Missing = column(
        "Place of sale", required="always", hint="House, dealer, or 'private, name in file'.", example="Marrowby Rooms"
    )
    verified: str | Missing = column(
        "Verified by",
        required="always",
        hint="Published result, conversation; or not verified.",
        example="house's published result",
    )
    grade: Decimal | Missing = column("Grade", K.NUMBER, hint="On the same scale as the subject.", example="8")
    premium_table: str | Missing = column(
        "Premium table",
        K.REFERENCE,
        refers_to="Premiums",
        hint="Id of the table; the one in force on the day is used.",
        example="A1",
    )
    lot: str | Missing = column("Lot or listing", K.VERBATIM, hint="Number that finds it again.", example="lot 41")
    made_from: str | Missing = column("Made from", K.WORDING, hint="Earliest, in words.", example="1937")
    made_to: str | Missing = column("Made to", K.WORDING, hint="Latest, in words.", example="1938")
    finish_class: FinishClass | Missing = column(
        "Finish", K.CHOICE, choices=FinishClass, hint="State of its finish, if known.", example="original"
    )
    serial: str | Missing = column("Serial no.", K.VERBATIM, hint="If published.", example="2190")
    tax_included: Decimal | Missing = column(
        "Includes sales tax %", K.PERCENT, hint="Only if the price contains it.", example=""
    )
    estimate_low: Decimal | Missing = column(
        "Low estimate", K.AMOUNT, hint="Before the sale, if published.", example=""
    )
    estimate_high: Decimal | Missing = column(
        "High estimate", K.AMOUNT, hint="Before the sale, if published.", example=""
    )
    is_subject: bool | Missing = column(
        "Is the subject itself", K.YES_NO, hint="yes if this very object was sold.", example="no"
    )
    seller: str | Missing = column("Seller", hint="Kind of seller.", example="")
    buyer: str | Missing = column("Buyer", hint="Kind of buyer.", example="")
    related: bool | Missing = column(
        "Related parties", K.YES_NO, hint="yes if seller and buyer are related.", example="no"
    )
    description: str | Missing = column("Description", K.LONG_TEXT, hint="What was sold.", example="with original case")
    evidence_file: str | Missing = column(
        "Saved page", K.FILE, hint="File with the page that proves the price.", example=""
    )
    accessed: date | Missing = column("Seen on", K.DAY, hint="Day you saw the page.", example="2025-01-22")


@frozen(kw_only=True)
class Comparison:
    """One sale used for one item and one value type, with its adjustments towards the subject."""

    row: int
    id: str | Missing = column(
        "Line id",
        K.IDENTITY,
        required="always",
        hint="Unique in the workbook; printed as the line's name.",
        example="c1",
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    value_type: ValueType | Missing = column(
        "Value type",
        K.CHOICE,
        choices=ValueType,
        required="always",
        hint="Pick from the list.",
        example="fair market value",
    )
    sale: str | Missing = column(
        "Sale id", K.REFERENCE, refers_to="Sales", required="always", hint="Id from the sheet Sales.", example="S001"
    )
    weight: Decimal | Missing = column("Weight", K.NUMBER, required="always", hint="0: shown, not used.", example="3")
    weight_reason: str | Missing = column(
        "Why this weight",
        K.LONG_TEXT,
        required="always",
        hint="Why it counts so much or so little.",
        example="same model, same year, six months before",
    )
    discount: Decimal | Missing = column(
        "Asking discount %",
        K.PERCENT,
        hint="Asking prices only: percent taken off, typed without a sign.",
        example="12",
    )
    discount_reason: str | Missing = column(
        "Why this discount",
        K.LONG_TEXT,
        required="with a discount",
        hint="What shows that asked prices come down so far.",
        example="this dealer's sold prices run 10 to 14 percent below",
    )
    level: Decimal | Missing = column(
        "Market level %",
        K.PERCENT,
        signed=True,
        hint="From the market of the sale to that of the value. The value's market is lower: minus.",
        example="-15",
    )
    level_reason: str | Missing = column(
        "Why this level",
        K.LONG_TEXT,
        required="with a level",
        hint="What shows the distance between the two markets.",
        example="dealer retail over auction all-in, own pairs",
    )
    condition: Decimal | Missing = column(
        "Condition %",
        K.PERCENT,
        signed=True,
        hint="Blank: from the grades, by the scale. Typed: instead of it. Comparison better: minus.",
        example="",
    )
    condition_reason: str | Missing = column(
        "Why this condition step",
        K.LONG_TEXT,
        required="with a condition percent",
        hint="What differs in condition.",
        example="",
    )
    deductions: str | Missing = column(
        "Originality deductions %",
        K.PERCENTS,
        hint="Of the comparison: percents separated by semicolons.",
        example="50; 10",
    )
    deductions_reason: str | Missing = column(
        "What departs from original",
        K.LONG_TEXT,
        required="with deductions",
        hint="One word or two for each percent.",
        example="refinished; one pickup rewound",
    )
    configuration: Decimal | Missing = column(
        "Configuration %", K.PERCENT, signed=True, hint="Comparison scarcer or better fitted: minus.", example="-8"
    )
    configuration_reason: str | Missing = column(
        "Why this configuration step",
        K.LONG_TEXT,
        required="with a configuration percent",
        hint="What differs in fittings, colour or order.",
        example="scarcer natural finish",
    )
    provenance: Decimal | Missing = column(
        "Provenance %", K.PERCENT, signed=True, hint="Comparison with the better history: minus.", example="-2.5"
    )
    provenance_reason: str | Missing = column(
        "Why this provenance step",
        K.LONG_TEXT,
        required="with a provenance percent",
        hint="What history, and how it is proved.",
        example="letter of a named player",
    )
    other: Decimal | Missing = column(
        "Other %", K.PERCENT, signed=True, hint="Anything else, apart from all that has a column.", example=""
    )
    other_reason: str | Missing = column(
        "Why this other step", K.LONG_TEXT, required="with an other percent", hint="What it is.", example=""
    )
    lump: Decimal | Missing = column(
        "Lump sum", K.AMOUNT, signed=True, hint="In report currency, after the percents.", example="-350"
    )
    lump_reason: str | Missing = column(
        "Why this lump sum",
        K.LONG_TEXT,
        required="with a lump sum",
        hint="What came with it or is missing.",
        example="original case sold with it",
    )
    use_reason: str | Missing = column(
        "Why used all the same",
        K.LONG_TEXT,
        hint="For an asking price, a sale after the date, or a refused rule.",
        example="",
    )
    by_condition: Compare | Missing = column(
        "Condition is", K.CHOICE, choices=Compare, hint="Relative route: how the comparison stands.", example="better"
    )
    by_originality: Compare | Missing = column(
        "Originality is", K.CHOICE, choices=Compare, hint="Relative route.", example="similar"
    )
    by_configuration: Compare | Missing = column(
        "Configuration is", K.CHOICE, choices=Compare, hint="Relative route.", example="similar"
    )
    by_provenance: Compare | Missing = column(
        "Provenance is", K.CHOICE, choices=Compare, hint="Relative route.", example="similar"
    )
    overall: Compare | Missing = column(
        "Overall it is", K.CHOICE, choices=Compare, hint="Relative route.", example="better"
    )


@frozen(kw_only=True)
class Opinion:
    """Why and how the value of one item under one value type is concluded. Without a row the job's terms apply."""

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
        example="fair market value",
    )
    reconciliation: str | Missing = column(
        "Reconciliation",
        K.LONG_TEXT,
        required="always",
        hint="Why the conclusion stands where it does in the range.",
        example="The sales agree within eight percent; the nearest in date carries most weight.",
    )
    route: Route | Missing = column("Route", K.CHOICE, choices=Route, hint="Blank: adjusted.", example="adjusted")
    conclusion: Conclusion | Missing = column(
        "Conclude by", K.CHOICE, choices=Conclusion, hint="Blank: as on Value types.", example="weighted mean"
    )
    typed_value: Decimal | Missing = column(
        "Typed value", K.AMOUNT, hint="Only with 'typed' or the short route.", example=""
    )
    typed_reason: str | Missing = column(
        "Why this value",
        K.LONG_TEXT,
        required="with a typed value",
        hint="The reasoning behind the typed figure.",
        example="",
    )
    source: str | Missing = column(
        "Source of the value", K.LONG_TEXT, required="short route", hint="Basis of a short-route figure.", example=""
    )
    not_valued: str | Missing = column(
        "Not valued because", K.LONG_TEXT, hint="Only if this value type is not stated for the item.", example=""
    )


@frozen(kw_only=True)
class Cost:
    """A cost of replacement of one item, or of every item (item id: all)."""

    row: int
    item: str | Missing = column("Item id", required="always", hint="Item id, or 'all'.", example="all")
    quotation: str | Missing = column(
        "Quotation",
        K.REFERENCE,
        refers_to="Sales",
        hint="Only for the landed cost of one foreign quotation: its sale id. Blank: a cost of the value itself.",
        example="",
    )
    kind: CostKind | Missing = column(
        "Cost", K.CHOICE, choices=CostKind, required="always", hint="Pick from the list.", example="sales tax"
    )
    percent: Decimal | Missing = column(
        "Percent",
        K.PERCENT,
        hint="Of the price (transit insurance, duty) or of price and taxable costs (sales tax).",
        example="7.25",
    )
    amount: Decimal | Missing = column("Amount", K.AMOUNT, hint="Instead of a percent.", example="275.00")
    currency: str | Missing = column("Currency", K.CURRENCY, hint="Blank: report currency.", example="USD")
    least: Decimal | Missing = column("Not below", K.AMOUNT, hint="Smallest charge.", example="150.00")
    most: Decimal | Missing = column("Not above", K.AMOUNT, hint="Largest charge.", example="")
    taxable: bool | Missing = column("Taxable", K.YES_NO, hint="Sales tax is charged on it.", example="yes")
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="local rate, checked 2025-04-01"
    )


@frozen(kw_only=True)
class MarketNote:
    """The market of one family, in words."""

    row: int
    family: Family | Missing = column(
        "Family", K.CHOICE, choices=Family, required="always", hint="Pick from the list.", example="archtop guitar"
    )
    market: str | Missing = column(
        "Where the public buys",
        K.LONG_TEXT,
        required="always",
        hint="The market of such things, in a sentence or two.",
        example="At auction, and from a dozen dealers.",
    )
    supply: str | Missing = column(
        "Supply",
        K.LONG_TEXT,
        required="always",
        hint="How many come to market, and where.",
        example="About ten a year, most at auction.",
    )
    demand: str | Missing = column(
        "Demand",
        K.LONG_TEXT,
        required="always",
        hint="Who buys, and how readily.",
        example="Players and collectors; sold within months.",
    )
    trend: str | Missing = column(
        "Trend",
        K.LONG_TEXT,
        required="always",
        hint="Where prices have gone, over what time.",
        example="Level for three years.",
    )


SALES = declare_sheet(Sale, "Sales", "Prices, one record each, as published or verified.", library=True)
COMPARISONS = declare_sheet(
    Comparison, "Comparisons", "Which sale serves which item, with every adjustment and its reason."
)
OPINIONS = declare_sheet(Opinion, "Opinions", "Why each value stands where it does, and how it is concluded.")
COSTS = declare_sheet(
    Cost,
    "Costs",
    "Tax, freight and other costs of replacement.",
    uses=("insurance", "insurance claim", "yearly reappraisal"),
)
MARKET_NOTES = declare_sheet(MarketNote, "Market notes", "The market of each family, in words.")
