"""The closed lists of the workbook: what may be typed in a CHOICE column. The value is the word a person picks."""

from enum import StrEnum


class Use(StrEnum):
    """What the report is for."""

    INSURANCE = "insurance"
    CLAIM = "insurance claim"
    ESTATE = "estate"
    GIFT = "gift"
    DONATION = "donation"
    DIVISION = "division of property"
    SALE = "sale advice"
    EXPERT = "expert report"
    YEARLY = "yearly reappraisal"


class ValueType(StrEnum):
    """Types of value an opinion can state."""

    FAIR_MARKET = "fair market value"
    RETAIL_REPLACEMENT = "retail replacement value"
    COMPARABLE_REPLACEMENT = "replacement with comparable"
    REPLACEMENT_COST_NEW = "replacement cost new"
    ACTUAL_CASH = "actual cash value"
    AGREED = "agreed value"
    STATED = "stated amount"
    MARKETABLE_CASH = "marketable cash value"
    ORDERLY_LIQUIDATION = "orderly liquidation value"
    FORCED_LIQUIDATION = "forced liquidation value"
    DIMINUTION = "diminution in value"


class Market(StrEnum):
    """Market levels of the trade."""

    DEALER_RETAIL = "dealer retail"
    AUCTION = "auction"
    PRIVATE = "private"
    TRADE = "trade"


class PriceKind(StrEnum):
    """What a typed price is."""

    HAMMER = "hammer"
    ALL_IN = "all-in"
    ASKING = "asking"
    DEALER_SOLD = "dealer sold"
    PRIVATE_SOLD = "private sold"
    TRADE = "trade"
    UNSOLD = "unsold"


class PriceBasis(StrEnum):
    """Footing to which auction prices are brought: with or without the buyer's premium."""

    ALL_IN = "all-in"
    HAMMER = "hammer"


class PremiumTax(StrEnum):
    """Whether tax on the buyer's premium stays in the price."""

    IN = "in the price"
    OUT = "left out"
    REFUNDABLE = "refundable, left out"


class PremiumTiers(StrEnum):
    """How a tiered premium is charged."""

    MARGINAL = "each tier on its part"
    WHOLE_PRICE = "one rate on the whole price"


class Combine(StrEnum):
    """How percents are combined: multiplied one after the other, or added."""

    MULTIPLY = "multiply"
    ADD = "add"


class Conclusion(StrEnum):
    """How the value before rounding is concluded."""

    MEAN = "weighted mean"
    MEDIAN = "weighted median"
    TYPED = "typed"


class Route(StrEnum):
    """How far an opinion is developed."""

    SHORT = "short"
    RELATIVE = "relative"
    ADJUSTED = "adjusted"


class Compare(StrEnum):
    """How a comparison stands to the subject in one element (relative route)."""

    BETTER = "better"
    SIMILAR = "similar"
    POORER = "poorer"


class Family(StrEnum):
    """Families of object; the family pre-fills parts, inspection lines and required photographs."""

    FLAT_TOP = "flat-top guitar"
    ARCHTOP = "archtop guitar"
    SOLID_ELECTRIC = "solid-body electric"
    ELECTRIC_BASS = "electric bass"
    MANDOLIN = "mandolin family"
    BANJO = "banjo"
    RESONATOR = "resonator"
    UKULELE = "ukulele"
    HARP_GUITAR = "harp guitar"
    TUBE_AMPLIFIER = "tube amplifier"
    BOW = "bow"
    SILVER = "silver"
    TIMEPIECE = "timepiece"
    OTHER = "other"


class Attribution(StrEnum):
    """Strength of an identification."""

    DOCUMENTED = "by maker, documented"
    MARKS_AND_FEATURES = "by maker, marks and features agree"
    ATTRIBUTED = "attributed"
    MANNER_OF = "in the manner of"
    UNKNOWN_MAKER = "unknown maker"


class PartState(StrEnum):
    """The six answers about a part; there is no seventh, and a blank is none of them."""

    ORIGINAL = "original"
    PERIOD_REPLACEMENT = "period replacement"
    LATER_REPLACEMENT = "later replacement"
    MODIFIED = "modified"
    MISSING = "missing"
    UNKNOWN = "unknown"


class FinishClass(StrEnum):
    """State of the finish, in the words of the trade."""

    ORIGINAL = "original"
    TOUCHED_IN = "original with touch-in"
    OVERSPRAYED = "over-sprayed"
    FACTORY_REFINISH = "factory refinish, documented"
    REFINISH_SAME = "professional refinish, original colour"
    REFINISH_OTHER = "refinish in another colour"
    STRIPPED = "stripped"
    FRENCH_POLISHED = "French polish over original"
    NOT_APPLICABLE = "no finish"


class EvidenceKind(StrEnum):
    """Kinds of evidence for a date of manufacture."""

    FEATURE = "feature period"
    SERIAL = "serial number"
    DATED_PART = "dated part"
    COMPONENT_CODE = "component date code"
    PATENT = "patent or design number"
    LEGAL_MARK = "mark required by law"
    ADDRESS = "postal code or telephone"
    MATERIAL = "material or fitting"
    SPECIES = "species listing"
    DOCUMENT = "document or sale"
    INSCRIPTION = "inscription"
    STYLE = "style"


class EvidenceRole(StrEnum):
    """What a stated date is the date of."""

    WHOLE = "the object itself"
    PART = "a part made before"
    AFTER = "an event after"


class EvidenceStatus(StrEnum):
    """Whether the thing that carries the evidence belongs to the object as made."""

    ORIGINAL = "original"
    UNVERIFIED = "unverified"
    REPLACED = "replaced"


class History(StrEnum):
    """What is known of the subject's own past dealings."""

    ACQUIRED = "acquired"
    SALE = "earlier sale"
    OFFER = "offer"
    LISTING = "listing"
    CONTRACT = "contract"
    NONE_KNOWN = "none known"


class PersonRole(StrEnum):
    """What a person did for the report."""

    APPRAISER = "appraiser"
    CO_APPRAISER = "second appraiser"
    INSPECTOR = "inspector"
    ASSISTANT = "assistant"


class AssumptionKind(StrEnum):
    """The two kinds, never mixed: uncertain but taken as true; known false but assumed for the purpose."""

    EXTRAORDINARY = "extraordinary assumption"
    HYPOTHETICAL = "hypothetical condition"


class FeeBasis(StrEnum):
    """What the fee is measured by. The last two void a report in most uses; they can be typed so that it shows."""

    HOUR = "hour"
    DAY = "day"
    ITEM = "item"
    FIXED = "fixed"
    PERCENT = "percent of value"
    OUTCOME = "outcome"


class ReportOption(StrEnum):
    """Reporting options of the US standard (USPAP Standards Rule 8-2)."""

    FULL = "appraisal report"
    RESTRICTED = "restricted appraisal report"


class RateDirection(StrEnum):
    """How an exchange rate is quoted; a rate is never inverted."""

    REPORT_PER_FOREIGN = "report currency per foreign unit"
    FOREIGN_PER_REPORT = "foreign units per report unit"


class CostKind(StrEnum):
    """Costs of replacement, beside the price."""

    SALES_TAX = "sales tax"
    SET_UP = "set-up and adjustment"
    FREIGHT = "freight"
    TRANSIT_INSURANCE = "transit insurance"
    DUTY = "duty"
    ENTRY_FEE = "entry fee"
    IMPORT_TAX = "import tax"
    OTHER = "other cost"


class PhotoKind(StrEnum):
    """What a photograph shows."""

    FRONT = "full front"
    BACK = "full back"
    SIDE = "side"
    HEAD_FRONT = "head front"
    HEAD_BACK = "head back"
    SERIAL = "serial"
    LABEL = "label or stamp"
    INTERIOR = "interior"
    DETAIL = "detail"
    DEFECT = "defect"
    ELECTRONICS = "electronics"
    CASE = "case"
    DOCUMENT = "document"


class DepreciationManner(StrEnum):
    """How the cost of a new one is reduced for age and wear."""

    AGE_AND_LIFE = "by age and life"
    PERCENT_GOOD = "by percent good"
    YEARLY_PERCENT = "same percent each year"
    DECLINING = "percent of what is left each year"


class CashValueReading(StrEnum):
    """What a policy or a court takes actual cash value to be."""

    COST_LESS_DEPRECIATION = "cost new less depreciation"
    MARKET_VALUE = "market value"
    BROAD_EVIDENCE = "broad evidence"


class SaleRoute(StrEnum):
    """How a seller would turn an item into money."""

    AUCTION = "auction"
    CONSIGNMENT = "dealer on consignment"


class Departure(StrEnum):
    """What became of an item of an estate in the six months after the death."""

    HELD = "still held"
    SOLD = "sold"
    DISTRIBUTED = "distributed"
    EXCHANGED = "exchanged"
    OTHERWISE = "otherwise disposed of"


class DamageOrigin(StrEnum):
    """When a damage came about, as far as it can be told."""

    BEFORE = "before the event"
    FROM_EVENT = "from the event"
    CANNOT_TELL = "cannot tell"


class RepairState(StrEnum):
    """Whether a repair has been carried out."""

    DONE = "done"
    PROPOSED = "proposed"


class SettlementBasis(StrEnum):
    """What a policy pays for a total loss, in the words of its valuation clause."""

    AGREED_VALUE = "agreed value"
    STATED_AMOUNT = "stated amount"
    REPLACEMENT_COST = "replacement cost"
    ACTUAL_CASH = "actual cash value"
    MARKET_VALUE = "market value"
    LEAST_OF = "least of several"


class DeductibleOrder(StrEnum):
    """Whether the deductible is taken from the loss before or after the coinsurance ratio."""

    AFTER_RATIO = "after the ratio"
    BEFORE_RATIO = "before the ratio"


class SetClause(StrEnum):
    """What a policy pays when part of a set is lost."""

    SMALLER = "smaller of difference and restoring"
    DIFFERENCE = "difference before and after"
    RESTORE = "cost of restoring the set"
    SURRENDER = "whole value, the rest handed over"
    SHARE = "share of the lost pieces"


class Treatment(StrEnum):
    """What is done with a line of a schedule this year."""

    INDEX = "index"
    PERCENT = "percent"
    FRESH = "fresh comparables"
    HOLD = "hold"
    REMOVED = "removed"
    ADDED = "added"


class PropertyType(StrEnum):
    """What kind of property a contribution is, as the form of the tax return sorts it."""

    ART = "art"
    COLLECTIBLE = "collectible"
    HOUSEHOLD = "clothing or household item"
    OTHER = "other property"


class ShareState(StrEnum):
    """Whether the parties agree on who receives an item."""

    AGREED = "agreed"
    CONTESTED = "contested"
    OPEN = "not settled"


class ExpertRecordKind(StrEnum):
    """What an expert has published and where testified; the last two say that there is nothing to list."""

    PUBLICATION = "publication"
    TRIAL = "testimony at trial"
    DEPOSITION = "testimony at deposition"
    NO_PUBLICATIONS = "no publications in ten years"
    NO_TESTIMONY = "no testimony in four years"
