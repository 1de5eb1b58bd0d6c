"""A sound job for the tests of the checks, and how one thing in it is changed. Everything in it is invented."""

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from appraise.checks.context import CheckContext, ItemResults, PhotoFact
from appraise.dating.result import DateWindow, Edges, Shown, Verdict
from appraise.model.figure import Figure
from appraise.model.kinds import money
from appraise.model.months import Months, month_number
from appraise.model.place import Place
from appraise.records.assignment import Assignment, Assumption, Person, ValueTerms
from appraise.records.dating import Evidence
from appraise.records.declare import filled
from appraise.records.items import HistoryLine, InspectionLine, Item, Part, Photo
from appraise.records.job import Job
from appraise.records.market import Comparison, Cost, MarketNote, Opinion, Sale
from appraise.records.tables import Clause, IndexPoint, PremiumTier, ScaleStep
from appraise.records.transfers import CourtCase, ExpertRecord, Transfer
from appraise.records.vocabulary import (
    AssumptionKind,
    Attribution,
    Combine,
    Conclusion,
    CostKind,
    EvidenceKind,
    EvidenceStatus,
    ExpertRecordKind,
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
    PropertyType,
    ReportOption,
    Route,
    Use,
    ValueType,
)
from appraise.valuing.result import ComparisonResult, Valuation

FMV = ValueType.FAIR_MARKET
RRV = ValueType.RETAIL_REPLACEMENT
D = Decimal


def sound_context(job: Job | None = None) -> CheckContext:
    """Return the context of a sound estate job; with `job`, the same results and photographs with that job."""
    job = sound_job() if job is None else job
    results = {
        "G01": ItemResults.of(
            window("G01", (1937, 1), (1938, 12)),
            (valuation("G01", rounded="24200", low="22100", high="26800", nets=("-4.00", "3.50", "6.10")),),
        ),
        "A01": ItemResults(valuations=(valuation("A01", rounded="850", route=Route.SHORT),)),
    }
    photos = {
        one.file: PhotoFact(exists=True, sha256=f"{number:064x}", size=200_000)
        for number, one in enumerate(sound_job().photos)
    }
    return CheckContext(job=job, results=results, photos=photos)


def sound_job() -> Job:
    """Return an estate of two items in which no check finds anything: an archtop guitar and a small amplifier."""
    return Job(
        assignment=_assignment(),
        value_terms=(_terms(),),
        people=(_appraiser(),),
        assumptions=(
            filled(
                Assumption,
                row=2,
                id="A1",
                kind=AssumptionKind.EXTRAORDINARY,
                items="G01",
                text="The frets are taken to be of the time; they could not be dated.",
                effect="If they are later, the value falls by about one percent.",
            ),
        ),
        items=(_archtop(), _amplifier()),
        history=(
            filled(HistoryLine, row=2, item="G01", kind=History.ACQUIRED, day=date(1998, 6, 1), how="purchased"),
            filled(HistoryLine, row=3, item="A01", kind=History.NONE_KNOWN),
        ),
        evidence=_evidence(),
        parts=_parts(),
        inspection=(
            filled(InspectionLine, row=2, item="G01", line="neck angle", found="good, no reset seen"),
            filled(InspectionLine, row=3, item="A01", line="mains cord and earth", found="two-wire cord, not earthed"),
        ),
        photos=_photos(),
        sales=_sales(),
        comparisons=tuple(_comparison(row, f"c{row - 1}", f"S00{row - 1}") for row in (2, 3, 4)),
        opinions=(
            filled(
                Opinion,
                row=2,
                item="G01",
                value_type=FMV,
                reconciliation="Nearest to the second sale, which is alike in year and finish.",
            ),
            filled(
                Opinion,
                row=3,
                item="A01",
                value_type=FMV,
                route=Route.SHORT,
                typed_value=D(850),
                typed_reason="three listings of the spring, sold within the month",
                source="own list of sales, saved in the workfile",
                reconciliation="The middle one of the three sales is like it.",
            ),
        ),
        market_notes=tuple(
            filled(
                MarketNote,
                row=row,
                family=family,
                market="sales by auction in two rooms",
                supply="a few each year",
                demand="steady",
                trend="rising slowly",
            )
            for row, family in ((2, Family.ARCHTOP), (3, Family.TUBE_AMPLIFIER))
        ),
        premiums=(
            filled(
                PremiumTier,
                row=2,
                table="A1",
                house="Marrowby Rooms",
                currency="USD",
                valid_from=date(2020, 1, 1),
                rate=D(28),
                source="conditions of sale",
            ),
        ),
        indexes=tuple(
            filled(
                IndexPoint,
                row=row,
                index="ARCH",
                month=month,
                figure=figure,
                market=Market.AUCTION,
                source="own index of 212 sales",
            )
            for row, month, figure in ((2, "2023-01", D(100)), (3, "2025-01", D(104)))
        ),
        scales=tuple(
            filled(ScaleStep, row=row, scale="K-ARCH", grade=grade, percent=percent, words="as seen")
            for row, grade, percent in ((2, D(8), D(79)), (3, D(7), D(70)), (4, D(6), D(62)))
        ),
    )


def _assignment() -> Assignment:
    return filled(
        Assignment,
        use=Use.ESTATE,
        title="Instruments of the late A. Quenby",
        client="R. Quenby, executor",
        intended_users="the executor; the executor's counsel; the tax authority",
        intended_use="to support the estate tax return",
        owner="Estate of A. Quenby",
        interest="sole ownership, free of liens",
        engaged_on=date(2024, 12, 20),
        effective_date=date(2024, 11, 15),
        report_date=date(2025, 2, 10),
        signed_on=date(2025, 2, 10),
        delivered_on=date(2025, 2, 12),
        death_date=date(2024, 11, 15),
        return_due=date(2025, 8, 15),
        under_oath=True,
        currency="USD",
        report_language="en",
        workbook_locale="en_US",
        jurisdiction="US",
        report_option=ReportOption.FULL,
        fee_basis=FeeBasis.HOUR,
        prior_services="none",
        scope="Personal inspection of every item; no dismantling; no laboratory tests.",
        combine_deductions=Combine.MULTIPLY,
        combine_adjustments=Combine.MULTIPLY,
        issue_number=D(1),
    )


def _terms() -> ValueTerms:
    return filled(
        ValueTerms,
        row=2,
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
    )


def _appraiser() -> Person:
    return filled(
        Person,
        row=2,
        id="P1",
        name="M. Tarrow",
        role=PersonRole.APPRAISER,
        address="9 Quay Street, Port Aldous",
        credentials="Twenty-two years of appraising fretted instruments; publications: none; testimony: none.",
        categories="fretted instruments; amplifiers",
        signs=True,
        inspected="all",
        interest="none",
    )


def _archtop() -> Item:
    return filled(
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
        description="Carved-top guitar, 17-inch body, sunburst finish, tailpiece engraved",
        dimensions="body 432 mm across the lower bout",
        markings="label: 'Skarvholm, Port Aldous'",
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
        provenance="receipt of 1998",
        title_evidence="receipt of 1998",
        theft_check="not done",
        owner_statement="bought from the first owner's son",
        restricted_materials="none seen",
        mains_powered=False,
    )


def _amplifier() -> Item:
    return filled(
        Item,
        row=3,
        id="A01",
        number="2",
        family=Family.TUBE_AMPLIFIER,
        category="amplifiers",
        maker="Voltigern",
        model="Tidewater 22",
        attribution=Attribution.MARKS_AND_FEATURES,
        attribution_reason="chassis stamp and chart",
        serial="T-0881",
        description="Small combo amplifier, one speaker, grey covering",
        dimensions="510 x 430 x 230 mm",
        markings="chassis stamp: T-0881",
        finish_class=FinishClass.NOT_APPLICABLE,
        location="Port Aldous house",
        room="music room",
        inspected_on=date(2025, 1, 20),
        structure="cabinet joints tight",
        finish_condition="covering scuffed",
        wear="handle worn",
        playability="not switched on",
        provenance="none known",
        title_evidence="in the house",
        theft_check="not done",
        restricted_materials="none seen",
        mains_powered=True,
    )


def _evidence() -> tuple[Evidence, ...]:
    return (
        filled(
            Evidence,
            row=2,
            id="G01-e1",
            item="G01",
            part="body",
            statement="bound sound holes",
            kind=EvidenceKind.FEATURE,
            from_="1936",
            to="1938",
            status=EvidenceStatus.ORIGINAL,
            strength=D(3),
            source="maker's catalogue of 1936",
        ),
        filled(
            Evidence,
            row=3,
            id="G01-e2",
            item="G01",
            part="tailpiece",
            statement="engraving of the later pattern",
            kind=EvidenceKind.FEATURE,
            from_="1939",
            status=EvidenceStatus.REPLACED,
            strength=D(2),
            source="own notes",
        ),
    )


def _parts() -> tuple[Part, ...]:
    return (
        filled(Part, row=2, item="G01", part="finish", state=PartState.ORIGINAL, evidence="checking runs through"),
        filled(Part, row=3, item="G01", part="body", state=PartState.ORIGINAL, evidence="seen inside"),
        filled(
            Part,
            row=4,
            item="G01",
            part="tailpiece",
            state=PartState.LATER_REPLACEMENT,
            evidence="engraving of the later pattern",
            changed="about 1950",
            deduction=D(4),
            deduction_reason="later tailpiece, same holes",
        ),
        filled(Part, row=5, item="G01", part="frets", state=PartState.UNKNOWN, evidence="could not be dated"),
    )


def _photos() -> tuple[Photo, ...]:
    shown = (
        ("G01", PhotoKind.FRONT),
        ("G01", PhotoKind.BACK),
        ("G01", PhotoKind.SERIAL),
        ("G01", PhotoKind.LABEL),
        ("G01", PhotoKind.DEFECT),
        ("A01", PhotoKind.FRONT),
        ("A01", PhotoKind.SERIAL),
    )
    return tuple(
        filled(
            Photo,
            row=row,
            item=item,
            file=f"photos/{item}-{row}.jpg",
            caption=f"{item}, {kind}",
            kind=kind,
            taken=date(2025, 1, 20),
        )
        for row, (item, kind) in enumerate(shown, start=2)
    )


def _sales() -> tuple[Sale, ...]:
    told = (
        ("S001", "2190", D(8), D("21000.00"), date(2024, 3, 16)),
        ("S002", "2204", D(7), D("19500.00"), date(2024, 5, 4)),
        ("S003", "2251", D(6), D("18000.00"), date(2023, 10, 7)),
    )
    return tuple(
        filled(
            Sale,
            row=row,
            id=key,
            maker="Skarvholm",
            model="Consul 17",
            serial=serial,
            made_from="1937",
            made_to="1938",
            finish_class=FinishClass.ORIGINAL,
            grade=grade,
            kind=PriceKind.HAMMER,
            market=Market.AUCTION,
            currency="USD",
            price=price,
            day=day,
            house="Marrowby Rooms",
            lot=f"lot {row}",
            premium_table="A1",
            is_subject=False,
            related=False,
            description="sold without tools",
            accessed=date(2025, 1, 22),
            evidence_file=f"pages/{key}.pdf",
            verified="house's published result",
        )
        for row, (key, serial, grade, price, day) in enumerate(told, start=2)
    )


def _comparison(row: int, key: str, sale: str) -> Comparison:
    return filled(
        Comparison,
        row=row,
        id=key,
        item="G01",
        value_type=FMV,
        sale=sale,
        weight=D(1),
        weight_reason="same model and years",
    )


def insurance_job() -> Job:
    """Return the sound job as an insurance schedule at retail replacement value."""
    job = sound_job()
    terms = replace(job.value_terms[0], value_type=RRV, market=Market.DEALER_RETAIL)
    sales = tuple(
        replace(one, kind=PriceKind.DEALER_SOLD, market=Market.DEALER_RETAIL, premium_table=EMPTY.premium_table)
        for one in job.sales
    )
    return replace(
        job,
        assignment=replace(
            job.assignment,
            use=Use.INSURANCE,
            death_date=EMPTY.estimate_low,
            return_due=EMPTY.estimate_low,
        ),
        value_terms=(terms,),
        sales=sales,
        indexes=tuple(replace(one, market=Market.DEALER_RETAIL) for one in job.indexes),
        comparisons=tuple(replace(one, value_type=RRV) for one in job.comparisons),
        opinions=tuple(replace(one, value_type=RRV) for one in job.opinions),
        costs=(
            filled(Cost, row=2, item="all", kind=CostKind.SALES_TAX, percent=D("7.25"), source="local rate of 2025-01"),
        ),
    )


EMPTY = filled(Sale)


def tax_job(use: Use, **assignment: object) -> Job:
    """Return the sound job for another use under tax or civil law, its dates given."""
    job = sound_job()
    blank = {"death_date": EMPTY.day, "return_due": EMPTY.day}
    return replace(job, assignment=replace(job.assignment, use=use, **{**blank, **assignment}))


def gift_job() -> Job:
    """Return the sound job as a gift."""
    job = tax_job(Use.GIFT, gift_date=date(2024, 11, 15))
    return replace(job, transfer=filled(Transfer, **GIVEN))


#: A gift between people who are not related, without terms.
GIVEN = {"donor": "A. Quenby", "donee": "R. Quenby", "relation": "none", "terms": "none known"}


def donation_job() -> Job:
    """Return the sound job as a contribution, reported after it was made, the prescribed declaration at hand."""
    job = tax_job(Use.DONATION, gift_date=date(2024, 11, 15), return_due=date(2025, 4, 15))
    declaration = filled(
        Clause,
        row=2,
        key="declaration.donation",
        official="(the regulation's own words)",
        citation="26 CFR 1.170A-17(a)(3)(vi)",
        edition="in force on 2025-01-01",
        checked_on=date(2025, 1, 2),
        checked_by="MT",
    )
    transfer = filled(
        Transfer,
        **GIVEN,
        donee_address="2 Hall Square, Kahe Landing",
        expected_use="will be shown and played",
        property_type=PropertyType.COLLECTIBLE,
        property_reason="kept for age and rarity",
        form_checked_on=date(2025, 1, 2),
        appraiser_employer="self",
        similar_given="none known",
    )
    told = added(changed(job, "people", 0, tax_number="on file", regular=True, barred=False), "clauses", declaration)
    return replace(told, transfer=transfer)


def claim_job() -> Job:
    return assigned(insurance_job(), use=Use.CLAIM, loss_date=date(2024, 11, 15))


def yearly_job() -> Job:
    return assigned(insurance_job(), use=Use.YEARLY, prior_services="schedule of 2023-11-15")


def expert_job() -> Job:
    """Return the sound job as an expert's report, with one publication and no testimony."""
    case = filled(
        CourtCase,
        court="County court, Ennerby",
        case="Quenby v. Ashgrave, no. 25-0417",
        engaged_for="the plaintiff",
        compensation="180 dollars an hour",
        facts_supplied="none",
        assumptions_supplied="none",
        data_considered="none",
        exhibits="none",
        testimony_expected=True,
    )
    record = (
        filled(ExpertRecord, row=2, person="P1", kind=ExpertRecordKind.PUBLICATION, day=date(2022, 5, 1), what="Tops"),
        filled(ExpertRecord, row=3, person="P1", kind=ExpertRecordKind.NO_TESTIMONY),
    )
    return replace(tax_job(Use.EXPERT), court_case=case, expert_record=record)


def division_job() -> Job:
    return tax_job(Use.DIVISION)


def valuation(
    item: str,
    *,
    value_type: ValueType = FMV,
    rounded: str,
    low: str = "",
    high: str = "",
    nets: tuple[str, ...] = (),
    route: Route = Route.ADJUSTED,
    conclusion: Conclusion = Conclusion.MEAN,
) -> Valuation:
    """Return what valuing would give, as far as checks look at it."""
    value = Figure(f"{item}.value_rounded", money("USD"), D(rounded), "round")
    figures = {"value_rounded": value}
    for name, text in (("low", low), ("high", high)):
        if text:
            figures[name] = Figure(f"{item}.{name}", money("USD"), D(text), "smallest")
    comparisons = tuple(
        ComparisonResult(
            comparison=_comparison(row, f"c{row - 1}", f"S00{row - 1}"),
            sale=None,
            steps={"net_pct": Figure(f"{item}.c{row - 1}.net_pct", money("USD"), D(net), "net")},
            adjusted=value,
            used=True,
            findings=(),
        )
        for row, net in enumerate(nets, start=2)
    )
    return Valuation(item, value_type, route, conclusion, {}, comparisons, figures, value, value, ())


def window(item: str, first: tuple[int, int], last: tuple[int, int]) -> DateWindow:
    """Return a firm window of manufacture from the first to the last (year, month)."""
    months = Months.between(month_number(*first), month_number(*last))
    return DateWindow(
        item=item,
        examined=month_number(2025, 1),
        verdict=Verdict.FIRM,
        outer=months,
        inner=months,
        edges=Edges(),
        statements=(),
        conflicts=(),
        more_conflicts=False,
        explanations=(),
        best=(),
        shown=Shown(months, months, False, ()),
        later_work={},
        readings={},
        parts=(),
        advice=(),
    )


def changed(job: Job, sheet: str, index: int, /, **values: object) -> Job:
    """Return the job with values of one record of a sheet changed."""
    records: list[Any] = list(getattr(job, sheet))
    records[index] = replace(records[index], **values)
    return replace(job, **{sheet: tuple(records)})


def assigned(job: Job, /, **values: object) -> Job:
    """Return the job with lines of the assignment changed."""
    return replace(job, assignment=replace(job.assignment, **values))


def without(job: Job, sheet: str, *indexes: int) -> Job:
    """Return the job without some records of a sheet."""
    kept = tuple(one for number, one in enumerate(getattr(job, sheet)) if number not in indexes)
    return replace(job, **{sheet: kept})


def added(job: Job, sheet: str, *records: object) -> Job:
    """Return the job with more records on a sheet."""
    return replace(job, **{sheet: (*getattr(job, sheet), *records)})


def copied(job: Job, sheet: str, index: int, /, **values: object) -> Job:
    """Return the job with a copy of one record, changed, as a new last row of its sheet."""
    records: tuple[Any, ...] = getattr(job, sheet)
    return added(job, sheet, replace(records[index], row=len(records) + 2, **values))


def with_results(context: CheckContext, **results: ItemResults) -> CheckContext:
    """Return the context with other results for some items."""
    merged: Mapping[str, ItemResults] = {**context.results, **results}
    return replace(context, results=merged)


@dataclass(frozen=True)
class Case:
    """A change that one check finds, where, what it found, and a near change that none finds.

    `context` and `near_context` change what dating, valuing and the photographs' files gave.
    """

    code: str
    change: Callable[[Job], Job]
    near: Callable[[Job], Job]
    place: Place
    found: str = ""
    subjects: tuple[str, ...] = ()
    base: Callable[[], Job] = field(default=sound_job)
    context: Callable[[CheckContext], CheckContext] = field(default=lambda context: context)
    near_context: Callable[[CheckContext], CheckContext] = field(default=lambda context: context)


def sold(job: Job, index: int, /, **values: object) -> Job:
    """Return the job with one sale of another kind, without a premium table."""
    return changed(job, "sales", index, **{"premium_table": EMPTY.premium_table, **values})


def all_cases() -> list[Case]:
    """Return the cases of every module in `support/check_cases`, in order of their names."""
    modules = pkgutil.iter_modules([str(Path(__file__).parent / "check_cases")])
    return [case for module in modules for case in importlib.import_module(f"support.check_cases.{module.name}").CASES]
