"""What only a gift, a contribution, a division or a court asks for: transfer, recipients, case, expert's record."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import ExpertRecordKind, PropertyType, ShareState

GIVING_USES = ("gift", "donation")
SHARING_USES = ("estate", "gift", "division of property")


@frozen(kw_only=True)
class Transfer:
    """The one record of the sheet Gift or donation: who gives what to whom, on which terms."""

    row: int
    donor: str | Missing = column("Donor", required="always", hint="Who gives. As on the return.", example="H. Orrin")
    donee: str | Missing = column(
        "Donee", required="always", hint="Who receives.", example="Museum of Plucked Sound, Kahe Landing"
    )
    donee_address: str | Missing = column(
        "Donee's address",
        K.LONG_TEXT,
        required="use donation",
        hint="As it stands in the report.",
        example="2 Hall Square, Kahe Landing",
    )
    relation: str | Missing = column(
        "How they are related",
        required="always",
        hint="Family, work, membership of a board; or the word none.",
        example="none",
    )
    terms: str | Missing = column(
        "Terms and restrictions",
        K.LONG_TEXT,
        required="always",
        hint="Anything agreed about use, sale, income or return of the property; or the words none known.",
        example="none known",
    )
    expected_use: str | Missing = column(
        "What the donee will do with it",
        K.LONG_TEXT,
        required="use donation",
        hint="As the donee says: show, play, sell. It can change the deduction, never the value.",
        example="will be shown and played in the museum",
    )
    received_back: Decimal | Missing = column(
        "Given in return", K.AMOUNT, hint="What the donor got for it, if anything. Blank: nothing.", example=""
    )
    trust: str | Missing = column(
        "Trust",
        uses=("gift",),
        hint="If given in trust: its number and terms in short. Blank: no trust.",
        example="",
    )
    property_type: PropertyType | Missing = column(
        "Type of property on the form",
        K.CHOICE,
        choices=PropertyType,
        uses=("donation",),
        required="use donation",
        hint="The box you hold right; antiques and instruments may be art or collectibles.",
        example="collectible",
    )
    property_reason: str | Missing = column(
        "Why this type",
        K.LONG_TEXT,
        uses=("donation",),
        required="use donation",
        hint="One sentence.",
        example="bought and kept for age and rarity, not for daily use",
    )
    form_checked_on: date | Missing = column(
        "Current form looked at on",
        K.DAY,
        uses=("donation",),
        hint="The day you compared the page of figures with the form the tax authority now issues.",
        example="2025-04-08",
    )
    appraiser_employer: str | Missing = column(
        "Appraiser works for",
        K.LONG_TEXT,
        uses=("donation",),
        required="use donation",
        hint="Name and address of the firm you appraise for as partner, employee or contractor; or the word self.",
        example="self",
    )
    employer_tax_number: str | Missing = column(
        "Firm's tax number",
        K.VERBATIM,
        uses=("donation",),
        required="with a firm",
        hint="Printed only in this report.",
        example="",
    )
    similar_given: str | Missing = column(
        "Similar items given this year",
        K.LONG_TEXT,
        uses=("donation",),
        required="use donation",
        hint="Things of this kind given to anyone in the same tax year beside these; or the words none known.",
        example="none known",
    )
    similar_sum: Decimal | Missing = column(
        "Sum claimed for them",
        K.AMOUNT,
        uses=("donation",),
        required="with similar items",
        hint="The donor's figure. It counts towards the limits of the law.",
        example="",
    )


@frozen(kw_only=True)
class Share:
    """One item (or part of it) and who is to receive it."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    recipient: str | Missing = column(
        "Recipient", required="always", hint="Heir, donee or party, named alike on every line.", example="R. Quenby"
    )
    share: Decimal | Missing = column(
        "Part of the item %", K.PERCENT, hint="Blank: the whole. Parts of one item make 100.", example=""
    )
    state: ShareState | Missing = column(
        "Standing",
        K.CHOICE,
        choices=ShareState,
        required="use division of property",
        hint="Whether the parties agree on who receives it.",
        example="agreed",
    )
    remark: str | Missing = column(
        "Remark", K.LONG_TEXT, hint="Held before the marriage, inherited, in whose keeping.", example=""
    )


@frozen(kw_only=True)
class CourtCase:
    """The one record of the sheet Court case: what an expert's report must tell beside its opinions."""

    row: int
    court: str | Missing = column("Court", required="always", hint="As on the papers.", example="County court, Ennerby")
    case: str | Missing = column(
        "Case", required="always", hint="Parties and number.", example="Quenby v. Ashgrave, no. 25-0417"
    )
    engaged_for: str | Missing = column(
        "Engaged for", required="always", hint="The party, and counsel who engaged you.", example="the plaintiff"
    )
    compensation: str | Missing = column(
        "Compensation",
        K.LONG_TEXT,
        required="always",
        hint="What you are paid for study and for testimony, with the rates.",
        example="180 dollars an hour for study, 220 for testimony",
    )
    facts_supplied: str | Missing = column(
        "Facts from counsel",
        K.LONG_TEXT,
        required="always",
        hint="Facts and data counsel supplied and you considered, one a line; or the word none.",
        example="photographs of the storeroom, 14 March 2025",
    )
    assumptions_supplied: str | Missing = column(
        "Assumptions from counsel",
        K.LONG_TEXT,
        required="always",
        hint="Assumptions counsel gave you and you relied on, one a line; or the word none.",
        example="none",
    )
    data_considered: str | Missing = column(
        "Other data considered",
        K.LONG_TEXT,
        required="always",
        hint="Everything looked at, relied on or not, beside what this report prints; or the word none.",
        example="dealers' lists of 2019 to 2023, not relied on: asking prices only",
    )
    exhibits: str | Missing = column(
        "Exhibits",
        K.LONG_TEXT,
        required="always",
        hint="What will be used to sum up or support the opinions, one a line; or the word none.",
        example="photographs of this report, enlarged",
    )
    disclosure_due: date | Missing = column(
        "Report due to the other side", K.DAY, hint="As the court or counsel fixed it.", example="2025-09-01"
    )
    testimony_expected: bool | Missing = column(
        "Testimony given or expected", K.YES_NO, required="always", hint="yes: the file is held.", example="yes"
    )
    ended_on: date | Missing = column(
        "Proceeding ended on", K.DAY, hint="Final disposition. Blank: not yet.", example=""
    )


@frozen(kw_only=True)
class ExpertRecord:
    """One publication or one testimony of a person who signs; also the statement that there is none."""

    row: int
    person: str | Missing = column(
        "Person id", K.REFERENCE, refers_to="People", required="always", hint="Id from the sheet People.", example="P1"
    )
    kind: ExpertRecordKind | Missing = column(
        "Kind", K.CHOICE, choices=ExpertRecordKind, required="always", hint="Pick from the list.", example="publication"
    )
    day: date | Missing = column(
        "Date", K.DAY, required="with an entry", hint="Published or testified on.", example="2022-05-01"
    )
    what: str | Missing = column(
        "Title, or court and case",
        K.LONG_TEXT,
        required="with an entry",
        hint="As one would cite it.",
        example="Carved tops of the coast workshops; Journal of Plucked Sound 12",
    )


TRANSFER = declare_sheet(
    Transfer, "Gift or donation", "Who gives what to whom, on which terms.", form=True, uses=GIVING_USES
)
SHARES = declare_sheet(Share, "Recipients", "Who is to receive what.", uses=SHARING_USES)
COURT_CASE = declare_sheet(
    CourtCase, "Court case", "What an expert's report must tell.", form=True, uses=("expert report",)
)
EXPERT_RECORD = declare_sheet(
    ExpertRecord,
    "Expert record",
    "Publications of ten years and testimony of four, of each who signs.",
    uses=("expert report",),
    library=True,
)
