"""The assignment: who asked for what, as of when, under which terms; the people; the assumptions."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import (
    AssumptionKind,
    Combine,
    Conclusion,
    FeeBasis,
    Market,
    PersonRole,
    PremiumTax,
    PremiumTiers,
    PriceBasis,
    ReportOption,
    Use,
    ValueType,
)


@frozen(kw_only=True)
class Assignment:
    """The one record of the sheet Assignment. `row` is 0: each line has its own place, by column key."""

    row: int
    use: Use | Missing = column(
        "Use",
        K.CHOICE,
        choices=Use,
        required="always",
        hint="What the report is for. It decides which sheets, sections and checks apply.",
        example="estate",
    )
    title: str | Missing = column(
        "Report title",
        required="always",
        hint="As it stands on the cover.",
        example="Instruments of the late A. Quenby",
    )
    client: str | Missing = column("Client", required="always", hint="Who engaged you.", example="R. Quenby, executor")
    client_address: str | Missing = column(
        "Client's address", K.LONG_TEXT, hint="As it stands in the letter.", example="3 Mill Row, Ennerby Falls"
    )
    intended_users: str | Missing = column(
        "Intended users",
        K.LONG_TEXT,
        required="always",
        hint="Everyone who may rely on the report, named or by kind. A mere recipient of a copy is not a user.",
        example="the executor; the executor's counsel; the tax authority",
    )
    intended_use: str | Missing = column(
        "Intended use",
        K.LONG_TEXT,
        required="always",
        hint="In one sentence, what they will do with it.",
        example="to support the estate tax return",
    )
    owner: str | Missing = column(
        "Owner", required="always", hint="Who owns the property on the effective date.", example="Estate of A. Quenby"
    )
    interest: str | Missing = column(
        "Interest appraised",
        required="always",
        hint="Usually the whole ownership; say so, or name the part.",
        example="sole ownership, free of liens",
    )
    engaged_on: date | Missing = column(
        "Engaged on", K.DAY, hint="Date of the engagement letter.", example="2025-01-08"
    )
    effective_date: date | Missing = column(
        "Effective date",
        K.DAY,
        required="always",
        hint="The day as of which the values hold. Estate: day of death. Gift: day of the gift.",
        example="2024-11-15",
    )
    report_date: date | Missing = column(
        "Report date", K.DAY, required="always", hint="The day the report is dated.", example="2025-02-10"
    )
    signed_on: date | Missing = column(
        "Signed on", K.DAY, hint="Leave blank until you sign. Not before the last inspection.", example="2025-02-10"
    )
    delivered_on: date | Missing = column(
        "Delivered on", K.DAY, hint="When the client received it.", example="2025-02-12"
    )
    death_date: date | Missing = column(
        "Date of death", K.DAY, uses=("estate",), required="use estate", hint="Estate only.", example="2024-11-15"
    )
    gift_date: date | Missing = column(
        "Date of gift or contribution",
        K.DAY,
        uses=("gift", "donation"),
        required="use gift or donation",
        hint="Gift and donation only.",
        example="2025-03-01",
    )
    loss_date: date | Missing = column(
        "Date of loss",
        K.DAY,
        uses=("insurance claim",),
        required="use insurance claim",
        hint="Insurance claim only.",
        example="2025-01-15",
    )
    return_due: date | Missing = column(
        "Return due on",
        K.DAY,
        uses=("estate", "gift", "donation"),
        hint="Due date of the tax return with extensions, as counsel gives it.",
        example="2025-08-15",
    )
    under_oath: bool | Missing = column(
        "Signed under oath",
        K.YES_NO,
        uses=("estate",),
        hint="yes: the report has a place for the oath. US: asked for above a limit of the law; ask counsel.",
        example="yes",
    )
    currency: str | Missing = column(
        "Report currency", K.CURRENCY, required="always", hint="Three letters (ISO 4217).", example="USD"
    )
    report_language: str | Missing = column("Report language", required="always", hint="en, de or fr.", example="en")
    workbook_locale: str | Missing = column(
        "Numbers typed as in",
        required="always",
        hint="How you type numbers and month names: en_US (1,234.56), de_DE (1.234,56), fr_FR, en_GB ...",
        example="en_US",
    )
    jurisdiction: str | Missing = column(
        "Jurisdiction",
        required="always",
        hint="Country, in two letters (ISO 3166), and state whose rules the use rests on: US, US-CA, GB, DE, FR ...",
        example="US",
    )
    report_option: ReportOption | Missing = column(
        "Report option",
        K.CHOICE,
        choices=ReportOption,
        required="always",
        hint="Appraisal report is the full one.",
        example="appraisal report",
    )
    fee_basis: FeeBasis | Missing = column(
        "Fee measured by",
        K.CHOICE,
        choices=FeeBasis,
        required="always",
        hint="Never by the value or the outcome.",
        example="hour",
    )
    prior_services: str | Missing = column(
        "Prior services",
        K.LONG_TEXT,
        required="always",
        hint="Services about this property in the three years before: which, or the word none.",
        example="none",
    )
    scope: str | Missing = column(
        "Scope of work",
        K.LONG_TEXT,
        required="always",
        hint="What was done and what was not: inspection, research, tests.",
        example="Personal inspection of every item; no dismantling; no laboratory tests.",
    )
    combine_deductions: Combine | Missing = column(
        "Deductions for originality",
        K.CHOICE,
        choices=Combine,
        required="always",
        hint="How several departures from original are combined; multiply is usual.",
        example="multiply",
    )
    combine_adjustments: Combine | Missing = column(
        "Adjustments to comparables",
        K.CHOICE,
        choices=Combine,
        required="always",
        hint="How the percents of one comparison are combined; multiply is usual.",
        example="multiply",
    )
    originality_floor: Decimal | Missing = column(
        "Originality not below", K.NUMBER, hint="Out of 100. Blank: 0.", example="20"
    )
    premium_tiers: PremiumTiers | Missing = column(
        "Buyer's premium charged",
        K.CHOICE,
        choices=PremiumTiers,
        hint="Blank: each tier on its part.",
        example="each tier on its part",
    )
    circa_years: Decimal | Missing = column(
        "Years of 'circa'", K.WHOLE, hint="How many years either side 'circa' means. Blank: 5.", example="5"
    )
    issue_number: Decimal | Missing = column("Issue number", K.WHOLE, hint="1 for the first issue.", example="1")
    replaces_issue: str | Missing = column(
        "Replaces issue of", hint="Number and date of the issue this one replaces.", example="issue 1 of 2025-02-10"
    )
    template_folder: str | Missing = column(
        "Own templates in",
        K.FILE,
        hint="Folder beside the workbook with your own house document or sections. Blank: ours.",
        example="",
    )
    library: str | Missing = column(
        "Library workbook", K.FILE, hint="Your own tables, kept across jobs. Blank: none.", example="library.xlsx"
    )


@frozen(kw_only=True)
class ValueTerms:
    """One type of value this report states, with the market it is looked for in."""

    row: int
    value_type: ValueType | Missing = column(
        "Value type",
        K.CHOICE,
        choices=ValueType,
        required="always",
        hint="One line for each type of value.",
        example="fair market value",
    )
    market: Market | Missing = column(
        "Market",
        K.CHOICE,
        choices=Market,
        required="always",
        hint="The level of the market the value is defined in.",
        example="auction",
    )
    market_reason: str | Missing = column(
        "Why this market",
        K.LONG_TEXT,
        required="always",
        hint="Why this is where the public buys such things.",
        example="Archtops of this class are mostly bought by the public at auction.",
    )
    price_basis: PriceBasis | Missing = column(
        "Auction price basis",
        K.CHOICE,
        choices=PriceBasis,
        required="always",
        hint="all-in: with the buyer's premium (US transfer taxes). hammer: without (UK inheritance tax). "
        "Without auction prices: all-in.",
        example="all-in",
    )
    premium_tax: PremiumTax | Missing = column(
        "Tax on the premium",
        K.CHOICE,
        choices=PremiumTax,
        required="always",
        hint="Whether tax on the premium is part of the price. Without auction prices: in the price.",
        example="in the price",
    )
    exposure_time: str | Missing = column(
        "Exposure time or premise",
        K.LONG_TEXT,
        required="always",
        hint="How long before the effective date it would have been offered; for a replacement, how soon one is found.",
        example="three to six months",
    )
    sales_comparison: str | Missing = column(
        "Sales comparison",
        K.LONG_TEXT,
        required="always",
        hint="'used', or 'not used:' and the reason in three words or more.",
        example="used",
    )
    cost_approach: str | Missing = column(
        "Cost approach",
        K.LONG_TEXT,
        required="always",
        hint="'used', or 'not used:' and the reason in three words or more.",
        example="not used: no new equivalent is made",
    )
    income_approach: str | Missing = column(
        "Income approach",
        K.LONG_TEXT,
        required="always",
        hint="'used', or 'not used:' and the reason in three words or more.",
        example="not used: such things are not held for income",
    )
    conclusion: Conclusion | Missing = column(
        "Conclude by",
        K.CHOICE,
        choices=Conclusion,
        required="always",
        hint="Used where Opinions says nothing else.",
        example="weighted mean",
    )


@frozen(kw_only=True)
class Person:
    """Someone who appraised, inspected or helped."""

    row: int
    id: str | Missing = column("Person id", K.IDENTITY, required="always", hint="Short and permanent.", example="P1")
    name: str | Missing = column("Name", required="always", hint="As signed.", example="M. Tarrow")
    role: PersonRole | Missing = column(
        "Role", K.CHOICE, choices=PersonRole, required="always", hint="At least one appraiser.", example="appraiser"
    )
    signs: bool | Missing = column("Signs", K.YES_NO, required="always", hint="Signs the certification.", example="yes")
    inspected: str | Missing = column(
        "Inspected items", required="always", hint="'all', 'none', or item ids separated by semicolons.", example="all"
    )
    interest: str | Missing = column(
        "Interest in property or parties", required="always", hint="'none', or what it is.", example="none"
    )
    credentials: str | Missing = column(
        "Qualifications",
        K.LONG_TEXT,
        required="role appraiser",
        hint="Education, experience, memberships; one per line.",
        example="Twenty-two years of appraising fretted instruments.",
    )
    categories: str | Missing = column(
        "Qualified for",
        K.LONG_TEXT,
        required="role appraiser",
        hint="Categories of property, separated by semicolons, as typed on Items.",
        example="fretted instruments; bows",
    )
    address: str | Missing = column(
        "Address", K.LONG_TEXT, hint="As it stands in the letter.", example="9 Quay Street, Port Aldous"
    )
    assistance: str | Missing = column(
        "Help given", K.LONG_TEXT, required="role assistant", hint="What the assistant did.", example="photography"
    )
    regular: bool | Missing = column(
        "Regularly appraises for pay",
        K.YES_NO,
        uses=("donation", "gift"),
        required="signs, use donation",
        hint="yes or no. The tax rules ask it of whoever signs.",
        example="yes",
    )
    barred: bool | Missing = column(
        "Barred in the last three years",
        K.YES_NO,
        uses=("donation",),
        required="signs, use donation",
        hint="Kept from practice before the tax authority at any time in the three years before signing: yes or no.",
        example="no",
    )
    tax_number: str | Missing = column(
        "Tax number",
        K.VERBATIM,
        uses=("donation",),
        hint="Only where the use needs it; printed only there.",
        example="",
    )


@frozen(kw_only=True)
class Assumption:
    """An extraordinary assumption or a hypothetical condition, with its effect."""

    row: int
    id: str | Missing = column(
        "Assumption id", K.IDENTITY, required="always", hint="Short and permanent.", example="A1"
    )
    kind: AssumptionKind | Missing = column(
        "Kind",
        K.CHOICE,
        choices=AssumptionKind,
        required="always",
        hint="Uncertain but taken as true, or known false but assumed.",
        example="extraordinary assumption",
    )
    items: str | Missing = column(
        "Items", required="always", hint="'all', or item ids separated by semicolons.", example="G03"
    )
    text: str | Missing = column(
        "What is assumed",
        K.LONG_TEXT,
        required="always",
        hint="One plain sentence.",
        example="The tuners are taken to be original; they were not removed.",
    )
    effect: str | Missing = column(
        "Effect on the value",
        K.LONG_TEXT,
        required="always",
        hint="What would change if it were otherwise.",
        example="If they are replacements, the value falls by about four percent.",
    )


ASSIGNMENT = declare_sheet(Assignment, "Assignment", "The terms of the report: one line for each fact.", form=True)
VALUE_TERMS = declare_sheet(ValueTerms, "Value types", "Each type of value the report states, and its market.")
PEOPLE = declare_sheet(Person, "People", "Who appraised, inspected and helped.", library=True)
ASSUMPTIONS = declare_sheet(
    Assumption, "Assumptions", "Extraordinary assumptions and hypothetical conditions, each with its effect."
)
