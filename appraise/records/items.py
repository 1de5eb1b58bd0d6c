"""The objects: what each is, its parts, its condition, its past, its photographs."""

from datetime import date
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import Attribution, Family, FinishClass, History, PartState, PhotoKind


@frozen(kw_only=True)
class Item:
    """One line of the schedule."""

    row: int
    id: str | Missing = column(
        "Item id",
        K.IDENTITY,
        required="always",
        hint="Given once, joins all sheets, never reused. Change it only before anything else is typed.",
        example="G01",
    )
    number: str | Missing = column(
        "No.", K.VERBATIM, required="always", hint="Printed number; may change from year to year.", example="1"
    )
    family: Family | Missing = column(
        "Family",
        K.CHOICE,
        choices=Family,
        required="always",
        hint="Pre-fills parts, inspection lines and required photographs.",
        example="archtop guitar",
    )
    category: str | Missing = column(
        "Category of property",
        required="always",
        hint="As an appraiser's qualifications name it.",
        example="fretted instruments",
    )
    maker: str | Missing = column(
        "Maker", required="always", hint="Name as on the label, or unknown.", example="Skarvholm"
    )
    model: str | Missing = column(
        "Model", required="always", hint="The catalogue name, not a collectors' name.", example="Consul 17"
    )
    attribution: Attribution | Missing = column(
        "Identified",
        K.CHOICE,
        choices=Attribution,
        required="always",
        hint="How strong the identification is.",
        example="by maker, marks and features agree",
    )
    description: str | Missing = column(
        "Description",
        K.LONG_TEXT,
        required="always",
        hint="Enough for a stranger to tell it from its like.",
        example="Carved-top guitar, 17-inch body, sunburst finish",
    )
    finish_class: FinishClass | Missing = column(
        "Finish",
        K.CHOICE,
        choices=FinishClass,
        required="always",
        hint="State of the finish; of an amplifier, of its covering. A refinish is charged once, under Parts.",
        example="original",
    )
    structure: str | Missing = column(
        "Structure",
        K.LONG_TEXT,
        required="always",
        hint="Cracks, braces, neck angle, repairs; or not inspected and why.",
        example="one cleated back crack, stable",
    )
    finish_condition: str | Missing = column(
        "Finish condition",
        K.LONG_TEXT,
        required="always",
        hint="Checking, fading, wear; or not inspected and why.",
        example="light checking",
    )
    wear: str | Missing = column(
        "Wear",
        K.LONG_TEXT,
        required="always",
        hint="Frets, plating, edges; or not inspected and why.",
        example="frets at half height",
    )
    playability: str | Missing = column(
        "Playability or function",
        K.LONG_TEXT,
        required="always",
        hint="Action, noise, running or not; or not inspected and why.",
        example="plays well",
    )
    provenance: str | Missing = column(
        "Provenance",
        K.LONG_TEXT,
        required="always",
        hint="History of ownership and its proof, or none known.",
        example="none known",
    )
    restricted_materials: str | Missing = column(
        "Restricted materials",
        K.LONG_TEXT,
        required="always",
        hint="Listed woods, ivory, shell; 'none seen'; or unknown.",
        example="none seen",
    )
    serial: str | Missing = column(
        "Serial no.", K.VERBATIM, hint="Exactly as stamped, as text. 'none' if there is none.", example="2217"
    )
    attribution_reason: str | Missing = column(
        "Identified by",
        K.LONG_TEXT,
        hint="Marks, features, papers it rests on.",
        example="label, serial typeface, sound-hole binding",
    )
    grade: Decimal | Missing = column(
        "Grade",
        K.NUMBER,
        required="adjusted route",
        hint="10 down to 1, as your scale defines it for the family.",
        example="7",
    )
    scale: str | Missing = column(
        "Condition scale",
        K.REFERENCE,
        refers_to="Scales",
        hint="Scale id. Blank: no condition step from grades.",
        example="K-ARCH",
    )
    inspected_on: date | Missing = column(
        "Inspected on", K.DAY, required="or why not", hint="Day of your own inspection.", example="2025-01-20"
    )
    not_inspected_reason: str | Missing = column(
        "Not inspected because", K.LONG_TEXT, hint="Only if it was not.", example=""
    )
    dimensions: str | Missing = column("Dimensions", hint="With units.", example="body 432 mm across the lower bout")
    markings: str | Missing = column(
        "Markings",
        K.LONG_TEXT,
        hint="Labels, stamps, inscriptions, word for word.",
        example="label: 'Skarvholm, Port Aldous'",
    )
    location: str | Missing = column("Location", hint="Where it is kept.", example="Port Aldous house")
    room: str | Missing = column("Room", uses=("estate",), hint="For room-by-room lists.", example="music room")
    theft_check: str | Missing = column(
        "Stolen-goods check", hint="Which register, when, result; or not done.", example="not done"
    )
    title_evidence: str | Missing = column("Title", hint="What shows ownership.", example="receipt of 1961")
    mains_powered: bool | Missing = column(
        "Mains-powered", K.YES_NO, hint="yes for anything that is plugged in.", example="no"
    )
    index: str | Missing = column(
        "Price index", K.REFERENCE, refers_to="Indexes", hint="Index id. Blank: no time step.", example="ARCH"
    )
    owner_statement: str | Missing = column(
        "Owner's statement", K.LONG_TEXT, hint="The owner's story as the owner's story.", example=""
    )
    permits: str | Missing = column("Permits and papers", K.LONG_TEXT, hint="Permits held or applied for.", example="")
    cost_to_correct: Decimal | Missing = column(
        "Cost to correct", K.AMOUNT, hint="In report currency; information, not part of the value.", example="180"
    )
    quantity: Decimal | Missing = column("Quantity", K.WHOLE, hint="Blank: 1.", example="1")
    set_id: str | Missing = column("Set", hint="Same word on every piece of a set.", example="")


@frozen(kw_only=True)
class HistoryLine:
    """One past dealing with the subject itself, or the statement that none is known."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    kind: History | Missing = column(
        "Kind",
        K.CHOICE,
        choices=History,
        required="always",
        hint="'none known' is a line of its own.",
        example="acquired",
    )
    day: date | Missing = column("Date", K.DAY, hint="The day, year-month-day.", example="1998-06-01")
    how: str | Missing = column(
        "How", K.LONG_TEXT, hint="Purchase, gift, inheritance, by whom.", example="purchased from a dealer"
    )
    price: Decimal | Missing = column("Price", K.AMOUNT, hint="In the currency beside it.", example="9500")
    currency: str | Missing = column("Currency", K.CURRENCY, hint="Three letters (ISO 4217).", example="USD")
    remark: str | Missing = column(
        "What it means for the value",
        K.LONG_TEXT,
        hint="Your analysis in a sentence.",
        example="too old to bear on today's value",
    )


@frozen(kw_only=True)
class Part:
    """The originality of one part."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    part: str | Missing = column(
        "Part",
        required="always",
        hint="Which part. What this object never had: delete the line, or mark it 'leave out'.",
        example="tuners",
    )
    state: PartState | Missing = column(
        "State",
        K.CHOICE,
        choices=PartState,
        required="always",
        hint="Six answers; 'unknown' is one. A blank is never read as original. Fill down what is alike.",
        example="later replacement",
    )
    evidence: str | Missing = column(
        "Seen by",
        K.LONG_TEXT,
        hint="What told you, for an original part too. Fill down what is alike.",
        example="extra screw holes",
    )
    reversible: bool | Missing = column("Reversible", K.YES_NO, hint="Can it be undone without a trace?", example="yes")
    original_kept: bool | Missing = column(
        "Original part kept", K.YES_NO, hint="Is the original part with the object?", example="no"
    )
    changed: str | Missing = column("Changed about", K.WORDING, hint="Date of the change in words.", example="1970s")
    deduction: Decimal | Missing = column(
        "Deduction %", K.PERCENT, hint="Your judgement, percent of an all-original example.", example="4"
    )
    deduction_reason: str | Missing = column(
        "Why this deduction",
        K.LONG_TEXT,
        required="with a deduction",
        hint="What a buyer would hold against it.",
        example="later tuners, holes enlarged",
    )


@frozen(kw_only=True)
class InspectionLine:
    """One line of the inspection form of the family."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    line: str | Missing = column(
        "Looked at", required="always", hint="The line of the inspection form.", example="neck angle"
    )
    found: str | Missing = column(
        "Found",
        K.LONG_TEXT,
        required="always",
        hint="What was seen, or: not inspected (and beside it why). Fill down what is alike.",
        example="good, no reset seen",
    )
    reason: str | Missing = column(
        "Not inspected because", K.LONG_TEXT, hint="Strings on, screws frozen, owner refused.", example=""
    )


@frozen(kw_only=True)
class Photo:
    """A photograph of an item."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G01"
    )
    file: str | Missing = column(
        "File",
        K.FILE,
        hint="Name relative to the workbook's folder. Blank: not taken, and the line is passed over.",
        example="photos/G01-front.jpg",
    )
    caption: str | Missing = column("Caption", required="always", hint="What it shows.", example="Front")
    kind: PhotoKind | Missing = column(
        "Kind", K.CHOICE, choices=PhotoKind, required="always", hint="Pick from the list.", example="full front"
    )
    taken: date | Missing = column("Taken on", K.DAY, hint="Day the picture was taken.", example="2025-01-20")
    part: str | Missing = column("Part", hint="Part or defect it shows.", example="")


@frozen(kw_only=True)
class Renaming:
    """An item split into several or several joined into one: old id, new id, day."""

    row: int
    old: str | Missing = column("Old item id", required="always", hint="Id it had last year.", example="S01")
    new: str | Missing = column("New item id", required="always", hint="Id it has now.", example="S02")
    day: date | Missing = column(
        "Date", K.DAY, required="always", hint="The day, year-month-day.", example="2025-06-30"
    )
    reason: str | Missing = column(
        "Reason", K.LONG_TEXT, required="always", hint="In a sentence.", example="tray sold apart from the service"
    )


ITEMS = declare_sheet(Item, "Items", "The objects, one line each.")
HISTORY = declare_sheet(
    HistoryLine, "Subject history", "Past dealings with the objects themselves; 'none known' is said."
)
PARTS = declare_sheet(Part, "Parts", "Originality, part by part.")
INSPECTION = declare_sheet(InspectionLine, "Inspection", "What was looked at, line by line.")
PHOTOS = declare_sheet(Photo, "Photos", "Photographs, with what they show.")
RENAMINGS = declare_sheet(
    Renaming, "Splits and joins", "Items split or joined since last year.", uses=("yearly reappraisal",)
)
