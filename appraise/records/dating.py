"""Evidence for the date of manufacture, and the appraiser's tables of periods and serials."""

from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import EvidenceKind, EvidenceRole, EvidenceStatus


@frozen(kw_only=True)
class Evidence:
    """One statement of evidence about the date of manufacture of an item."""

    row: int
    id: str | Missing = column(
        "Evidence id", K.IDENTITY, required="always", hint="Permanent, unique in the workbook.", example="G01-e1"
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    part: str | Missing = column("Part", required="always", hint="The part that carries it.", example="body")
    statement: str | Missing = column(
        "Statement", K.LONG_TEXT, required="always", hint="What was seen, in words.", example="bound sound holes"
    )
    kind: EvidenceKind | Missing = column(
        "Kind", K.CHOICE, choices=EvidenceKind, required="always", hint="Pick from the list.", example="feature period"
    )
    status: EvidenceStatus | Missing = column(
        "Status",
        K.CHOICE,
        choices=EvidenceStatus,
        required="always",
        hint="A replaced part bounds nothing.",
        example="original",
    )
    strength: Decimal | Missing = column(
        "Strength",
        K.WHOLE,
        required="always",
        hint="4 document of the time on this object; 3 documented fact or published reference; 2 trade lore; 1 style.",
        example="3",
    )
    source: str | Missing = column(
        "Source",
        K.LONG_TEXT,
        required="always",
        hint="Where the period or date comes from.",
        example="maker's catalogue of 1936",
    )
    date: str | Missing = column(
        "Date",
        K.WORDING,
        hint="A date stated for the thing itself, instead of From and To. Several readings: '1957 or 1963'.",
        example="1937-38",
    )
    from_: str | Missing = column(
        "From", K.WORDING, hint="Start of a period of use, in words. Text, never a date cell.", example="early 1936"
    )
    to: str | Missing = column("To", K.WORDING, hint="End of a period of use.", example="1942")
    reference: str | Missing = column(
        "By id",
        K.FACT,
        hint="Id from Feature periods, Serial ranges or Published facts (pick one), or the code or number itself. "
        "Instead of From, To and Date.",
        example="",
    )
    role: EvidenceRole | Missing = column(
        "Date of",
        K.CHOICE,
        choices=EvidenceRole,
        hint="Blank: the object itself; for dated parts and codes a part made before; for documents an event after.",
        example="the object itself",
    )
    lag_least: Decimal | Missing = column(
        "Lag, least months",
        K.WHOLE,
        hint="Months between the dated part or event and completion. Blank: 0.",
        example="0",
    )
    lag_most: Decimal | Missing = column("Lag, most months", K.WHOLE, hint="Blank: open.", example="12")
    photo: str | Missing = column("Photo", K.FILE, hint="File that shows it.", example="")


@frozen(kw_only=True)
class FeaturePeriod:
    """A period of use of a feature, kept by the appraiser."""

    row: int
    id: str | Missing = column(
        "Period id", K.IDENTITY, required="always", hint="Short and permanent.", example="SKV-bound-holes"
    )
    maker: str | Missing = column("Maker", hint="Blank: any.", example="Skarvholm")
    model: str | Missing = column("Model", hint="Blank: any.", example="Consul 17")
    feature: str | Missing = column("Feature", required="always", hint="What is seen.", example="bound sound holes")
    from_: str | Missing = column("From", K.WORDING, hint="Start of use, in words.", example="1936")
    to: str | Missing = column("To", K.WORDING, hint="End of use, in words.", example="1942")
    strength: Decimal | Missing = column("Strength", K.WHOLE, required="always", hint="1 to 4.", example="3")
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="own notes of 41 examples"
    )


@frozen(kw_only=True)
class SerialRange:
    """A range of serial numbers and when it was used, kept by the appraiser."""

    row: int
    id: str | Missing = column(
        "Range id", K.IDENTITY, required="always", hint="Short and permanent.", example="SKV-2150"
    )
    maker: str | Missing = column("Maker", required="always", hint="As you type it on Items.", example="Skarvholm")
    model: str | Missing = column("Model", hint="Blank: any.", example="")
    prefix: str | Missing = column("Prefix", K.VERBATIM, hint="Letters before the digits, if any.", example="")
    first: str | Missing = column(
        "First number", K.VERBATIM, required="always", hint="Digits, as text.", example="2150"
    )
    last: str | Missing = column("Last number", K.VERBATIM, required="always", hint="Digits, as text.", example="2260")
    suffix: str | Missing = column("Suffix", K.VERBATIM, hint="Letters after the digits, if any.", example="")
    date: str | Missing = column(
        "Date", K.WORDING, required="always", hint="When these numbers were used, in words.", example="1937-38"
    )
    strength: Decimal | Missing = column(
        "Strength", K.WHOLE, required="always", hint="1 to 4, as on Evidence.", example="3"
    )
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="collectors' list of 1988"
    )


@frozen(kw_only=True)
class ModelPeriod:
    """The years of a model that buyers pay for, with soft edges."""

    row: int
    maker: str | Missing = column("Maker", required="always", hint="As you type it on Items.", example="Skarvholm")
    model: str | Missing = column(
        "Model", required="always", hint="A period belongs to a maker and a model.", example="Consul 17"
    )
    inner_first: Decimal | Missing = column(
        "Full effect from year", K.WHOLE, required="always", hint="First year of the full effect.", example="1934"
    )
    inner_last: Decimal | Missing = column(
        "Full effect to year", K.WHOLE, required="always", hint="Last year of the full effect.", example="1939"
    )
    outer_first: Decimal | Missing = column(
        "No effect before year",
        K.WHOLE,
        required="always",
        hint="The effect grows from here to the full.",
        example="1931",
    )
    outer_last: Decimal | Missing = column(
        "No effect after year", K.WHOLE, required="always", hint="The effect fades out here.", example="1942"
    )
    effect: Decimal | Missing = column(
        "Effect %", K.PERCENT, signed=True, required="always", hint="What a month of full effect adds.", example="20"
    )
    source: str | Missing = column(
        "Source", K.LONG_TEXT, required="always", hint="Where it comes from.", example="own paired sales"
    )


EVIDENCE = declare_sheet(Evidence, "Evidence", "What the date of manufacture rests on.")
FEATURE_PERIODS = declare_sheet(FeaturePeriod, "Feature periods", "Periods of use of features.", library=True)
SERIAL_RANGES = declare_sheet(SerialRange, "Serial ranges", "Serial numbers and their years.", library=True)
MODEL_PERIODS = declare_sheet(ModelPeriod, "Model periods", "The years of a model that buyers pay for.", library=True)
