"""How the policy's limits stand to last year's total and to this year's."""

from collections.abc import Iterator

from appraise.model.figure import Figure
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.view_parts import Row, Table
from appraise.schedule.of_job import Revaluation
from appraise.valuing.working import Worked

_ROWS = (
    ("limit", Form.WHOLE_PLAIN),
    ("limit_shortfall", Form.WHOLE_PLAIN),
    ("limit_adequacy_pct", Form.PERCENT),
    ("item_cap", Form.WHOLE_PLAIN),
    ("over_item_cap", Form.WHOLE_PLAIN),
    ("coinsurance", Form.PERCENT),
    ("required", Form.WHOLE_PLAIN),
    ("insured_to_value_pct", Form.PERCENT),
    ("penalty_pct", Form.PERCENT),
)


def limits_table(context: Context, schedule: Revaluation) -> Table | None:
    """Return the limits before and after; None for a policy without one."""
    limits = schedule.adequacy
    if limits is None:
        return None
    text, printer = context.text, context.printer
    totals = schedule.totals
    first = tuple(printer.printed(totals[key], Form.WHOLE_PLAIN) for key in ("prior_total", "new_total"))
    rows = [Row((text("yearly.limit.total"), *first), strong=True)]
    rows += [
        Row(
            (
                text(f"yearly.limit.{key}"),
                _shown(context, limits.before, key, form),
                _shown(context, limits.after, key, form),
            )
        )
        for key, form in _ROWS
        if key in limits.after.figures
    ]
    before = printer.day(schedule.year.terms.prior_day) or text("yearly.head.before")
    heads = (text("yearly.head.what"), before, printer.day(context.job.assignment.effective_date))
    note = text("yearly.limits_note", currency=printer.currency)
    return Table(text("yearly.caption.limits"), heads, tuple(rows), note)


def _shown(context: Context, worked: Worked, key: str, form: Form) -> str:
    outcome = worked.figures.get(key)
    return context.text("common.dash") if outcome is None else context.printer.printed(outcome, form)


def limits_notes(context: Context, schedule: Revaluation) -> tuple[str, ...]:
    """Return what the figures mean for the owner, loudest first."""
    return tuple(_notes(context, schedule))


def _notes(context: Context, schedule: Revaluation) -> Iterator[str]:
    limits = schedule.adequacy
    if limits is None:
        return
    text, printer = context.text, context.printer
    short, penalty = limits.after.figures.get("limit_shortfall"), limits.after.figures.get("penalty_pct")
    if isinstance(short, Figure) and short.number > 0:
        yield text("yearly.limit_short", amount=printer.printed(short, Form.WHOLE))
    elif isinstance(short, Figure):
        yield text("yearly.limit_enough")
    if limits.over_cap:
        yield text("yearly.over_cap", items=context.numbers_of(limits.over_cap))
    if isinstance(penalty, Figure) and penalty.number > 0:
        yield text("yearly.at_risk", percent=printer.printed(penalty, Form.PERCENT))
