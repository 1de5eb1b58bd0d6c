"""What was hurt: losses, damage, repairs, paired sales, sets that lost a piece."""

from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import ColumnKind as K
from appraise.records.declare import column, declare_sheet
from appraise.records.vocabulary import DamageOrigin, RepairState

LOSS_USES = ("insurance claim", "expert report")


@frozen(kw_only=True)
class Loss:
    """What happened to one item, and the values before and after."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="One line for each item hurt.", example="G02"
    )
    event: str | Missing = column(
        "Event", K.LONG_TEXT, required="always", hint="What happened, as reported.", example="dropped by the carrier"
    )
    before: Decimal | Missing = column(
        "Value before",
        K.AMOUNT,
        hint="Just before the event, same kind of value as after. Blank: the value before rounding in this workbook.",
        example="31462.80",
    )
    as_it_stands: Decimal | Missing = column(
        "Value as it stands",
        K.AMOUNT,
        required="always",
        hint="On the same day and in the same market, damaged and not repaired.",
        example="21000.00",
    )
    as_it_stands_reason: str | Missing = column(
        "Why this value as it stands",
        K.LONG_TEXT,
        required="always",
        hint="What the figure rests on.",
        example="two dealers' offers in file",
    )
    stigma: Decimal | Missing = column(
        "Lasting loss after repair %",
        K.PERCENT,
        hint="Instead of Paired sales: how much less a well repaired one brings.",
        example="",
    )
    stigma_reason: str | Missing = column(
        "Why this lasting loss",
        K.LONG_TEXT,
        required="with a lasting loss",
        hint="What the percent rests on.",
        example="",
    )
    after_repair: Decimal | Missing = column(
        "Value once repaired", K.AMOUNT, hint="Instead of a percent. Higher than before: betterment.", example=""
    )
    after_repair_reason: str | Missing = column(
        "Why this value once repaired",
        K.LONG_TEXT,
        required="with a value once repaired",
        hint="What the figure rests on.",
        example="",
    )
    salvage: Decimal | Missing = column(
        "Salvage", K.AMOUNT, hint="What the damaged thing fetches as parts or project.", example="6000"
    )
    threshold: Decimal | Missing = column(
        "Total loss from %", K.PERCENT, hint="Of the value before. Blank: no such test.", example="75"
    )
    cap_by_salvage: bool | Missing = column(
        "Not above value less salvage", K.YES_NO, hint="yes: loss capped at value before less salvage.", example="no"
    )
    net_of_betterment: bool | Missing = column(
        "Less betterment", K.YES_NO, hint="yes: a repair that raises the value is paid less the rise.", example="no"
    )


@frozen(kw_only=True)
class Damage:
    """One damage found on an item, and when it came about."""

    row: int
    id: str | Missing = column(
        "Damage id", K.IDENTITY, required="always", hint="Permanent, unique in the workbook.", example="D1"
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G02"
    )
    part: str | Missing = column("Part", required="always", hint="Which part.", example="top")
    description: str | Missing = column(
        "Damage",
        K.LONG_TEXT,
        required="always",
        hint="What is hurt, where, how much.",
        example="crack from bridge to edge, 190 mm, fresh wood",
    )
    origin: DamageOrigin | Missing = column(
        "Came about",
        K.CHOICE,
        choices=DamageOrigin,
        required="always",
        hint="Say 'cannot tell' rather than guess.",
        example="from the event",
    )
    origin_reason: str | Missing = column(
        "How it is known",
        K.LONG_TEXT,
        required="always",
        hint="Clean edges, earlier photographs, old glue.",
        example="clean edges; absent on photographs of 2023",
    )
    photo: str | Missing = column("Photo", K.FILE, hint="A file listed on Photos.", example="photos/G02-top.jpg")


@frozen(kw_only=True)
class RepairLine:
    """One line of the repair estimate."""

    row: int
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", required="always", hint="Id from the sheet Items.", example="G02"
    )
    damage: str | Missing = column(
        "Damage id", K.REFERENCE, refers_to="Damage", hint="Blank: serves all damage from the event.", example="D1"
    )
    work: str | Missing = column(
        "Work or material", required="always", hint="One line of the estimate.", example="luthier's labour"
    )
    amount: Decimal | Missing = column(
        "Amount", K.AMOUNT, required="always", hint="In report currency, before tax.", example="2860.00"
    )
    tax: Decimal | Missing = column("Sales tax %", K.PERCENT, hint="Only if this line is taxed.", example="7.5")
    state: RepairState | Missing = column(
        "Done or proposed",
        K.CHOICE,
        choices=RepairState,
        required="always",
        hint="Pick from the list.",
        example="proposed",
    )
    estimator: str | Missing = column(
        "Estimated by", required="always", hint="Who, and when.", example="Ferrow workshop, 2025-01-22"
    )
    second_amount: Decimal | Missing = column(
        "Second estimate", K.AMOUNT, hint="From someone else; shown beside it.", example="3100.00"
    )
    second_estimator: str | Missing = column(
        "Second estimate by",
        required="with a second estimate",
        hint="Name and day of the second estimate.",
        example="Lunnet & Daughter, 2025-01-25",
    )


@frozen(kw_only=True)
class PairedSale:
    """Two sales alike but for one thing, from which its effect on the price is read."""

    row: int
    id: str | Missing = column(
        "Pair id", K.IDENTITY, required="always", hint="Permanent, unique in the workbook.", example="pair1"
    )
    item: str | Missing = column(
        "Item id", K.REFERENCE, refers_to="Items", hint="The damaged item it serves. Blank: a general pair.", example=""
    )
    element: str | Missing = column(
        "Differ in",
        required="always",
        hint="The one thing they differ in. Pairs of one name are taken together.",
        example="repaired top crack",
    )
    better: Decimal | Missing = column(
        "Price of the better one",
        K.AMOUNT,
        required="always",
        hint="Undamaged, or with the wanted feature. Both in report currency and on one footing.",
        example="28500.00",
    )
    poorer: Decimal | Missing = column(
        "Price of the poorer one", K.AMOUNT, required="always", hint="Repaired, or without it.", example="23100.00"
    )
    weight: Decimal | Missing = column("Weight", K.NUMBER, required="always", hint="0: shown, not used.", example="2")
    better_source: str | Missing = column(
        "Sale of the better one", required="always", hint="Sale id or published result.", example="S014"
    )
    poorer_source: str | Missing = column(
        "Sale of the poorer one", required="always", hint="Id from Sales, or where it is published.", example="S021"
    )
    remark: str | Missing = column(
        "Why they are alike",
        K.LONG_TEXT,
        required="always",
        hint="All that agrees but the one thing.",
        example="same model and year, same sale",
    )


@frozen(kw_only=True)
class SetLoss:
    """A set or pair of which part is lost: the values of the whole and of what is left."""

    row: int
    set_id: str | Missing = column(
        "Set", K.IDENTITY, required="always", hint="The word typed under Set on Items.", example="TEA"
    )
    whole: Decimal | Missing = column(
        "Value of the whole set", K.AMOUNT, required="always", hint="Before the loss.", example="18500.00"
    )
    rest: Decimal | Missing = column(
        "Value of what is left",
        K.AMOUNT,
        required="always",
        hint="As an incomplete set, damaged pieces as repaired.",
        example="12100.00",
    )
    replacement: Decimal | Missing = column(
        "Cost of replacement pieces", K.AMOUNT, hint="Blank: no like pieces can be had.", example="3950.00"
    )
    matching: Decimal | Missing = column(
        "Cost of matching them", K.AMOUNT, hint="Engraving, finish. Blank: 0.", example="640.00"
    )
    repair: Decimal | Missing = column("Repair of surviving pieces", K.AMOUNT, hint="With tax. Blank: 0.", example="")
    repair_loss: Decimal | Missing = column(
        "Lasting loss of repaired pieces", K.AMOUNT, hint="What they stay worth less once repaired.", example=""
    )
    source: str | Missing = column(
        "Basis of these figures",
        K.LONG_TEXT,
        required="always",
        hint="What they rest on.",
        example="three sales of incomplete services",
    )


@frozen(kw_only=True)
class Piece:
    """One piece of a set, valued as if it stood alone."""

    row: int
    set_id: str | Missing = column(
        "Set", K.REFERENCE, refers_to="Sets", required="always", hint="As on Sets.", example="TEA"
    )
    piece: str | Missing = column("Piece", required="always", hint="Which piece of the set.", example="sugar bowl")
    alone: Decimal | Missing = column(
        "Value alone", K.AMOUNT, required="always", hint="As a single, not as a share of the set.", example="1500.00"
    )
    lost: bool | Missing = column(
        "Lost", K.YES_NO, required="always", hint="yes if stolen or destroyed.", example="yes"
    )


LOSSES = declare_sheet(Loss, "Losses", "Items hurt, with their values before and after.", uses=LOSS_USES)
DAMAGE = declare_sheet(Damage, "Damage", "Each damage, and when it came about.", uses=LOSS_USES)
REPAIRS = declare_sheet(RepairLine, "Repairs", "The repair estimate, line by line.", uses=LOSS_USES)
PAIRED_SALES = declare_sheet(
    PairedSale, "Paired sales", "Two sales alike but for one thing, to measure that thing.", library=True
)
SETS = declare_sheet(SetLoss, "Sets", "Sets and pairs that lost a piece.", uses=LOSS_USES)
PIECES = declare_sheet(Piece, "Set pieces", "The pieces of those sets, valued one by one.", uses=LOSS_USES)
