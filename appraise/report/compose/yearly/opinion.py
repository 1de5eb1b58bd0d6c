"""The opinion of a line that rests on last year's value, in the section of its item."""

from appraise.model.figure import Figure
from appraise.model.missing import given
from appraise.records.vocabulary import Treatment
from appraise.report.compose.context import Context, capital
from appraise.report.compose.printing import Form
from appraise.report.compose.yearly.sentences import basis_text, sentence, treatment_text
from appraise.report.item_view import OpinionView
from appraise.report.view_parts import Row, Table
from appraise.schedule.revaluation import ROLLS, RevaluedLine
from appraise.valuing.result import Valuation

#: Figures of a line as its table shows them, in order, with how they are printed.
_ROWS = (
    ("prior_foreign", Form.MONEY),
    ("prior", Form.PLAIN),
    ("prior_rounded", Form.WHOLE_PLAIN),
    ("index_then", Form.PLAIN),
    ("index_now", Form.PLAIN),
    ("factor", Form.PLAIN),
    ("percent", Form.SIGNED_PERCENT),
    ("new_foreign", Form.MONEY),
    ("new", Form.PLAIN),
)
#: Figures carried as typed have no places of their own: they are amounts of the report's currency.
_TYPED_MONEY = ("prior", "prior_rounded")


def is_carried(line: RevaluedLine) -> bool:
    """Say whether a line rests on last year's value or on a typed one rather than on comparisons of its item."""
    return line.treatment in (*ROLLS, Treatment.HOLD, Treatment.REMOVED) or given(line.line.new_value)


def carried_opinion(context: Context, line: RevaluedLine, valuation: Valuation, named: str) -> OpinionView:
    """Return the opinion with the chain from last year's figure to this year's."""
    text, name = context.text, context.words.word(valuation.value_type)
    opinion = context.opinions.get((str(line.line.item), valuation.value_type))
    words = [line.line.reason]
    if opinion is not None:
        words.append(opinion.reconciliation)
    return OpinionView(
        heading=text("opinion.heading", value_type=capital(name)),
        intro=tuple(one for one in (treatment_text(context, line), basis_text(context, line)) if one),
        sales=None,
        grids=(),
        reasons=None,
        notes=flag_notes(context, line),
        reconciliation_heading=text("yearly.why"),
        reconciliation=tuple(sentence(one) for one in words if given(one)),
        results=_results(context, line, named, name),
        chart=None,
        opinion_label=text("opinion.opinion_label", value_type=name),
        opinion=context.printer.printed(valuation.rounded, Form.WHOLE),
        opinion_note="",
    )


def flag_notes(context: Context, line: RevaluedLine) -> tuple[str, ...]:
    """Return what speaks against relying on a line, by the flags of the rule."""
    return tuple(context.text(f"yearly.flag.{flag.replace(' ', '_').replace('-', '_')}") for flag in line.flags)


def _results(context: Context, line: RevaluedLine, named: str, name: str) -> Table:
    text, printer = context.text, context.printer
    rows = []
    for key, form in _ROWS:
        outcome = line.figures.get(key)
        if outcome is None or (key == "prior_rounded" and line.prior is line.prior_rounded):
            continue
        typed = key in _TYPED_MONEY and isinstance(outcome, Figure) and outcome.kind.name != "money"
        shown = printer.printed(outcome, Form.AMOUNT if typed else form)
        rows.append(Row((text(f"yearly.figure.{key}"), shown)))
    if line.new_rounded is not None:
        rounded = text("result.value_rounded", value_type=name)
        rows.append(Row((rounded, printer.printed(line.new_rounded, Form.WHOLE_PLAIN)), strong=True))
    heads = (text("head.figure"), text("head.amount_in", currency=printer.currency))
    return Table(text("caption.results", item=named, value_type=name), heads, tuple(rows))
