"""Particulars of a gift or a contribution: who gives what to whom, the days the law sets, what goes with the return."""

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given
from appraise.records.declare import filled
from appraise.records.transfers import Transfer
from appraise.records.vocabulary import PropertyType, Use, ValueType
from appraise.report.compose.context import Context
from appraise.report.compose.uses.parts import limit_text, lines, money_head, translated_note
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Line, Row, Table
from appraise.rules.forms import form_of
from appraise.rules.thresholds import NotInForce, Threshold, threshold

#: Limits of US law for contributions, measured by the sum over similar items, in the order of their sums.
BY_SUM = ("us-donation-acknowledgment", "us-donation-section-a", "us-donation-section-b", "us-donation-attach")
#: The limit that counts for art besides.
ATTACH_ART = "us-donation-attach-art"


def transfer(context: Context) -> Chapter:
    """Return the particulars of a gift or contribution; without blocks for other uses."""
    text = context.text
    heading = text("section.transfer")
    if context.use not in (Use.GIFT, Use.DONATION) or context.job.transfer == filled(Transfer):
        return Chapter(heading, (), ())
    blocks = [Block("", lines=tuple(_parties(context)))]
    if context.use is Use.DONATION:
        blocks.append(_form_block(context))
        if in_us(context):
            blocks += _law(context)
    purpose = "transfer.purpose_donation" if context.use is Use.DONATION else "transfer.purpose_gift"
    return Chapter(heading, (text(purpose),), tuple(blocks))


def in_us(context: Context) -> bool:
    """Say whether the rules of US tax law are those of the report."""
    place = context.job.assignment.jurisdiction
    return given(place) and place.split("-")[0].strip().upper() == "US"


def _parties(context: Context) -> Iterator[Line]:
    told, a = context.job.transfer, context.job.assignment
    yield from lines(
        context,
        (
            ("transfer.donor", told.donor),
            ("transfer.donee", told.donee),
            ("transfer.donee_address", told.donee_address),
            ("transfer.relation", told.relation),
            ("transfer.day", a.gift_date),
            ("transfer.terms", told.terms),
            ("transfer.expected_use", told.expected_use),
            ("transfer.trust", told.trust),
        ),
    )
    back = context.printer.money(told.received_back) if given(told.received_back) else context.text("transfer.nothing")
    yield Line(context.text("transfer.received_back"), back)


def _form_block(context: Context) -> Block:
    """Return what the appraiser says for the form: type of property, for whom the appraisal is made, tax numbers."""
    told, text = context.job.transfer, context.text
    shown = list(
        lines(
            context,
            (
                ("transfer.property_type", told.property_type),
                ("transfer.property_reason", told.property_reason),
                ("transfer.similar_given", told.similar_given),
            ),
        )
    )
    if given(told.similar_sum):
        shown.append(Line(text("transfer.similar_sum"), context.printer.money(told.similar_sum)))
    for person in context.job.people:
        if person.signs is not True:
            continue
        facts = [context.printer.shown(person.name), context.printer.cell(person.address)]
        if given(person.tax_number):
            facts.append(text("transfer.tax_number", number=person.tax_number))
        shown.append(Line(text("transfer.appraiser"), "; ".join(one.replace("\n", ", ") for one in facts if one)))
    employer = told.appraiser_employer
    himself = given(employer) and employer.strip().casefold() == "self"
    firm = text("transfer.self") if himself else context.printer.shown(employer)
    if not himself and given(told.employer_tax_number):
        firm = f"{firm}; {text('transfer.tax_number', number=told.employer_tax_number)}"
    shown.append(Line(text("transfer.employer"), firm))
    form = form_of(context.use)
    said = text("transfer.form", form=form.printed) if form is not None and in_us(context) else ""
    if said and given(told.form_checked_on):
        said += " " + text("transfer.form_checked", day=context.printer.shown(told.form_checked_on))
    return Block(text("transfer.for_form"), paragraphs=(said,) if said else (), lines=tuple(shown))


def _law(context: Context) -> Iterator[Block]:
    days = _days(context)
    if days is not None:
        yield Block(context.text("transfer.days"), (context.text("transfer.days_intro"),), tables=(days,))
    limits = _limits(context)
    if limits is not None:
        yield Block(
            context.text("transfer.limits"),
            (context.text("transfer.limits_intro"), *_small_items(context)),
            tables=(limits,),
            notice=context.text("transfer.not_deduction"),
        )


def _days(context: Context) -> Table | None:
    """Return the days that the law sets for a contribution, beside those of this report."""
    a, text, printer = context.job.assignment, context.text, context.printer
    earliest = limit_on("us-donation-earliest-days", a.gift_date if given(a.gift_date) else None)
    if earliest is None or not given(a.gift_date):
        return None
    first = a.gift_date - timedelta(days=int(earliest.figure))
    signed = a.signed_on if given(a.signed_on) else a.report_date
    before = given(signed) and signed < a.gift_date
    due = printer.day(a.return_due) or text("common.not_stated")
    rows = (
        Row((text("transfer.rule_signed"), f"{printer.day(first)} – {due}", printer.day(signed))),
        Row(
            (
                text("transfer.rule_effective"),
                f"{printer.day(first)} – {printer.day(a.gift_date)}" if before else printer.day(a.gift_date),
                printer.day(a.effective_date),
            )
        ),
        Row(
            (
                text("transfer.rule_received"),
                text("transfer.before", day=due),
                printer.day(a.delivered_on) or text("transfer.not_delivered"),
            )
        ),
    )
    heads = (text("head.limit_rule"), text("transfer.allowed"), text("transfer.here"))
    return Table(text("transfer.days_caption"), heads, rows, text("transfer.days_source"))


def _limits(context: Context) -> Table | None:
    """Return what the sum over similar items asks for, by the limits in force on the effective date."""
    text, printer = context.text, context.printer
    total = claimed(context)
    if total is None:
        return None
    names = [*BY_SUM]
    if context.job.transfer.property_type is PropertyType.ART:
        names.append(ATTACH_ART)
    rows = [Row((text("transfer.claimed"), "", ""), (printer.printed(total),), strong=True)]
    for limit in (limit_on(name, _effective(context)) for name in names):
        if limit is not None:
            rows.append(_limit_row(context, limit, total.number))
    heads = (text("head.limit_rule"), text("head.citation"), text("transfer.reached"))
    return Table(text("transfer.limits_caption"), heads, tuple(rows), translated_note(context), (money_head(context),))


def _limit_row(context: Context, limit: Threshold, amount: Decimal) -> Row:
    reached = context.text("common.yes" if limit.reached(amount) else "common.no")
    return Row((limit_text(context, limit), limit.citation.source, reached), (context.printer.amount(limit.figure),))


def _small_items(context: Context) -> Iterator[str]:
    """Yield which items are at or under the sum for which the donee need not report a later sale."""
    limit = limit_on("us-donation-small-item", _effective(context))
    if limit is None:
        return
    small = [
        str(one.item.id)
        for one in context.summaries
        for value in one.item_values
        if isinstance(value.rounded, Figure) and value.rounded.number <= limit.figure
    ]
    if small:
        amount = context.printer.money(limit.figure)
        yield context.text("transfer.small_items", items=context.numbers_of(small), amount=amount)


def claimed(context: Context) -> Figure | None:
    """Return the sum that the limits are measured by: fair market values, with similar items given elsewhere."""
    found: Outcome | None = context.inputs.uses.similar
    if found is None:
        found = next((one.total for one in context.inputs.totals if one.value_type is ValueType.FAIR_MARKET), None)
    return found if isinstance(found, Figure) else None


def limit_on(name: str, day: date | None) -> Threshold | None:
    """Return a limit of the law as it stood on a day; None without a day or where it did not hold."""
    if day is None:
        return None
    try:
        return threshold(name, day)
    except NotInForce:
        return None


def _effective(context: Context) -> date | None:
    day = context.job.assignment.effective_date
    return day if given(day) else None
