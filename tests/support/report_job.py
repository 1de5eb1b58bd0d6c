"""A small estate job, typed by hand, with results whose figures are those of the published-form case V03.

The figures are put in as they stand in the case: these tests are about what is printed, not about how it is computed.
"""

import tomllib
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

from appraise.dating.dated import Dated, read_stated, read_use
from appraise.dating.result import DateWindow, Statement
from appraise.dating.settings import Settings
from appraise.dating.window import date_window
from appraise.findings.entries import catalogue
from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.kinds import COUNT, DAY, FACTOR, INDEX, PERCENT, SHOWN_PERCENT, TEXT, Kind, money
from appraise.model.ledger import RecordingLedger
from appraise.model.months import month_number
from appraise.model.place import Place
from appraise.records.assignment import Assignment, Assumption, Person, ValueTerms
from appraise.records.declare import filled
from appraise.records.items import HistoryLine, InspectionLine, Item, Part, Photo
from appraise.records.job import Job
from appraise.records.market import Comparison, MarketNote, Opinion, Sale
from appraise.records.tables import Answer, IndexPoint, PremiumTier, Rate, ScaleStep, Source
from appraise.records.vocabulary import (
    AssumptionKind,
    Attribution,
    Combine,
    Conclusion,
    EvidenceKind,
    EvidenceStatus,
    Family,
    FeeBasis,
    FinishClass,
    History,
    Market,
    PartState,
    PersonRole,
    PhotoKind,
    PremiumTax,
    PriceBasis,
    PriceKind,
    RateDirection,
    ReportOption,
    Route,
    Use,
    ValueType,
)
from appraise.report.compose.inputs import AnsweredFinding, ItemResult, PreparedPhoto, ReportInputs
from appraise.report.compose.sums import bridge, totals
from appraise.valuing.result import ComparisonResult, Valuation
from appraise.wording.texts import fields_of

D = Decimal
FMV, RRV = ValueType.FAIR_MARKET, ValueType.RETAIL_REPLACEMENT
V03 = Path(__file__).parents[1] / "cases" / "valuation" / "V03.toml"

ASSIGNMENT = filled(
    Assignment,
    use=Use.ESTATE,
    title="Instruments of the late A. Quenby",
    client="R. Quenby, executor",
    client_address="3 Mill Row\nEnnerby Falls",
    intended_users="the executor; the executor's counsel; the tax authority",
    intended_use="to support the estate tax return",
    owner="Estate of A. Quenby",
    interest="sole ownership, free of liens",
    engaged_on=date(2025, 1, 8),
    effective_date=date(2024, 11, 15),
    death_date=date(2024, 11, 15),
    report_date=date(2025, 2, 10),
    return_due=date(2025, 8, 15),
    currency="USD",
    report_language="en",
    workbook_locale="en_US",
    jurisdiction="US",
    report_option=ReportOption.FULL,
    fee_basis=FeeBasis.HOUR,
    prior_services="none",
    scope="Personal inspection of every item but one. No dismantling; no laboratory tests.",
    combine_deductions=Combine.MULTIPLY,
    combine_adjustments=Combine.MULTIPLY,
    originality_floor=D(20),
    issue_number=D(1),
)

TERMS = (
    filled(
        ValueTerms,
        value_type=FMV,
        market=Market.AUCTION,
        market_reason="Archtops of this class are mostly bought by the public at auction.",
        price_basis=PriceBasis.ALL_IN,
        premium_tax=PremiumTax.IN,
        exposure_time="three to six months",
        sales_comparison="used",
        cost_approach="not used: no new equivalent is made",
        income_approach="not used: such things are not held for income",
        conclusion=Conclusion.MEAN,
    ),
    filled(
        ValueTerms,
        value_type=RRV,
        market=Market.DEALER_RETAIL,
        market_reason="A replacement is bought from a dealer.",
        price_basis=PriceBasis.ALL_IN,
        premium_tax=PremiumTax.IN,
        exposure_time="not applicable",
        sales_comparison="used",
        cost_approach="not used",
        income_approach="not used",
        conclusion=Conclusion.MEDIAN,
    ),
)

PEOPLE = (
    filled(
        Person,
        id="P1",
        name="M. Tarrow",
        role=PersonRole.APPRAISER,
        address="9 Quay Street, Port Aldous",
        credentials="Twenty-two years of appraising fretted instruments.\nTrained as a luthier.",
        categories="fretted instruments; bows",
        signs=True,
        inspected="all",
        interest="none",
    ),
    filled(
        Person,
        id="P2",
        name="L. Iverdale",
        role=PersonRole.ASSISTANT,
        signs=False,
        inspected="G01",
        interest="none",
        assistance="photography and measuring.",
    ),
)

ARCHTOP = filled(
    Item,
    row=2,
    id="G01",
    number="1",
    family=Family.ARCHTOP,
    category="fretted instruments",
    maker="Skarvholm",
    model="Consul 17",
    attribution=Attribution.MARKS_AND_FEATURES,
    attribution_reason="label, serial typeface, sound-hole binding",
    serial="2217",
    description="Carved-top guitar, 17-inch body, sunburst finish",
    dimensions="body 432 mm across the lower bout",
    markings="label: 'Skarvholm, Port Aldous' <R&D>",
    finish_class=FinishClass.ORIGINAL,
    location="Port Aldous house",
    room="music room",
    inspected_on=date(2025, 1, 20),
    structure="one cleated back crack, stable",
    finish_condition="light checking",
    wear="frets at half height",
    playability="plays well",
    grade=D(7),
    scale="K-ARCH",
    index="ARCH",
    provenance="receipt of March 1939",
    owner_statement="bought from the first owner",
    restricted_materials="bridge of a dark wood, species not tested",
    mains_powered=False,
    cost_to_correct=D(180),
)
AMPLIFIER = filled(
    Item,
    row=3,
    id="G02",
    number="2",
    family=Family.TUBE_AMPLIFIER,
    category="amplifiers",
    maker="Voltigern",
    model="Tidewater 22",
    attribution=Attribution.DOCUMENTED,
    description="Amplifier with one speaker",
    finish_class=FinishClass.NOT_APPLICABLE,
    location="Workshop",
    not_inspected_reason="in store abroad",
    structure="as reported: sound",
    finish_condition="as reported: worn",
    wear="as reported: worn",
    playability="as reported: working",
    provenance="none known",
    restricted_materials="none seen",
    mains_powered=True,
)

PARTS = (
    filled(Part, item="G01", part="body", state=PartState.ORIGINAL, evidence="finish unbroken"),
    filled(
        Part,
        item="G01",
        part="tuners",
        state=PartState.LATER_REPLACEMENT,
        evidence="extra screw holes",
        reversible=True,
        original_kept=False,
        changed="1970s",
        deduction=D(4),
        deduction_reason="later tuners, holes enlarged",
    ),
    filled(
        Part,
        item="G01",
        part="tailpiece",
        state=PartState.LATER_REPLACEMENT,
        evidence="pattern used from 1939",
        deduction=D(5),
        deduction_reason="later pattern",
    ),
    filled(Part, item="G01", part="pickguard", state=PartState.UNKNOWN, evidence="could not be told"),
)

SALES = {
    "c1": ("S1", PriceKind.HAMMER, "USD", "21000.00", date(2024, 3, 16), "Marrowby Rooms", "A1", 8),
    "c2": ("S2", PriceKind.HAMMER, "GBP", "14500.00", date(2023, 10, 5), "Thole & Cressing", "B", 6),
    "c3": ("S3", PriceKind.DEALER_SOLD, "USD", "31500.00", date(2024, 8, 2), "Undergrove Music", None, 8),
    "c4": ("S4", PriceKind.ASKING, "USD", "33900.00", date(2024, 11, 1), "Nettlecombe Frets", None, 7),
    "c5": ("S5", PriceKind.HAMMER, "EUR", "17200.00", date(2022, 5, 21), "Dornwick", "C", 7),
    "c6": ("S6", PriceKind.HAMMER, "USD", "24000.00", date(2025, 1, 18), "Marrowby Rooms", "A2", 7),
}
ADJUSTED = {
    "c1": {"lump": D(-350), "lump_reason": "original case sold with it", "weight": D(3)},
    "c2": {"deductions": "4", "deductions_reason": "later tuners", "weight": D(2)},
    "c3": {
        "level": D(-15),
        "level_reason": "dealer retail over auction all-in, own pairs",
        "configuration": D(-8),
        "configuration_reason": "scarcer natural finish",
        "lump": D(-350),
        "lump_reason": "original case sold with it",
        "weight": D(2),
    },
    "c4": {
        "discount": D(12),
        "discount_reason": "this dealer's sold prices run 10 to 14 percent below",
        "level": D(-15),
        "level_reason": "dealer retail over auction all-in, own pairs",
        "deductions": "5",
        "deductions_reason": "later tailpiece",
        "use_reason": "seen two weeks before the date, and no other example was on the market",
        "weight": D(1),
    },
    "c5": {
        "deductions": "12",
        "deductions_reason": "refretted, later tuners",
        "provenance": D("-2.5"),
        "provenance_reason": "letter of a named player",
        "weight": D(1),
    },
    "c6": {"weight": D(0), "use_reason": "fell two months after the death; shown for completeness"},
}

_KINDS: dict[str, Kind] = {
    "index": INDEX,
    "index_valuation": INDEX,
    "time_factor": FACTOR,
    "adj_factor": FACTOR,
    "rate_date": DAY,
    "median_kind": TEXT,
    "spread_pct": SHOWN_PERCENT,
    "weight_total": COUNT,
} | dict.fromkeys(("pct_cond", "originality", "pct_orig", "net_pct", "gross_pct"), PERCENT)


def sales() -> tuple[Sale, ...]:
    """Return the six price records of the case."""
    return tuple(
        filled(
            Sale,
            id=ident,
            maker="Skarvholm",
            model="Consul 17",
            made_from="1937",
            made_to="1938",
            kind=kind,
            market=Market.AUCTION if kind is PriceKind.HAMMER else Market.DEALER_RETAIL,
            currency=currency,
            price=D(price),
            day=day,
            house=house,
            lot="lot 41",
            grade=D(grade),
            description="sunburst",
            verified="published result",
            **({"premium_table": table} if table else {}),
        )
        for ident, kind, currency, price, day, house, table, grade in SALES.values()
    )


def comparisons(value_type: ValueType = FMV, lines: Iterable[str] = tuple(SALES)) -> tuple[Comparison, ...]:
    """Return comparisons of the case for a type of value."""
    return tuple(
        filled(
            Comparison,
            id=line,
            item="G01",
            value_type=value_type,
            sale=SALES[line][0],
            weight_reason="same model, near in time",
            **ADJUSTED[line],
        )
        for line in lines
    )


def _figure(scope: str, name: str, text: str, currency: str = "USD") -> Figure:
    kind = _KINDS.get(name, money(currency))
    value = text if kind is TEXT else date.fromisoformat(text) if kind is DAY else D(text)
    return Figure(f"{scope}.{name}", kind, value, "sum")


def _expected() -> dict[str, dict[str, str]]:
    """Return the case's figures by line (`c1`, `subject`, "" for the whole)."""
    lines: dict[str, dict[str, str]] = {}
    for one in tomllib.loads(V03.read_text("utf-8"))["expected"].strip().splitlines():
        label, _, text = one.partition(" = ")
        parts = label.split(".")[1:]
        lines.setdefault(parts[0] if len(parts) > 1 else "", {})[parts[-1]] = text
    return lines


def valuation() -> Valuation:
    """Return the fair market value of the archtop with the figures of the case."""
    expected = _expected()
    by_sale = {one.id: one for one in sales()}
    results = []
    for line in comparisons():
        name = str(line.id)
        currency = SALES[name][2]
        steps: dict[str, Outcome] = {}
        for step, text in expected[name].items():
            if step != "findings":
                own = currency if step in ("premium", "premium_tax", "basis") else "USD"
                steps[step] = _figure(f"G01.fmv.{name}", step, text, own)
        results.append(ComparisonResult(line, by_sale[line.sale], steps, steps["adjusted"], line.weight != 0, ()))
    figures: dict[str, Outcome] = {
        name: _figure("G01.fmv", name, text) for name, text in expected[""].items() if name != "findings"
    }
    return Valuation(
        item="G01",
        value_type=FMV,
        route=Route.ADJUSTED,
        conclusion=Conclusion.MEAN,
        subject={"originality": _figure("G01.fmv.subject", "originality", expected["subject"]["originality"])},
        comparisons=tuple(results),
        figures=figures,
        value=figures["value"],
        rounded=figures["value_rounded"],
        findings=(),
    )


def replacement() -> Valuation:
    """Return a retail replacement value with its build-up, worked by hand: 31,500 and 33,900 of equal weight.

    Median (a tie) 32,700; sales tax 7.25 % 2,370.75; freight 180; value 35,250.75; rounded 35,300.
    """
    by_sale = {one.id: one for one in sales()}
    results = []
    for line, price in zip(comparisons(RRV, ("c3", "c4")), ("31500.00", "33900.00"), strict=True):
        plain = replace(line, level=None, discount=None)
        steps: dict[str, Outcome] = {
            "basis": _figure(f"G01.rrv.{line.id}", "basis", price),
            "adjusted": _figure(f"G01.rrv.{line.id}", "adjusted", price),
        }
        kept = filled(Comparison, id=plain.id, item="G01", value_type=RRV, sale=plain.sale, weight=D(1))
        results.append(ComparisonResult(kept, by_sale[line.sale], steps, steps["adjusted"], True, ()))
    texts = {
        "weight_total": "2",
        "mean": "32700.00",
        "median": "32700.00",
        "median_kind": "tie",
        "low": "31500.00",
        "high": "33900.00",
        "spread_pct": "7.3",
        "base": "32700.00",
        "sales_tax": "2370.75",
        "freight": "180.00",
        "value": "35250.75",
        "value_rounded": "35300",
        "low_rounded": "34000",
        "high_rounded": "36500",
    }
    figures: dict[str, Outcome] = {name: _figure("G01.rrv", name, text) for name, text in texts.items()}
    return Valuation(
        item="G01",
        value_type=RRV,
        route=Route.ADJUSTED,
        conclusion=Conclusion.MEDIAN,
        subject={},
        comparisons=tuple(results),
        figures=figures,
        value=figures["value"],
        rounded=figures["value_rounded"],
        findings=(),
    )


def not_concluded() -> Valuation:
    """Return an opinion on the amplifier that lacks its figure."""
    reason = known_finding("ITM-", Place("Items", 3, "grade"), "G02")
    none = NoFigure((reason,))
    return Valuation("G02", FMV, Route.ADJUSTED, Conclusion.MEAN, {}, (), {"value": none}, none, none, (reason,))


SETTINGS = Settings(examined=month_number(2025, 1))


def statement(
    ident: str,
    part: str,
    say: str,
    dated: Dated | tuple[object, ...],
    *,
    status: EvidenceStatus = EvidenceStatus.ORIGINAL,
    strength: int = 3,
) -> Statement:
    """Return a statement of evidence from read words."""
    assert isinstance(dated, Dated)
    return Statement(
        id=ident,
        part=part,
        say=say,
        kind=EvidenceKind.FEATURE,
        source="maker's catalogue of 1936",
        status=status,
        strength=strength,
        outer=dated.outer,
        inner=dated.inner,
        place=Place("Evidence", 2, "from_"),
        words=dated.words,
    )


def archtop_window() -> DateWindow:
    """Return the window 1937 to 1938 of the archtop, with a replaced tailpiece."""
    return date_window(
        "G01",
        [
            statement("e1", "body", "bound sound holes", read_use("1936", "1942", SETTINGS)),
            statement("e2", "body", "parallel bracing", read_use("", "1938", SETTINGS)),
            statement("e3", "label", "serial number 2217", read_stated("1937-38", SETTINGS)),
            statement(
                "e4",
                "tailpiece",
                "engraved tailpiece",
                read_use("1939", "", SETTINGS),
                status=EvidenceStatus.REPLACED,
            ),
        ],
        SETTINGS.examined,
    )


def conflicting_window() -> DateWindow:
    """Return a window in conflict with one best explanation: an unverified late component."""
    return date_window(
        "G02",
        [
            statement("f1", "cabinet", "first covering", read_use("1955", "1957", SETTINGS)),
            statement("f2", "chassis", "chart stamp", read_stated("1956", SETTINGS)),
            statement(
                "f3", "speaker", "speaker code", read_use("1962", "", SETTINGS), status=EvidenceStatus.UNVERIFIED
            ),
        ],
        SETTINGS.examined,
    )


JOB = Job(
    assignment=ASSIGNMENT,
    value_terms=TERMS,
    people=PEOPLE,
    assumptions=(
        filled(
            Assumption,
            id="A1",
            kind=AssumptionKind.EXTRAORDINARY,
            items="G02",
            text="The amplifier is taken to be in the condition reported.",
            effect="If it is not, the value falls.",
        ),
    ),
    items=(ARCHTOP, AMPLIFIER),
    history=(
        filled(
            HistoryLine,
            item="G01",
            kind=History.ACQUIRED,
            day=date(1961, 4, 22),
            how="bought",
            price=D(325),
            currency="USD",
            remark="too old",
        ),
        filled(HistoryLine, item="G02", kind=History.NONE_KNOWN),
    ),
    parts=PARTS,
    inspection=(
        filled(InspectionLine, item="G01", line="neck angle", found="good"),
        filled(InspectionLine, item="G01", line="neck joint", found="not inspected", reason="strings on"),
    ),
    photos=(
        filled(Photo, item="G01", file="a.jpg", caption="Front", kind=PhotoKind.FRONT, taken=date(2025, 1, 20)),
        filled(Photo, item="G01", file="b.jpg", caption="Label", kind=PhotoKind.LABEL),
        filled(Photo, item="G01", file="lost.jpg", caption="Back", kind=PhotoKind.BACK),
    ),
    sales=sales(),
    comparisons=comparisons(),
    opinions=(
        filled(
            Opinion,
            item="G01",
            value_type=FMV,
            reconciliation="The auction sales of 2024 carry most weight; the opinion stands mid-range.",
        ),
        filled(Opinion, item="G02", value_type=RRV, not_valued="not insured"),
    ),
    market_notes=(
        filled(
            MarketNote,
            family=Family.ARCHTOP,
            market="At auction.",
            supply="Thin.",
            demand="Steady.",
            trend="Slightly falling since 2023.",
        ),
    ),
    premiums=(
        filled(
            PremiumTier,
            table="A1",
            house="Marrowby Rooms",
            currency="USD",
            valid_from=date(2020, 1, 1),
            valid_to=date(2024, 6, 30),
            up_to=D(10000),
            rate=D(28),
            source="conditions of sale",
        ),
        filled(
            PremiumTier,
            table="A1",
            house="Marrowby Rooms",
            currency="USD",
            valid_from=date(2020, 1, 1),
            valid_to=date(2024, 6, 30),
            rate=D(22),
            source="conditions of sale",
        ),
        filled(
            PremiumTier,
            table="Z",
            house="Elsewhere",
            currency="USD",
            valid_from=date(2020, 1, 1),
            rate=D(99),
            source="x",
        ),
    ),
    rates=(
        filled(
            Rate,
            currency="GBP",
            day=date(2023, 10, 5),
            rate=D("1.2189"),
            direction=RateDirection.REPORT_PER_FOREIGN,
            source="daily list",
        ),
        filled(
            Rate,
            currency="JPY",
            day=date(2023, 10, 5),
            rate=D("0.0067"),
            direction=RateDirection.REPORT_PER_FOREIGN,
            source="daily list",
        ),
    ),
    indexes=(
        filled(IndexPoint, index="ARCH", month="2024-07", figure=D("103.6"), market=Market.AUCTION, source="own index"),
    ),
    scales=(filled(ScaleStep, scale="K-ARCH", grade=D(7), percent=D(72), words="honest wear, no open damage"),),
    sources=(filled(Source, id="B1", text="Catalogue of the maker, 1936."),),
)


def results() -> tuple[ItemResult, ...]:
    """Return the results of both items."""
    steps = bridge(RecordingLedger("G01.bridge"), (valuation(), replacement()), "USD")
    return (
        ItemResult(ARCHTOP, archtop_window(), (valuation(), replacement()), (), steps),
        ItemResult(AMPLIFIER, conflicting_window(), (not_concluded(),), ()),
    )


def inputs(
    *, draft: bool = False, job: Job = JOB, photos: dict[str, tuple[PreparedPhoto, ...]] | None = None
) -> ReportInputs:
    """Return all that the report of the job is composed from."""
    left_out = frozenset({("G02", RRV)})
    sums = totals(RecordingLedger("schedule"), results(), (FMV, RRV), left_out, "USD")
    answered = AnsweredFinding(
        known_finding("ASG-", Place("Comparisons", 5, "kind"), "G01"),
        filled(Answer, code="", reason="No other example was offered.", initials="MT", day=date(2025, 2, 10)),
    )
    return ReportInputs(job=job, results=results, totals=sums, findings=(answered,), photos=photos or {}, draft=draft)


def known_finding(topic: str, place: Place, *subjects: str) -> Finding:
    """Return a finding with the first code of a topic; every detail its sentences need is its own name."""
    code = next(one for one in sorted(catalogue()) if one.startswith(topic))
    entry = catalogue()[code]
    names = fields_of(entry.message) | fields_of(entry.action)
    details = {name: name for name in sorted(names - {"found", "subjects"})}
    return finding(code, place, *subjects, found="found", **details)
