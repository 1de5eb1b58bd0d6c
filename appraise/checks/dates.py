"""Checks of the days: in order among themselves, and as the law of the use fixes them."""

from collections.abc import Iterator
from datetime import date, timedelta

from appraise.checks.assumptions import covered_by
from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, Missing, given
from appraise.model.months import month_text
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.items import HISTORY, ITEMS
from appraise.records.vocabulary import AssumptionKind, History, Use
from appraise.rules.thresholds import NotInForce, threshold
from appraise.valuing.days import add_months, month_of

#: Months from the death to the alternate valuation date: Internal Revenue Code section 2032(a).
ALTERNATE_MONTHS = 6
#: Months from the death to the day the estate tax return is due: Internal Revenue Code section 6075(a).
RETURN_MONTHS = 9


def _line(context: CheckContext, key: str) -> Place:
    return place_of(ASSIGNMENT, context.job.assignment, key)


def _later(day: date | Missing, other: date | Missing) -> bool:
    return given(day) and given(other) and day > other


@check("DAY-01")
def effective_after_report(context: CheckContext) -> Iterator[Finding]:
    """The effective date is not later than the report."""
    job = context.job.assignment
    if _later(job.effective_date, job.report_date):
        yield finding("DAY-01", _line(context, "effective_date"), found=str(job.effective_date), report=job.report_date)


@check("DAY-02")
def inspected_after_signature(context: CheckContext) -> Iterator[Finding]:
    """No item is inspected after the certification is signed."""
    signed = context.job.assignment.signed_on
    for key, item in context.items.items():
        if _later(item.inspected_on, signed):
            place = place_of(ITEMS, item, "inspected_on")
            yield finding("DAY-02", place, key, found=str(item.inspected_on), signed=signed)


@check("DAY-03")
def inspected_after_report(context: CheckContext) -> Iterator[Finding]:
    """No item is inspected after the day of the report."""
    job = context.job.assignment
    for key, item in context.items.items():
        if _later(item.inspected_on, job.report_date) and not _later(item.inspected_on, job.signed_on):
            place = place_of(ITEMS, item, "inspected_on")
            yield finding("DAY-03", place, key, found=str(item.inspected_on), report=job.report_date)


@check("DAY-04")
def delivered_before_signed(context: CheckContext) -> Iterator[Finding]:
    """A report is signed before it is delivered."""
    job = context.job.assignment
    unsigned = given(job.delivered_on) and job.signed_on is BLANK
    if unsigned or _later(job.signed_on, job.delivered_on):
        signed = job.signed_on if given(job.signed_on) else "not yet"
        yield finding("DAY-04", _line(context, "delivered_on"), found=str(job.delivered_on), signed=signed)


@check("DAY-05")
def not_yet_signed(context: CheckContext) -> Iterator[Finding]:
    """A report that is not signed yet says so."""
    job = context.job.assignment
    if job.signed_on is BLANK and not given(job.delivered_on):
        yield finding("DAY-05", _line(context, "signed_on"))


@check("DAY-06")
def report_after_signature(context: CheckContext) -> Iterator[Finding]:
    """The report does not bear a later day than its signature."""
    job = context.job.assignment
    if _later(job.report_date, job.signed_on):
        yield finding("DAY-06", _line(context, "report_date"), found=str(job.report_date), signed=job.signed_on)


@check("DAY-07")
def engaged_after_report(context: CheckContext) -> Iterator[Finding]:
    """The engagement is not later than the report."""
    job = context.job.assignment
    if _later(job.engaged_on, job.report_date):
        yield finding("DAY-07", _line(context, "engaged_on"), found=str(job.engaged_on), report=job.report_date)


@check("DAY-08", Use.ESTATE)
def not_the_day_of_death(context: CheckContext) -> Iterator[Finding]:
    """An estate is valued as of the death, or of the alternate date where the law knows one."""
    job = context.job.assignment
    if not given(job.death_date) or not given(job.effective_date) or context.country not in ("US", "GB"):
        return
    allowed = [job.death_date]
    if context.country == "US":
        allowed.append(add_months(job.death_date, ALTERNATE_MONTHS))
        allowed.extend(line.day for line in context.job.alternate if given(line.day))
    if job.effective_date not in allowed:
        place = _line(context, "effective_date")
        yield finding("DAY-08", place, found=job.effective_date.isoformat(), death=job.death_date)


@check("DAY-09", Use.GIFT)
def not_the_day_of_the_gift(context: CheckContext) -> Iterator[Finding]:
    """A gift is valued as of the day it is made."""
    job = context.job.assignment
    if given(job.gift_date) and given(job.effective_date) and job.effective_date != job.gift_date:
        yield finding("DAY-09", _line(context, "effective_date"), found=str(job.effective_date), gift=job.gift_date)


def appraisal_day(context: CheckContext) -> date | Missing:
    """Return the day the report bears for the law of contributions: the signature's, else the report's."""
    job = context.job.assignment
    return job.signed_on if given(job.signed_on) else job.report_date


def earliest_day(context: CheckContext) -> date | None:
    """Return the first day on which a contribution may be appraised; None where the rule cannot be applied."""
    gift = context.job.assignment.gift_date
    if not given(gift) or context.country != "US":
        return None
    try:
        limit = threshold("us-donation-earliest-days", gift)
    except NotInForce:
        return None
    return gift - timedelta(days=int(limit.figure))


@check("DAY-10", Use.DONATION)
def signed_too_early(context: CheckContext) -> Iterator[Finding]:
    """An appraisal of a contribution is signed no earlier than the days allowed before it."""
    earliest, signed = earliest_day(context), appraisal_day(context)
    if earliest is not None and given(signed) and signed < earliest:
        key = "signed_on" if given(context.job.assignment.signed_on) else "report_date"
        gift = context.job.assignment.gift_date
        yield finding("DAY-10", _line(context, key), found=signed.isoformat(), earliest=earliest, gift=gift)


@check("DAY-11", Use.DONATION)
def signed_after_return(context: CheckContext) -> Iterator[Finding]:
    """An appraisal of a contribution is signed no later than the return is due."""
    job, signed = context.job.assignment, appraisal_day(context)
    if context.country == "US" and _later(signed, job.return_due):
        key = "signed_on" if given(job.signed_on) else "report_date"
        yield finding("DAY-11", _line(context, key), found=str(signed), due=job.return_due)


@check("DAY-12", Use.DONATION)
def effective_date_of_a_contribution(context: CheckContext) -> Iterator[Finding]:
    """Reported on or after the contribution: valued as of it; reported before: not earlier than the days allowed."""
    job, signed, earliest = context.job.assignment, appraisal_day(context), earliest_day(context)
    if earliest is None or not given(signed) or not given(job.effective_date) or not given(job.gift_date):
        return
    if signed < earliest:
        return  # signed too early: a finding of its own, and no effective date could be right
    if signed >= job.gift_date:
        right, expected = job.effective_date == job.gift_date, f"{job.gift_date}, the day of the contribution"
    else:
        right = earliest <= job.effective_date <= job.gift_date
        expected = f"between {earliest} and {job.gift_date}"
    if not right:
        found = job.effective_date.isoformat()
        yield finding("DAY-12", _line(context, "effective_date"), found=found, expected=expected)


@check("DAY-13", Use.DONATION)
def received_too_late(context: CheckContext) -> Iterator[Finding]:
    """The donor receives the appraisal before the return is due."""
    job = context.job.assignment
    late = given(job.delivered_on) and given(job.return_due) and job.delivered_on >= job.return_due
    if context.country == "US" and late:
        yield finding("DAY-13", _line(context, "delivered_on"), found=str(job.delivered_on), due=job.return_due)


@check("DAY-14", Use.DONATION)
def return_day_open(context: CheckContext) -> Iterator[Finding]:
    """Without the day the return is due, the last days for signature and receipt cannot be checked."""
    if context.country == "US" and context.job.assignment.return_due is BLANK:
        yield finding("DAY-14", _line(context, "return_due"))


@check("DAY-15", Use.CLAIM)
def not_the_day_of_loss(context: CheckContext) -> Iterator[Finding]:
    """A loss is valued as of the day it happened."""
    job = context.job.assignment
    if given(job.loss_date) and given(job.effective_date) and job.effective_date != job.loss_date:
        yield finding("DAY-15", _line(context, "effective_date"), found=str(job.effective_date), loss=job.loss_date)


@check("DAY-16")
def stale_inspection(context: CheckContext) -> Iterator[Finding]:
    """An item was inspected not too long before the effective date."""
    effective, months = context.job.assignment.effective_date, context.settings.inspection_months
    if context.use is Use.YEARLY:
        return  # the treatment of each line says when it was last inspected, and its own findings follow
    for key, item in context.items.items():
        if given(effective) and given(item.inspected_on) and add_months(item.inspected_on, months) < effective:
            place = place_of(ITEMS, item, "inspected_on")
            yield finding("DAY-16", place, key, found=item.inspected_on.isoformat(), months=months)


@check("DAY-17")
def todays_condition_then(context: CheckContext) -> Iterator[Finding]:
    """A value long before the inspection supposes the condition of that day."""
    effective, months = context.job.assignment.effective_date, context.settings.retrospective_months
    for key, item in context.items.items():
        if not given(effective) or not _later(item.inspected_on, add_months(effective, months)):
            continue
        if not covered_by(context, AssumptionKind.EXTRAORDINARY, key):
            place = place_of(ITEMS, item, "inspected_on")
            yield finding("DAY-17", place, key, found=str(item.inspected_on), effective=effective)


@check("DAY-18", Use.ESTATE)
def return_due_early(context: CheckContext) -> Iterator[Finding]:
    """The return of an estate is due no earlier than nine months after the death."""
    job = context.job.assignment
    if context.country == "US" and given(job.death_date) and given(job.return_due):
        due = add_months(job.death_date, RETURN_MONTHS)
        if job.return_due < due:
            yield finding("DAY-18", _line(context, "return_due"), found=job.return_due.isoformat(), due=due)


@check("DAY-19", Use.ESTATE, Use.GIFT)
def signed_after_the_return(context: CheckContext) -> Iterator[Finding]:
    """The report is signed before the return it serves is due."""
    job = context.job.assignment
    if _later(job.signed_on, job.return_due):
        yield finding("DAY-19", _line(context, "signed_on"), found=str(job.signed_on), due=job.return_due)


@check("DAY-20")
def dealing_after_effective_date(context: CheckContext) -> Iterator[Finding]:
    """A dealing with the subject after the effective date is told for what it is."""
    effective = context.job.assignment.effective_date
    for line in context.job.history:
        if _later(line.day, effective) and given(line.item) and line.remark is BLANK:
            place = place_of(HISTORY, line, "day")
            yield finding("DAY-20", place, line.item, found=str(line.day), effective=effective)


@check("DAY-21")
def owned_before_made(context: CheckContext) -> Iterator[Finding]:
    """Nobody dealt with the subject before it was made."""
    for key, lines in context.history_of.items():
        made = context.results[key].made if key in context.results else None
        first = made.first if made else None
        for line in lines:
            dealt = line.kind is not History.NONE_KNOWN and given(line.day)
            if dealt and given(line.day) and first is not None and month_of(line.day) < first:
                place = place_of(HISTORY, line, "day")
                yield finding("DAY-21", place, key, found=line.day.isoformat(), made=month_text(first))


@check("DAY-22")
def made_after_effective_date(context: CheckContext) -> Iterator[Finding]:
    """Nothing is valued as of a day before it was made."""
    effective = context.job.assignment.effective_date
    for key, item in context.items.items():
        made = context.results[key].made if key in context.results else None
        if made and made.first is not None and given(effective) and month_of(effective) < made.first:
            place = place_of(ITEMS, item, "id")
            yield finding("DAY-22", place, key, found=made.edtf(), effective=effective)
