"""The age tests of an item with restricted materials, run on the unfavourable end of its window."""

from collections.abc import Iterator

from appraise.dating.age import AgeAnswer, Established, at_least_years_old, completed_before
from appraise.dating.result import DateWindow
from appraise.model.missing import given
from appraise.records.items import Item
from appraise.report.compose.context import Context, capital, is_word
from appraise.rules.ages import AgeRule, age_rules

_ANSWERS = {Established.YES: "age.yes", Established.NO: "age.no", Established.UNCERTAIN: "age.uncertain"}


def age_lines(context: Context, item: Item, window: DateWindow) -> Iterator[str]:
    """Yield a line for each age limit, after one that says how they are read.

    Nothing is said where no restricted material was seen, or without an effective date.
    """
    day = context.job.assignment.effective_date
    typed = item.restricted_materials
    if not given(day) or (given(typed) and (is_word(typed, "none seen") or is_word(typed, "none"))):
        return
    yield context.text("age.intro", day=context.printer.day(day))
    for rule in age_rules():
        if rule.citation.holds_on(day):
            answer = (
                completed_before(window, rule.before)
                if rule.before
                else at_least_years_old(window, rule.years or 0, day)
            )
            yield _line(context, rule, answer)


def _line(context: Context, rule: AgeRule, answer: AgeAnswer) -> str:
    said = context.text(
        "age.line",
        rule=capital(context.words.rule(f"age.{rule.id}", rule.statement)),
        source=rule.citation.source,
        answer=context.text(_ANSWERS[answer.answer]),
    )
    later = context.text("age.later_work")
    return f"{said} {later}" if answer.later_work else said
