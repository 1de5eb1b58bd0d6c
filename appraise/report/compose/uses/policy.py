"""What the policy promises in its own words, sums of the contract beside the values that support them, and payments."""

from collections.abc import Iterator
from functools import partial

from appraise.model.figure import Outcome
from appraise.model.missing import given
from appraise.records.claims import Policy
from appraise.records.declare import filled
from appraise.records.vocabulary import DeductibleOrder, Use, ValueType
from appraise.report.compose.context import Context, Summary, capital
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import lines, measures
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Line, Row, Table
from appraise.valuing.use_results import SUPPORTING

_BLANKET = (
    *("total_value", "limit", "limit_shortfall", "limit_adequacy_pct", "over_item_cap", "capped_sum"),
    "effective_cover",
)
#: What a valuation clause may look at, what it comes to, and the limits that hold it.
_SETTLED = (
    *("agreed", "stated", "actual_cash", "market", "repair", "replace", "settlement"),
    *("scheduled", "margin_limit", "item_cap", "limit", "item_payment"),
)
#: From loss to payment in the order of the terms: without coinsurance, and with the deductible after or before it.
_PLAIN = ("loss", "deductible", "after_deductible", "limit_carried", "item_cap_carried", "payment")
_AFTER = (
    *("loss", "required", "ratio", "after_ratio", "deductible", "after_deductible"),
    *("limit_carried", "item_cap_carried", "payment", "coinsurance_penalty"),
)
_BEFORE = (
    *("loss", "deductible", "loss_less_deductible", "required", "ratio", "after_ratio"),
    *("limit_carried", "item_cap_carried", "payment", "coinsurance_penalty"),
)


def policy(context: Context) -> Chapter:
    """Return the section on the policy; without blocks where nothing of it is typed."""
    text, told = context.text, context.job.policy
    heading = text("section.policy")
    if told == filled(Policy) and not context.job.covers:
        return Chapter(heading, (), ())
    quotation = str(told.clause) if given(told.clause) else ""
    terms = Block(
        "",
        lines=tuple(_terms(context)),
        quotation=quotation,
        quotation_source=text("policy.clause_source") if quotation else "",
    )
    blocks = [terms, *_contract(context), *_blanket(context)]
    if context.use is Use.CLAIM:
        blocks += [*_settlements(context), *_payments(context)]
    return Chapter(heading, (text("policy.intro"),), tuple(blocks))


def _terms(context: Context) -> Iterator[Line]:
    told, printer = context.job.policy, context.printer
    yield from lines(
        context,
        (
            ("policy.insurer", told.insurer),
            ("policy.number", told.number),
            ("policy.starts", told.starts),
            ("policy.ends", told.ends),
            ("policy.basis", told.basis),
            ("policy.cash_value", told.cash_value),
            ("policy.set_clause", told.set_clause),
            ("policy.agreed_until", told.agreed_until),
            ("policy.deductible_order", told.deductible_order if given(told.coinsurance) else ""),
        ),
    )
    amounts = (("limit", told.limit), ("item_cap", told.item_cap), ("deductible", told.deductible))
    yield from (Line(context.text(f"policy.{key}"), printer.money(one)) for key, one in amounts if given(one))
    percents = (("coinsurance", told.coinsurance), ("margin", told.margin), ("inflation_guard", told.inflation_guard))
    yield from (Line(context.text(f"policy.{key}"), printer.percent(one)) for key, one in percents if given(one))


def _contract(context: Context) -> Iterator[Block]:
    """Yield agreed values and stated amounts, each in a column of its own, beside the value that supports them."""
    text, printer = context.text, context.printer
    covers = {one.item: one for one in context.job.covers if given(one.item)}
    rows = []
    for one in context.summaries:
        cover = covers.get(one.item.id) if given(one.item.id) else None
        if cover is None or not any(given(sum_) for sum_ in (cover.agreed, cover.stated, cover.scheduled)):
            continue
        kind, value = _supporting(context, one)
        sums = tuple(
            printer.amount(sum_) or text("common.dash") for sum_ in (cover.scheduled, cover.agreed, cover.stated)
        )
        shown = printer.printed(value, Form.WHOLE_PLAIN) if value is not None else text("common.dash")
        rows.append(Row((context.title(one.item.id), kind), (shown, *sums)))
    if rows:
        heads = tuple(text(f"policy.{key}") for key in ("supporting", "scheduled", "agreed", "stated"))
        fixed = (text("head.item"), text("head.value_type"))
        table = Table(text("policy.contract_caption"), fixed, tuple(rows), "", heads)
        yield Block(text("policy.contract"), (text("policy.contract_text"),), tables=(table,))


def _supporting(context: Context, summary: Summary) -> tuple[str, Outcome | None]:
    by_type = {one.value_type: one.rounded for one in summary.item_values}
    kind = next((one for one in SUPPORTING if by_type.get(one) is not None), None)
    if kind is None:
        return context.text("policy.unsupported"), None
    return capital(context.words.word(kind)), by_type[kind]


def _blanket(context: Context) -> Iterator[Block]:
    cover = context.inputs.uses.cover
    if cover is None or cover.blanket is None:
        return
    caption = context.text("policy.blanket_caption")
    table = measures(
        context, partial(_label, context), caption, cover.blanket.figures, _BLANKET, strong=("effective_cover",)
    )
    yield Block(context.text("policy.blanket"), (context.text("policy.blanket_text"),), tables=(table,))


def _settlements(context: Context) -> Iterator[Block]:
    """Yield what the valuation clause comes to for each total loss, with the measures it looks at."""
    text, settled = context.text, context.inputs.uses.settlements
    if not settled:
        return
    tables = tuple(
        measures(
            context,
            partial(_label, context),
            text("policy.settlement_caption", item=_title(context, name)),
            worked.figures,
            _SETTLED,
            strong=("settlement", "item_payment"),
        )
        for name, worked in settled
    )
    said = text("policy.settlement_text", basis=context.printer.shown(context.job.policy.basis))
    yield Block(text("policy.settlement"), (said,), tables=tables)


def _payments(context: Context) -> Iterator[Block]:
    """Yield how the policy's terms bear on each loss, by arithmetic only; cover is the insurer's to decide."""
    cover = context.inputs.uses.cover
    if cover is None or not cover.payments:
        return
    text = context.text
    tables = []
    for name, worked in cover.payments:
        figures = dict(worked.figures)
        loss = _loss(context, name)
        if loss is not None:
            figures["loss"] = loss
        caption = text("policy.payment_caption", item=_title(context, name))
        tables.append(
            measures(context, partial(_label, context), caption, figures, _steps(context), strong=("payment",))
        )
    yield Block(text("policy.payment"), (text("policy.payment_text"),), tables=tuple(tables))


def _title(context: Context, name: str) -> str:
    known = context.by_id.get(name)
    if known is None:
        return context.title(name)
    return context.text("item.heading", number=context.number(known.item), name=context.named(known.item))


def _steps(context: Context) -> tuple[str, ...]:
    told = context.job.policy
    if not given(told.coinsurance):
        return _PLAIN
    return _BEFORE if told.deductible_order is DeductibleOrder.BEFORE_RATIO else _AFTER


def _loss(context: Context, name: str) -> Outcome | None:
    cover = context.inputs.uses.cover
    sets = dict(cover.sets) if cover is not None else {}
    if name in sets:
        return sets[name]["covered_loss"]
    known = context.by_id.get(name)
    return None if known is None else known.worked.get(ValueType.DIMINUTION, {}).get("loss")


def _label(context: Context, name: str) -> str:
    return context.text(f"insured.{name}")
