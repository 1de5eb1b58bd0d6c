"""The whole job as read: one tuple of records per sheet."""

from appraise.model.frozen import frozen
from appraise.records.alternate import ALTERNATE, COUNSEL_FIGURES, AlternateLine, CounselFigures
from appraise.records.assignment import (
    ASSIGNMENT,
    ASSUMPTIONS,
    PEOPLE,
    VALUE_TERMS,
    Assignment,
    Assumption,
    Person,
    ValueTerms,
)
from appraise.records.claims import COVERS, DEPRECIATION, POLICY, VALUE_FACTS, Cover, Depreciation, Policy, ValueFact
from appraise.records.dating import (
    EVIDENCE,
    FEATURE_PERIODS,
    MODEL_PERIODS,
    SERIAL_RANGES,
    Evidence,
    FeaturePeriod,
    ModelPeriod,
    SerialRange,
)
from appraise.records.declare import Sheet, filled
from appraise.records.items import (
    HISTORY,
    INSPECTION,
    ITEMS,
    PARTS,
    PHOTOS,
    RENAMINGS,
    HistoryLine,
    InspectionLine,
    Item,
    Part,
    Photo,
    Renaming,
)
from appraise.records.learning import LATER_SALES, REPEAT_SALES, LaterSale, RepeatSale
from appraise.records.losses import (
    DAMAGE,
    LOSSES,
    PAIRED_SALES,
    PIECES,
    REPAIRS,
    SETS,
    Damage,
    Loss,
    PairedSale,
    Piece,
    RepairLine,
    SetLoss,
)
from appraise.records.market import (
    COMPARISONS,
    COSTS,
    MARKET_NOTES,
    OPINIONS,
    SALES,
    Comparison,
    Cost,
    MarketNote,
    Opinion,
    Sale,
)
from appraise.records.selling import (
    ABSORPTION,
    COMMISSIONS,
    LIQUIDATION,
    LIQUIDATION_TERMS,
    PROCEEDS,
    Absorption,
    CommissionTier,
    LiquidationLot,
    LiquidationTerms,
    Proceeds,
)
from appraise.records.tables import (
    ANSWERS,
    CLAUSES,
    DEDUCTIONS,
    INDEXES,
    PREMIUMS,
    RATES,
    SCALES,
    SOURCES,
    Answer,
    Clause,
    Deduction,
    IndexPoint,
    PremiumTier,
    Rate,
    ScaleStep,
    Source,
)
from appraise.records.transfers import (
    COURT_CASE,
    EXPERT_RECORD,
    SHARES,
    TRANSFER,
    CourtCase,
    ExpertRecord,
    Share,
    Transfer,
)
from appraise.records.yearly import TREATMENTS, YEARLY_TERMS, LineTreatment, YearlyTerms

#: Format of workbook, library and JSON record. A change needs an upgrade step and a frozen workbook in tests/formats.
FORMAT = 1


@frozen(kw_only=True)
class Job:
    """Everything typed in one workbook (and its library), sheet by sheet, rows in the order typed."""

    assignment: Assignment
    value_terms: tuple[ValueTerms, ...] = ()
    people: tuple[Person, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    items: tuple[Item, ...] = ()
    history: tuple[HistoryLine, ...] = ()
    evidence: tuple[Evidence, ...] = ()
    parts: tuple[Part, ...] = ()
    inspection: tuple[InspectionLine, ...] = ()
    photos: tuple[Photo, ...] = ()
    sales: tuple[Sale, ...] = ()
    comparisons: tuple[Comparison, ...] = ()
    opinions: tuple[Opinion, ...] = ()
    costs: tuple[Cost, ...] = ()
    market_notes: tuple[MarketNote, ...] = ()
    premiums: tuple[PremiumTier, ...] = ()
    rates: tuple[Rate, ...] = ()
    indexes: tuple[IndexPoint, ...] = ()
    scales: tuple[ScaleStep, ...] = ()
    deductions: tuple[Deduction, ...] = ()
    model_periods: tuple[ModelPeriod, ...] = ()
    feature_periods: tuple[FeaturePeriod, ...] = ()
    serial_ranges: tuple[SerialRange, ...] = ()
    clauses: tuple[Clause, ...] = ()
    renamings: tuple[Renaming, ...] = ()
    answers: tuple[Answer, ...] = ()
    sources: tuple[Source, ...] = ()
    depreciation: tuple[Depreciation, ...] = ()
    value_facts: tuple[ValueFact, ...] = ()
    losses: tuple[Loss, ...] = ()
    damage: tuple[Damage, ...] = ()
    repairs: tuple[RepairLine, ...] = ()
    paired_sales: tuple[PairedSale, ...] = ()
    sets: tuple[SetLoss, ...] = ()
    pieces: tuple[Piece, ...] = ()
    policy: Policy = filled(Policy)
    covers: tuple[Cover, ...] = ()
    proceeds: tuple[Proceeds, ...] = ()
    commissions: tuple[CommissionTier, ...] = ()
    liquidation_terms: LiquidationTerms = filled(LiquidationTerms)
    liquidation: tuple[LiquidationLot, ...] = ()
    absorption: tuple[Absorption, ...] = ()
    alternate: tuple[AlternateLine, ...] = ()
    counsel_figures: CounselFigures = filled(CounselFigures)
    transfer: Transfer = filled(Transfer)
    shares: tuple[Share, ...] = ()
    court_case: CourtCase = filled(CourtCase)
    expert_record: tuple[ExpertRecord, ...] = ()
    treatments: tuple[LineTreatment, ...] = ()
    yearly_terms: YearlyTerms = filled(YearlyTerms)
    later_sales: tuple[LaterSale, ...] = ()
    repeat_sales: tuple[RepeatSale, ...] = ()


#: The sheets in the order an appraiser fills them; the key is the field of `Job` that holds the records.
SHEETS: dict[str, Sheet] = {
    "assignment": ASSIGNMENT,
    "value_terms": VALUE_TERMS,
    "people": PEOPLE,
    "transfer": TRANSFER,
    "court_case": COURT_CASE,
    "expert_record": EXPERT_RECORD,
    "items": ITEMS,
    "inspection": INSPECTION,
    "parts": PARTS,
    "evidence": EVIDENCE,
    "photos": PHOTOS,
    "history": HISTORY,
    "sales": SALES,
    "comparisons": COMPARISONS,
    "opinions": OPINIONS,
    "costs": COSTS,
    "depreciation": DEPRECIATION,
    "value_facts": VALUE_FACTS,
    "losses": LOSSES,
    "damage": DAMAGE,
    "repairs": REPAIRS,
    "sets": SETS,
    "pieces": PIECES,
    "policy": POLICY,
    "covers": COVERS,
    "proceeds": PROCEEDS,
    "liquidation_terms": LIQUIDATION_TERMS,
    "liquidation": LIQUIDATION,
    "absorption": ABSORPTION,
    "alternate": ALTERNATE,
    "counsel_figures": COUNSEL_FIGURES,
    "shares": SHARES,
    "yearly_terms": YEARLY_TERMS,
    "treatments": TREATMENTS,
    "assumptions": ASSUMPTIONS,
    "market_notes": MARKET_NOTES,
    "paired_sales": PAIRED_SALES,
    "repeat_sales": REPEAT_SALES,
    "later_sales": LATER_SALES,
    "premiums": PREMIUMS,
    "commissions": COMMISSIONS,
    "rates": RATES,
    "indexes": INDEXES,
    "scales": SCALES,
    "deductions": DEDUCTIONS,
    "model_periods": MODEL_PERIODS,
    "feature_periods": FEATURE_PERIODS,
    "serial_ranges": SERIAL_RANGES,
    "clauses": CLAUSES,
    "renamings": RENAMINGS,
    "answers": ANSWERS,
    "sources": SOURCES,
}
