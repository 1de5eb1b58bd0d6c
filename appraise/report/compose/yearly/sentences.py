"""Sentences about a revalued schedule that stand in several places: what was done with a line, what the total did."""

from collections.abc import Iterator

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given
from appraise.records.vocabulary import Treatment
from appraise.report.compose.context import Context, capital, closed, is_word
from appraise.report.compose.printing import Form
from appraise.schedule.of_job import Revaluation
from appraise.schedule.revaluation import RevaluedLine
from appraise.wording.numbers import month_text


def treatment_text(context: Context, line: RevaluedLine) -> str:
    """Return what was done with a line this year, with the figure it was done by."""
    text, printer, typed = context.text, context.printer, line.line
    if line.treatment is None:
        return text("common.not_stated")
    key = f"yearly.did.{line.treatment.name.lower()}"
    if line.treatment is Treatment.INDEX:
        effective = context.job.assignment.effective_date
        months = [
            month_text(12 * one.year + one.month - 1, printer.lang) if given(one) else text("common.not_stated")
            for one in (typed.prior_day, effective)
        ]
        factor = line.figures.get("factor")
        shown = text("common.not_concluded") if factor is None else printer.printed(factor)
        return text(key, index=printer.shown(typed.index), since=months[0], to=months[1], factor=shown)
    if line.treatment is Treatment.PERCENT:
        percent = line.figures.get("percent")
        shown = text("common.not_concluded") if percent is None else printer.printed(percent, Form.SIGNED_PERCENT)
        return text(key, percent=shown)
    if line.treatment is Treatment.REMOVED:
        return text(key, day=printer.day(typed.removed_on) or text("common.not_stated"))
    return text(key)


def basis_text(context: Context, line: RevaluedLine) -> str:
    """Return what is to be said of a line whose market or type of value changed; empty for all others."""
    if line.like_for_like:
        return ""
    typed, shown = line.line, context.printer.shown
    said = []
    if given(typed.prior_market) and given(typed.market) and typed.prior_market != typed.market:
        said.append(context.text("yearly.market_changed", before=shown(typed.prior_market), now=shown(typed.market)))
    if given(typed.prior_value_type) and typed.prior_value_type != typed.value_type:
        now, before = shown(typed.value_type), shown(typed.prior_value_type)
        said.append(context.text("yearly.type_changed", before=before, now=now))
    return " ".join(said)


def total_sentence(context: Context, schedule: Revaluation) -> str:
    """Return what the total did and what of it was the market's: both are always said together."""
    totals, shown = schedule.totals, context.printer.printed
    if not isinstance(totals["new_total"], Figure):
        name, before = context.words.word(schedule.value_type), shown(totals["prior_total"], Form.WHOLE)
        return context.text("yearly.total_open", value_type=name, before=before)
    return context.text(
        "yearly.total_moved",
        value_type=context.words.word(schedule.value_type),
        before=shown(totals["prior_total"], Form.WHOLE),
        now=shown(totals["new_total"], Form.WHOLE),
        total=_percent(context, totals["total_change_pct"]),
        continuing=_percent(context, totals["continuing_change_pct"]),
    )


def unseen_lines(schedule: Revaluation) -> list[str]:
    """Return the ids of the lines that stand in the schedule and were not inspected after the prior one."""
    prior = schedule.year.terms.prior_day
    return [
        str(one.line.item)
        for one in schedule.lines
        if one.treatment is not Treatment.REMOVED
        and not (given(one.line.inspected) and given(prior) and one.line.inspected > prior)
    ]


def not_seen_anew(context: Context) -> frozenset[str]:
    """Return the ids of the items that were not inspected for this report, though perhaps for an earlier one."""
    never = {str(one.item.id) for one in context.summaries if not given(one.item.inspected_on)}
    return frozenset(never.union(*(unseen_lines(schedule) for schedule in context.inputs.yearly)))


def letter_sentences(context: Context) -> Iterator[str]:
    """Yield what the letter of a yearly reappraisal says first; nothing for any other report."""
    for schedule in context.inputs.yearly:
        if isinstance(schedule.totals["new_total"], Figure):
            yield total_sentence(context, schedule)


def certified(context: Context) -> Iterator[str]:
    """Yield what the certification of a yearly reappraisal says besides: the prior services, and what was not new."""
    day, services = context.job.yearly_terms.prior_day, context.job.assignment.prior_services
    if given(day) and (not given(services) or is_word(services, "none")):
        yield context.text("yearly.certified_services", day=context.printer.shown(day))
    carried = [
        str(one.line.item)
        for schedule in context.inputs.yearly
        for one in schedule.lines
        if one.treatment in (Treatment.INDEX, Treatment.PERCENT, Treatment.HOLD)
    ]
    if carried and given(day):
        items = context.numbers_of(carried)
        yield context.text("yearly.certified_carried", items=items, day=context.printer.shown(day))


def _percent(context: Context, outcome: Outcome) -> str:
    return context.printer.printed(outcome, Form.SIGNED_PERCENT)


def sentence(words: str) -> str:
    """Return typed words as a sentence, a capital first and a full stop last; nothing for none."""
    return capital(closed(words))
