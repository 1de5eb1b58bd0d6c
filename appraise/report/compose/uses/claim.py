"""The loss: damage by when it came about, the repair estimate, what remains after repair, both measures; sets."""

from collections.abc import Iterator, Mapping
from functools import partial

from appraise.model.figure import Figure, Outcome
from appraise.model.missing import given
from appraise.records.losses import Damage, Loss, PairedSale, RepairLine, SetLoss
from appraise.records.vocabulary import CashValueReading, DamageOrigin, SetClause, ValueType
from appraise.report.compose.context import Context, Summary, capital, item_key
from appraise.report.compose.printing import Form
from appraise.report.compose.uses.parts import lines, measures, money_head, printed
from appraise.report.view import Block, Chapter
from appraise.report.view_parts import Row, Table
from appraise.valuing.methods.damage import FIGURES
from appraise.valuing.working import Worked, names_of

#: Figures of the loss in printed order; those that were not made are left out.
_BEFORE_AND_AFTER = ("before", "as_it_stands", "measure2")
_AFTER_REPAIR = ("before", "stigma_pct", "after_repair", "residual_diminution")
_MEASURES = (
    *("repair_total", "betterment", "repair_payable", "residual_diminution", "measure1", "measure2"),
    *("salvage", "before_less_salvage", "loss", "doubtful_total", "measure1_if_from_event", "loss_if_from_event"),
)
_SET = (
    *("whole", "rest", "sum_of_singles", "assembly_premium", "assembly_premium_pct", "lost_singles"),
    *("pro_rata", "difference_measure", "restore_measure", "surrender_measure", "covered_loss"),
)
_READINGS = tuple(f"as_{one.name.lower()}" for one in CashValueReading)


def claim(context: Context) -> Chapter:
    """Return the section on what was hurt; without blocks where no loss, set or actual cash value is at issue."""
    job, text = context.job, context.text
    blocks: list[Block] = []
    for number, one in enumerate(context.summaries, start=1):
        loss = next((line for line in job.losses if line.item == one.item.id), None)
        figures = one.worked.get(ValueType.DIMINUTION)
        if loss is not None and figures is not None:
            blocks += _damaged(context, one, loss, figures, item_key(number))
    cover = context.inputs.uses.cover
    if cover is not None:
        sets = zip(job.sets, cover.sets, strict=True)
        blocks += [_set(context, line, worked) for line, (_name, worked) in sets]
    readings = _readings(context)
    if readings is not None:
        blocks.append(readings)
    intro = (text("claim.intro"),) if blocks else ()
    return Chapter(text("section.claim"), intro, tuple(blocks))


def _damaged(
    context: Context, summary: Summary, loss: Loss, figures: Mapping[str, Outcome], key: str
) -> Iterator[Block]:
    text, item = context.text, summary.item
    heading = text("item.heading", number=context.number(item), name=context.named(item))
    name = text("claim.item", number=context.number(item))
    damages = [one for one in context.job.damage if one.item == item.id]
    repairs = [one for one in context.job.repairs if one.item == item.id]
    facts = (("claim.event", loss.event), ("claim.loss_date", context.job.assignment.loss_date))
    yield Block(heading, lines=lines(context, facts), tables=tuple(_damage_tables(context, damages)), key=key)
    yield Block(
        text("claim.before_after", item=name),
        (text("claim.as_it_stands_reason", reason=_inside(context.printer.shown(loss.as_it_stands_reason))),),
        tables=(
            measures(context, partial(_label, context), text("claim.before_after_caption"), figures, _BEFORE_AND_AFTER),
        ),
    )
    yield Block(
        text("claim.repair", item=name),
        tuple(_repair_notes(context, damages, repairs)),
        tables=(_repairs(context, damages, repairs, figures),),
    )
    yield _lasting(context, loss, name, figures)
    yield _result(context, loss, name, figures)


def _damage_tables(context: Context, damages: list[Damage]) -> Iterator[Table]:
    """Yield one table for each answer to when the damage came about."""
    text, printer = context.text, context.printer
    heads = tuple(text(f"head.{one}") for one in ("damage", "part", "found", "how_known"))
    for origin in (DamageOrigin.FROM_EVENT, DamageOrigin.BEFORE, DamageOrigin.CANNOT_TELL):
        rows = tuple(
            Row(
                (
                    printer.shown(one.id),
                    printer.shown(one.part),
                    printer.shown(one.description),
                    printer.shown(one.origin_reason),
                )
            )
            for one in damages
            if one.origin is origin
        )
        if rows:
            yield Table(text(f"claim.damage_{origin.name.lower()}"), heads, rows)


def _sorted(damages: list[Damage], repairs: list[RepairLine]) -> dict[DamageOrigin, list[RepairLine]]:
    """Return the repair lines by when their damage came about; a line for no single damage is of the event."""
    origins = {one.id: one.origin for one in damages if given(one.id)}
    found: dict[DamageOrigin, list[RepairLine]] = {one: [] for one in DamageOrigin}
    for line in repairs:
        origin = origins.get(line.damage, DamageOrigin.FROM_EVENT) if given(line.damage) else DamageOrigin.FROM_EVENT
        found[origin if given(origin) else DamageOrigin.FROM_EVENT].append(line)
    return found


def _repairs(
    context: Context, damages: list[Damage], repairs: list[RepairLine], figures: Mapping[str, Outcome]
) -> Table:
    text, printer = context.text, context.printer
    by_origin = _sorted(damages, repairs)
    rows = []
    for kind, members in (("repair", DamageOrigin.FROM_EVENT), ("doubtful", DamageOrigin.CANNOT_TELL)):
        for number, line in enumerate(by_origin[members], start=1):
            rows.append(_repair_row(context, line, figures.get(f"{kind}{number}")))
            tax = _tax(line, f"{kind}{number}", figures)
            if tax is not None:
                said = text("claim.tax_on", work=printer.shown(line.work), rate=printer.percent(line.tax))
                rows.append(Row((said, "", ""), (printed(context, tax), "")))
        total = figures.get(f"{kind}_total")
        if total is not None and (by_origin[members] or kind == "repair"):
            rows.append(Row((text(f"claim.{kind}_total"), "", ""), (printed(context, total), ""), strong=True))
    for line in by_origin[DamageOrigin.BEFORE]:
        rows.append(_repair_row(context, line, None))
    heads = (text("head.work"), text("head.done"), text("head.estimator"))
    figure_heads = (money_head(context), text("claim.second_estimate"))
    return Table(text("claim.repair_caption"), heads, tuple(rows), "", figure_heads)


def _repair_row(context: Context, line: RepairLine, amount: Outcome | None) -> Row:
    printer = context.printer
    estimator = printer.shown(line.estimator)
    if given(line.second_estimator):
        estimator += "\n" + context.text("claim.second_by", name=line.second_estimator)
    counted = printed(context, amount) if amount is not None else context.text("claim.not_counted")
    return Row(
        (printer.shown(line.work), printer.shown(line.state), estimator), (counted, printer.amount(line.second_amount))
    )


def _tax(line: RepairLine, name: str, figures: Mapping[str, Outcome]) -> Outcome | None:
    if not given(line.tax) or line.tax == 0:
        return None
    own = f"{line.work.lower()}_tax" if given(line.work) else ""
    return figures.get(f"{name}_tax", figures.get(own))


def _repair_notes(context: Context, damages: list[Damage], repairs: list[RepairLine]) -> Iterator[str]:
    by_origin = _sorted(damages, repairs)
    yield context.text("claim.repair_text")
    if by_origin[DamageOrigin.BEFORE]:
        works = context.printer.joined(context.printer.shown(one.work) for one in by_origin[DamageOrigin.BEFORE])
        yield context.text("claim.left_out", works=works)
    if by_origin[DamageOrigin.CANNOT_TELL]:
        yield context.text("claim.doubtful")


def _lasting(context: Context, loss: Loss, name: str, figures: Mapping[str, Outcome]) -> Block:
    """Return what the repaired thing stays worth less, and what shows it."""
    text, printer = context.text, context.printer
    tables = []
    pairs = [one for one in context.job.paired_sales if one.item == loss.item]
    if given(loss.after_repair):
        said = text("claim.lasting_value", reason=_inside(printer.shown(loss.after_repair_reason)))
    elif given(loss.stigma):
        said = text("claim.lasting_typed", reason=_inside(printer.shown(loss.stigma_reason)))
    else:
        said = text("claim.lasting_pairs")
        tables.append(_pairs(context, pairs, figures))
    tables.append(measures(context, partial(_label, context), text("claim.lasting_caption"), figures, _AFTER_REPAIR))
    return Block(text("claim.lasting", item=name), (said,), tables=tuple(tables))


def _pairs(context: Context, pairs: list[PairedSale], figures: Mapping[str, Outcome]) -> Table:
    text, printer = context.text, context.printer
    rows = []
    for pair, key in zip(pairs, names_of(pairs, "id", taken=FIGURES), strict=True):
        percent = figures.get(key)
        sales = "\n".join((printer.shown(pair.better_source), printer.shown(pair.poorer_source)))
        amounts = (
            printer.amount(pair.better),
            printer.amount(pair.poorer),
            printed(context, percent) if percent is not None else text("common.dash"),
            printer.shown(pair.weight),
        )
        told = "; ".join(printer.shown(one) for one in (pair.element, pair.remark) if given(one))
        rows.append(Row((told or text("common.not_stated"), sales), amounts))
    heads = (text("claim.pair_element"), text("claim.pair_sources"))
    figure_heads = tuple(text(f"claim.{one}") for one in ("pair_better", "pair_poorer", "pair_less", "pair_weight"))
    return Table(text("claim.pairs_caption"), heads, tuple(rows), "", figure_heads)


def _result(context: Context, loss: Loss, name: str, figures: Mapping[str, Outcome]) -> Block:
    text, printer = context.text, context.printer
    said = [text("claim.measures_text")]
    total = figures.get("total_loss")
    if isinstance(total, Figure):
        verdict = "total" if total.value == "yes" else "not_total"
        printer.printed(total)
        said.append(
            text(
                f"claim.{verdict}",
                percent=printer.percent(loss.threshold),
                trigger=printer.printed(figures["total_loss_trigger"], Form.MONEY),
                measure=printer.printed(figures["measure1"], Form.MONEY),
            )
        )
    if given(loss.salvage):
        said.append(text("claim.salvage_text", amount=printer.money(loss.salvage)))
    if "loss_if_from_event" in figures:
        said.append(text("claim.if_from_event"))
    strong = ("measure1", "measure2", "loss")
    caption = text("claim.measures_caption")
    table = measures(context, partial(_label, context), caption, figures, _MEASURES, strong=strong)
    stated = text("claim.loss_is", item=context.title(loss.item), amount=printer.printed(figures["loss"], Form.MONEY))
    return Block(text("claim.result", item=name), tuple(said), tables=(table,), notice=stated)


def _set(context: Context, line: SetLoss, worked: Worked) -> Block:
    """Return a set that lost a piece: the pieces alone, and every measure with the one that the clause takes."""
    text, printer = context.text, context.printer
    pieces = [one for one in context.job.pieces if one.set_id == line.set_id]
    rows = tuple(
        Row(
            (printer.shown(one.piece), text("claim.piece_lost" if one.lost is True else "claim.piece_there")),
            (printer.amount(one.alone),),
        )
        for one in pieces
    )
    heads = (text("head.piece"), text("head.state"))
    alone = Table(text("claim.pieces_caption"), heads, rows, "", (money_head(context),))
    all_measures = measures(
        context, partial(_set_label, context), text("claim.set_caption"), worked.figures, _SET, strong=("covered_loss",)
    )
    clause = context.job.policy.set_clause
    said = text("claim.set_clause", clause=printer.shown(clause if given(clause) else SetClause.SMALLER))
    basis = text("claim.set_basis", source=_inside(printer.shown(line.source)))
    tables = (alone, all_measures) if rows else (all_measures,)
    return Block(text("claim.set", name=printer.shown(line.set_id)), (text("claim.set_text"), basis, said), (), tables)


def _readings(context: Context) -> Block | None:
    """Return the readings of actual cash value side by side; None where none is stated."""
    text, printer = context.text, context.printer
    rows = []
    for one in context.summaries:
        figures = one.worked.get(ValueType.ACTUAL_CASH)
        if figures is not None:
            cells = [printed(context, figures[key]) if key in figures else text("common.dash") for key in _READINGS]
            value = figures["actual_cash_value"]
            rows.append(Row((context.title(one.item.id),), (*cells, printed(context, value))))
    if not rows:
        return None
    reading = printer.shown(context.job.policy.cash_value)
    words = [capital(context.words.word(one)) for one in CashValueReading]
    table = Table(
        text("claim.readings_caption"),
        (text("head.item"),),
        tuple(rows),
        "",
        (*words, capital(context.words.word(ValueType.ACTUAL_CASH))),
    )
    return Block(text("claim.readings"), (text("claim.readings_text", reading=reading),), tables=(table,))


def _inside(sentence: str) -> str:
    return sentence.strip().rstrip(".")


def _label(context: Context, name: str) -> str:
    return context.text(f"claim.{name}")


def _set_label(context: Context, name: str) -> str:
    return context.text(f"set.{name}")
