"""The appraiser's own tables: premiums, rates, indexes, scales, deductions, clauses; sources and answers."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Family, Market, RateDirection


@frozen(kw_only=True)
class PremiumTier:
    """One tier of a buyer's premium; a table is the rows with the same id and days, in ascending order."""

    row: int
    table: str | Missing = column(
        "Premium table",
        K.IDENTITY,
        required="always",
        hint="Same id on every tier; two periods of one house may share it.",
        example="A1",
    )
    house: str | Missing = column("House", required="always", hint="Name of the house.", example="Marrowby Rooms")
    currency: str | Missing = column(
        "Currency", K.CURRENCY, required="always", hint="Three letters (ISO 4217).", example="USD"
    )
    valid_from: date | Missing = column("Valid from", K.DAY, required="always", hint="Included.", example="2020-01-01")
    valid_to: date | Missing = column("Valid to", K.DAY, hint="Included. Blank: still in force.", example="2024-06-30")
    up_to: Decimal | Missing = column("Tier up to", K.AMOUNT, hint="Hammer price. Blank: no end.", example="10000")
    rate: Decimal | Missing = column("Rate %", K.PERCENT, required="always", hint="Percent of this tier.", example="28")
    tax: Decimal | Missing = column("Tax on the premium %", K.PERCENT, hint="Blank: 0.", example="0")
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="conditions of sale"
    )


@frozen(kw_only=True)
class Rate:
    """An exchange rate of one day."""

    row: int
    currency: str | Missing = column("Currency", K.CURRENCY, required="always", hint="The foreign one.", example="GBP")
    day: date | Missing = column(
        "Date", K.DAY, required="always", hint="The day, year-month-day.", example="2023-10-05"
    )
    rate: Decimal | Missing = column("Rate", K.NUMBER, required="always", hint="As published.", example="1.2189")
    direction: RateDirection | Missing = column(
        "Quoted as",
        K.CHOICE,
        choices=RateDirection,
        required="always",
        hint="Which way round the rate is published.",
        example="report currency per foreign unit",
    )
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="central bank's daily list"
    )


@frozen(kw_only=True)
class IndexPoint:
    """One point of a price index."""

    row: int
    index: str | Missing = column(
        "Index id", K.IDENTITY, required="always", hint="Same id on every point.", example="ARCH"
    )
    month: str | Missing = column("Month", K.MONTH, required="always", hint="yyyy-mm, as text.", example="2024-07")
    figure: Decimal | Missing = column(
        "Figure", K.NUMBER, required="always", hint="The index of that month.", example="103.6"
    )
    carry_last: bool | Missing = column(
        "Carry last figure",
        K.YES_NO,
        hint="yes on any point: months after the last use it, with a finding.",
        example="no",
    )
    market: Market | Missing = column(
        "Market",
        K.CHOICE,
        choices=Market,
        required="always",
        hint="The level of the market it measures.",
        example="auction",
    )
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="own index of 212 sales"
    )


@frozen(kw_only=True)
class ScaleStep:
    """One grade of a condition scale."""

    row: int
    scale: str | Missing = column(
        "Scale id", K.IDENTITY, required="always", hint="Same id on every grade.", example="K-ARCH"
    )
    family: Family | Missing = column(
        "Family", K.CHOICE, choices=Family, hint="Pick from the list.", example="archtop guitar"
    )
    grade: Decimal | Missing = column("Grade", K.NUMBER, required="always", hint="10 is the best.", example="8")
    percent: Decimal | Missing = column(
        "Percent of grade 10",
        K.PERCENT,
        required="always",
        hint="What such an item is worth, as a percent of grade 10.",
        example="79",
    )
    words: str | Missing = column(
        "What it looks like",
        K.LONG_TEXT,
        required="always",
        hint="Structure, finish, wear, playability at this grade, in your words.",
        example="Light checking or small marks; sound; plays well.",
    )


@frozen(kw_only=True)
class Deduction:
    """A usual deduction, kept by the appraiser as a reminder; the one applied is typed on Parts."""

    row: int
    family: Family | Missing = column(
        "Family", K.CHOICE, choices=Family, required="always", hint="Pick from the list.", example="solid-body electric"
    )
    departure: str | Missing = column(
        "Departure from original", required="always", hint="For example a refinish.", example="refinish"
    )
    percent: Decimal | Missing = column(
        "Deduction %", K.PERCENT, required="always", hint="Percent of an all-original example.", example="50"
    )
    remark: str | Missing = column(
        "Remark", K.LONG_TEXT, hint="Anything a reader should know.", example="example, replace"
    )


@frozen(kw_only=True)
class Clause:
    """A clause of the report in the appraiser's words, or an official wording in its slot."""

    row: int
    key: str | Missing = column(
        "Clause key",
        K.IDENTITY,
        required="always",
        hint="As the list of clauses names it.",
        example="limiting.no-dismantling",
    )
    text: str | Missing = column(
        "Text", K.LONG_TEXT, hint="Your words, instead of ours.", example="Nothing was taken apart."
    )
    official: str | Missing = column(
        "Official wording",
        K.LONG_TEXT,
        hint="Word for word from the law or standard; printed as a quotation.",
        example="",
    )
    citation: str | Missing = column(
        "Citation", required="with an official wording", hint="Law or standard, section.", example=""
    )
    edition: str | Missing = column(
        "Edition", required="with an official wording", hint="Edition or state of the text.", example=""
    )
    checked_on: date | Missing = column(
        "Checked on",
        K.DAY,
        required="with an official wording",
        hint="Day you compared it with the original.",
        example="",
    )
    checked_by: str | Missing = column("Checked by", required="with an official wording", hint="Initials.", example="")


@frozen(kw_only=True)
class Answer:
    """A written answer to a finding; it lapses when the value found changes."""

    row: int
    code: str | Missing = column(
        "Finding code",
        K.VERBATIM,
        required="always",
        hint="As the check prints it, in the line 'To answer'.",
        example="CMP-02",
    )
    subjects: str | Missing = column(
        "About", K.VERBATIM, hint="Ids as the finding names them, separated by semicolons.", example="G01; c4"
    )
    column_key: str | Missing = column("Column key", K.VERBATIM, hint="As the finding names it.", example="kind")
    found_mark: str | Missing = column(
        "Mark of the value",
        K.VERBATIM,
        required="always",
        hint="The short mark in the line 'To answer'; the answer lapses when the value changes.",
        example="9f2c41d0",
    )
    reason: str | Missing = column(
        "Reason", K.LONG_TEXT, required="always", hint="In a sentence.", example="the invoice of 1961 was seen"
    )
    initials: str | Missing = column("Initials", required="always", hint="Who answers.", example="MT")
    day: date | Missing = column(
        "Date", K.DAY, required="always", hint="The day, year-month-day.", example="2025-02-10"
    )


@frozen(kw_only=True)
class Source:
    """An entry of the bibliography."""

    row: int
    id: str | Missing = column("Source id", K.IDENTITY, required="always", hint="Short and permanent.", example="B1")
    text: str | Missing = column(
        "Entry",
        K.LONG_TEXT,
        required="always",
        hint="Author, title, edition, pages.",
        example="own notes of 41 examples, 2019 to 2024",
    )


PREMIUMS = declare_sheet(PremiumTier, "Premiums", "Buyers' premiums by house and date.", library=True)
RATES = declare_sheet(Rate, "Rates", "Exchange rates by day, with their source.", library=True)
INDEXES = declare_sheet(IndexPoint, "Indexes", "Price indexes by month, with their source.", library=True)
SCALES = declare_sheet(
    ScaleStep, "Scales", "What each condition grade is worth, as a percent of grade 10.", library=True
)
DEDUCTIONS = declare_sheet(Deduction, "Deductions", "Usual deductions for departures from original.", library=True)
CLAUSES = declare_sheet(Clause, "Clauses", "Your own clauses and official wordings.", library=True)
ANSWERS = declare_sheet(
    Answer, "Answers", "Written answers to findings: each as the check prints it under 'To answer'."
)
SOURCES = declare_sheet(Source, "Sources", "Bibliography.", library=True)
