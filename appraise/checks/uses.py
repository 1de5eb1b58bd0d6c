"""Checks of what only some uses ask for: gift, contribution, estate, division, claim, expert's report."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from appraise.checks.context import CheckContext
from appraise.checks.opinions import values
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT, PEOPLE
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.job import SHEETS
from appraise.records.transfers import EXPERT_RECORD, SHARES, TRANSFER
from appraise.records.vocabulary import (
    DamageOrigin,
    ExpertRecordKind,
    PhotoKind,
    PropertyType,
    Use,
    ValueType,
)
from appraise.rules.forms import form_of
from appraise.rules.thresholds import NotInForce, Threshold, threshold
from appraise.valuing.days import years_after

#: Years of publications and of testimony that an expert's report lists: Federal Rule of Civil Procedure 26(a)(2)(B).
YEARS = {
    ExpertRecordKind.PUBLICATION: 10,
    ExpertRecordKind.TRIAL: 4,
    ExpertRecordKind.DEPOSITION: 4,
}
#: Sheets by field of the job, and the types of value of which at least one must be stated where a line is typed there.
NEEDED = {
    "losses": (ValueType.DIMINUTION,),
    "value_facts": (ValueType.ACTUAL_CASH,),
    "proceeds": (ValueType.MARKETABLE_CASH,),
    "liquidation": (ValueType.ORDERLY_LIQUIDATION, ValueType.FORCED_LIQUIDATION),
}


@check("USE-01")
def columns_of_a_use(context: CheckContext) -> Iterator[Finding]:
    """What the sheets of a use ask for under its condition is given."""
    wanted = {
        Use.DONATION: ("transfer", "shares"),
        Use.GIFT: ("transfer", "shares"),
        Use.ESTATE: ("shares",),
        Use.DIVISION: ("shares",),
        Use.EXPERT: ("expert_record",),
    }
    if not given(context.use):
        return
    for place, column, record in blanks(context, *wanted.get(context.use, ())):
        details = {"heading": column.heading, "condition": column.required}
        yield finding("USE-01", place, *_about(record), **details)


@check("USE-02")
def parts_of_an_item(context: CheckContext) -> Iterator[Finding]:
    """The parts of an item that recipients get make the whole."""
    for item in dict.fromkeys(one.item for one in context.job.shares if given(one.item)):
        lines = [one for one in context.job.shares if one.item == item]
        total = sum((one.share if given(one.share) else Decimal(100) for one in lines), Decimal(0))
        if total != 100:
            yield finding("USE-02", place_of(SHARES, lines[-1], "share"), item, found=f"{total.normalize():f}")


@check("USE-03")
def item_without_recipient(context: CheckContext) -> Iterator[Finding]:
    """Where recipients are named, each item has one."""
    named = {one.item for one in context.job.shares}
    for key, item in context.items.items():
        if named and key not in named:
            yield finding("USE-03", place_of(ITEMS, item, "id"), key)


@check("USE-04", Use.EXPERT)
def expert_record_lacking(context: CheckContext) -> Iterator[Finding]:
    """Each signer of an expert's report lists publications and testimony on Expert record, or says there are none."""
    publications = {ExpertRecordKind.PUBLICATION, ExpertRecordKind.NO_PUBLICATIONS}
    testimony = {ExpertRecordKind.TRIAL, ExpertRecordKind.DEPOSITION, ExpertRecordKind.NO_TESTIMONY}
    for person in context.job.people:
        if person.signs is not True or not given(person.id):
            continue
        kinds = {one.kind for one in context.job.expert_record if one.person == person.id}
        lacking = [
            word for word, wanted in (("publications", publications), ("testimony", testimony)) if not kinds & wanted
        ]
        if lacking:
            yield finding("USE-04", place_of(PEOPLE, person, "id"), person.id, found=" and ".join(lacking))


@check("USE-05", Use.EXPERT)
def expert_record_old(context: CheckContext) -> Iterator[Finding]:
    """Entries older than an expert must list are told apart."""
    report = context.job.assignment.report_date
    for one in context.job.expert_record:
        years = YEARS.get(one.kind) if given(one.kind) else None
        if years is None or not given(one.day) or not given(report) or years_after(one.day, years) >= report:
            continue
        place = place_of(EXPERT_RECORD, one, "day")
        yield finding(
            "USE-05", place, *_person(one), found=one.day.isoformat(), kind=one.kind, years=years, report=report
        )


@check("USE-06", Use.DONATION)
def form_newer_than_ours(context: CheckContext) -> Iterator[Finding]:
    """The form whose figures the report feeds is the one in use on the effective date, or has been compared with it."""
    effective = context.job.assignment.effective_date
    form = form_of(Use.DONATION)
    if context.country != "US" or form is None or not given(effective) or effective <= form.day:
        return
    if not given(context.job.transfer.form_checked_on):
        place = place_of(TRANSFER, context.job.transfer, "form_checked_on")
        yield finding("USE-06", place, found=effective.isoformat(), edition=form.printed)


@check("USE-07", Use.DONATION)
def appraisal_goes_with_the_return(context: CheckContext) -> Iterator[Finding]:
    """Above the limit of the law the appraisal goes with the return, similar items counted together."""
    claimed = _claimed(context)
    if claimed is None:
        return
    total, elsewhere = claimed
    names = ["us-donation-attach"]
    if context.job.transfer.property_type is PropertyType.ART:
        names.append("us-donation-attach-art")
    reached = [one for one in (_limit(context, name) for name in names) if one is not None and one.reached(total)]
    if reached:
        limit = min(one.figure for one in reached)
        place = place_of(TRANSFER, context.job.transfer, "similar_sum")
        yield finding("USE-07", place, found=f"{elsewhere:f}", total=f"{total:f}", limit=f"{limit:f}")


@check("USE-08", Use.DONATION)
def appraisal_not_required(context: CheckContext) -> Iterator[Finding]:
    """Below the limit of the law no appraisal is asked for, similar items counted together."""
    claimed, limit = _claimed(context), _limit(context, "us-donation-section-b")
    if claimed is not None and limit is not None and not limit.reached(claimed[0]):
        place = place_of(TRANSFER, context.job.transfer, "similar_sum")
        yield finding("USE-08", place, found=f"{claimed[0]:f}", limit=f"{limit.figure:f}")


@check("USE-09", Use.ESTATE)
def under_oath(context: CheckContext) -> Iterator[Finding]:
    """Above the limit of the law articles of marked artistic or intrinsic value are appraised under oath."""
    limit = _limit(context, "us-estate-oath")
    total = sum(values(context, ValueType.FAIR_MARKET).values(), Decimal(0))
    sworn = context.job.assignment.under_oath
    if sworn is not True and limit is not None and limit.reached(total):
        place = place_of(ASSIGNMENT, context.job.assignment, "under_oath")
        yield finding("USE-09", place, found=f"{total:f}", limit=f"{limit.figure:f}")


@check("USE-10", Use.GIFT, Use.DONATION)
def received_back(context: CheckContext) -> Iterator[Finding]:
    """Something received for a gift is told to the preparer."""
    back = context.job.transfer.received_back
    if given(back) and back > 0:
        yield finding("USE-10", place_of(TRANSFER, context.job.transfer, "received_back"), found=f"{back:f}")


@check("USE-11")
def before_and_after_in_one_market(context: CheckContext) -> Iterator[Finding]:
    """The values before and after a damage are looked for in one market."""
    before = context.terms_of.get(ValueType.FAIR_MARKET)
    after = context.terms_of.get(ValueType.DIMINUTION)
    if before is None or after is None or not given(before.market) or not given(after.market):
        return
    if before.market is not after.market:
        place = Place("Value types", after.row, "market")
        yield finding("USE-11", place, found=after.market.value, other=before.market)


@check("USE-12")
def rows_without_their_value(context: CheckContext) -> Iterator[Finding]:
    """A line on a sheet of a method has its type of value among those stated."""
    for name, types in NEEDED.items():
        rows: tuple[Any, ...] = getattr(context.job, name)
        if rows and context.terms_of and not any(one in context.terms_of for one in types):
            sheet = SHEETS[name]
            place = place_of(sheet, rows[0], "item")
            yield finding("USE-12", place, *_about(rows[0]), found=sheet.name, value_type=types[0])


@check("USE-14", Use.DONATION)
def not_a_qualified_appraiser(context: CheckContext) -> Iterator[Finding]:
    """Who signs an appraisal of a contribution regularly appraises for pay and was not barred."""
    for person in context.job.people:
        for key, wanted in (("regular", True), ("barred", False)):
            stated = getattr(person, key)
            if person.signs is True and given(stated) and stated is not wanted:
                heading = PEOPLE.column(key).heading
                found = "yes" if stated else "no"
                about = (person.id,) if given(person.id) else ()
                yield finding("USE-14", place_of(PEOPLE, person, key), *about, found=found, heading=heading)


@check("USE-13", Use.CLAIM)
def damage_not_shown(context: CheckContext) -> Iterator[Finding]:
    """Damage from the event is shown on a photograph."""
    seen: set[str] = set()
    for one in context.job.damage:
        if one.origin is not DamageOrigin.FROM_EVENT or not given(one.item) or one.item in seen:
            continue
        seen.add(one.item)
        if PhotoKind.DEFECT not in context.shown_of.get(one.item, frozenset()) and not given(one.photo):
            yield finding("USE-13", Place("Damage", one.row, "photo"), one.item)


def _about(record: Any) -> tuple[str, ...]:
    item = getattr(record, "item", None)
    return (item,) if isinstance(item, str) else ()


def _person(record: Any) -> tuple[str, ...]:
    return (record.person,) if isinstance(record.person, str) else ()


def _limit(context: CheckContext, name: str) -> Threshold | None:
    """Return a limit of US law on the effective date; None elsewhere, or where it did not hold."""
    day = context.job.assignment.effective_date
    if context.country != "US" or not given(day):
        return None
    try:
        return threshold(name, day)
    except NotInForce:
        return None


def _claimed(context: CheckContext) -> tuple[Decimal, Decimal] | None:
    """Return the sum of the fair market values with similar items given elsewhere, and these; None without a value."""
    found = values(context, ValueType.FAIR_MARKET)
    if not found or context.job.assignment.currency != "USD":
        return None
    typed = context.job.transfer.similar_sum
    elsewhere = typed if given(typed) else Decimal(0)
    return sum(found.values(), elsewhere), elsewhere
