"""The comparisons grid: comparisons as columns, six at most to a grid, every step as a row."""

from collections.abc import Callable, Iterator, Sequence

from appraise.model.figure import Figure
from appraise.model.missing import given, value_or
from appraise.records.vocabulary import Route
from appraise.report.compose.context import Context
from appraise.report.compose.printing import Form
from appraise.report.item_view import Grid, GridColumn, GridRow
from appraise.report.view_parts import Row, Table
from appraise.valuing.result import ComparisonResult, Valuation

#: Comparisons to a grid: more columns of amounts do not fit an upright page.
COLUMNS = 6

Cell = Callable[[Context, ComparisonResult], str]


def _step(name: str, form: Form = Form.PLAIN) -> Cell:
    def cell(context: Context, result: ComparisonResult) -> str:
        outcome = result.steps.get(name)
        return "" if outcome is None else context.printer.printed(outcome, form)

    return cell


def _currency(context: Context, result: ComparisonResult) -> str:
    return context.printer.cell(result.sale.currency) if result.sale else ""


def _sale_word(key: str) -> Cell:
    def cell(context: Context, result: ComparisonResult) -> str:
        return context.printer.cell(getattr(result.sale, key)) if result.sale else ""

    return cell


def _comparison_word(key: str) -> Cell:
    return lambda context, result: context.printer.cell(getattr(result.comparison, key))


def _price(context: Context, result: ComparisonResult) -> str:
    """The price as a figure where the method made one, else as it was typed."""
    if "price" in result.steps:
        return context.printer.printed(result.steps["price"])
    return context.printer.amount(result.sale.price, value_or(result.sale.currency, "")) if result.sale else ""


def _typed(name: str, key: str, form: Form = Form.SIGNED_PERCENT) -> Cell:
    """A typed percent: the figure the method made of it, else the cell; a zero is no step and prints nothing."""

    def cell(context: Context, result: ComparisonResult) -> str:
        value = getattr(result.comparison, key)
        if not given(value) or value == 0:
            return ""
        if name in result.steps:
            return context.printer.printed(result.steps[name], form)
        return context.printer.percent(value, signed=form is Form.SIGNED_PERCENT)

    return cell


def _lump(context: Context, result: ComparisonResult) -> str:
    value = result.comparison.lump
    if not given(value) or value == 0:
        return ""
    return (
        context.printer.printed(result.steps["lump"], Form.SIGNED)
        if "lump" in result.steps
        else context.printer.amount(value, signed=True)
    )


def _weight(context: Context, result: ComparisonResult) -> str:
    return context.printer.cell(result.comparison.weight)


#: Rows in order: key of the label, cell, whether it is set off. A cell that is empty throughout gives no row.
_PRICE_ROWS: tuple[tuple[str, Cell, bool], ...] = (
    ("kind", _sale_word("kind"), False),
    ("market", _sale_word("market"), False),
    ("currency", _currency, False),
    ("price", _price, False),
    ("net_of_tax", _step("net_of_tax"), False),
    ("discount", _typed("discount", "discount", Form.PERCENT), False),
    ("sold_equivalent", _step("sold_equivalent"), False),
    ("premium", _step("premium"), False),
    ("premium_tax", _step("premium_tax"), False),
    ("hammer", _step("hammer"), False),
    ("paid", _step("paid"), False),
    ("basis", _step("basis"), False),
    ("rate", _step("rate"), False),
    ("rate_date", _step("rate_date"), False),
    ("converted", _step("converted"), False),
    ("level_percent", _typed("level_percent", "level"), False),
    ("level", _step("level"), False),
    ("index", _step("index"), False),
    ("index_valuation", _step("index_valuation"), False),
    ("time_factor", _step("time_factor"), False),
    ("time", _step("time"), True),
)
_THING_ROWS: tuple[tuple[str, Cell, bool], ...] = (
    ("grade", _sale_word("grade"), False),
    ("pct_cond", _step("pct_cond", Form.SIGNED_PERCENT), False),
    ("originality", _step("originality", Form.NUMBER), False),
    ("pct_orig", _step("pct_orig", Form.SIGNED), False),
    ("period_share", _step("period_share"), False),
    ("pct_period", _step("pct_period", Form.SIGNED), False),
    ("pct_configuration", _typed("pct_configuration", "configuration"), False),
    ("pct_provenance", _typed("pct_provenance", "provenance"), False),
    ("pct_other", _typed("pct_other", "other"), False),
    ("adj_factor", _step("adj_factor"), False),
    ("after_pct", _step("after_pct"), False),
    ("lump", _lump, False),
)
_RESULT_ROWS: tuple[tuple[str, Cell, bool], ...] = (
    ("adjusted", _step("adjusted"), True),
    ("net_pct", _step("net_pct", Form.SIGNED), False),
    ("gross_pct", _step("gross_pct"), False),
    ("weight", _weight, False),
)
_RELATIVE_ROWS: tuple[tuple[str, Cell, bool], ...] = tuple(
    (key, _comparison_word(key), key == "overall")
    for key in ("by_condition", "by_originality", "by_configuration", "by_provenance", "overall")
)

#: Steps whose typed value has a row of its own under another name, so that they are not printed twice.
_TYPED_TWICE = frozenset(
    {"price", "discount", "configuration", "provenance", "other", "lump", "weight", "grade", "condition"}
)


def grids(context: Context, valuation: Valuation, named: str) -> tuple[Grid, ...]:
    """Return the grids of a valuation: every step of every comparison, five comparisons to a grid."""
    results = valuation.comparisons
    parts = _parts(results)
    return tuple(
        Grid(
            _caption(context, valuation, named, number, len(parts)),
            context.text("head.step"),
            tuple(_column(context, one) for one in part),
            tuple(_rows(context, valuation, part)),
        )
        for number, part in enumerate(parts, start=1)
    )


def _parts(results: Sequence[ComparisonResult]) -> list[Sequence[ComparisonResult]]:
    """Return the comparisons in as few grids as they fit, spread evenly, in order."""
    if not results:
        return []
    count = -(-len(results) // COLUMNS)
    size, longer = divmod(len(results), count)
    ends = [size * (number + 1) + min(number + 1, longer) for number in range(count)]
    return [results[start:end] for start, end in zip([0, *ends], ends, strict=False)]


def _caption(context: Context, valuation: Valuation, named: str, number: int, count: int) -> str:
    fields = {
        "item": named,
        "value_type": context.words.word(valuation.value_type),
        "currency": context.printer.currency,
    }
    if count == 1:
        return context.text("caption.grid", **fields)
    return context.text("caption.grid_part", part=str(number), parts=str(count), **fields)


def _column(context: Context, result: ComparisonResult) -> GridColumn:
    printer, sale = context.printer, result.sale
    house = printer.cell(sale.house) if sale else ""
    return GridColumn(printer.shown(result.comparison.id), house, printer.day(sale.day) if sale else "")


def _rows(context: Context, valuation: Valuation, part: Sequence[ComparisonResult]) -> Iterator[GridRow]:
    relative = valuation.route is Route.RELATIVE
    blocks = [
        ("part_price", _PRICE_ROWS),
        ("part_thing", (*_RELATIVE_ROWS, *_THING_ROWS) if relative else (*_THING_ROWS, *_unforeseen(part))),
        ("part_result", _RESULT_ROWS),
    ]
    for heading, specs in blocks:
        rows = [
            GridRow(step_label(context, key), cells, strong)
            for key, cell, strong in specs
            if any(cells := tuple(cell(context, one) for one in part)) and not _plain(context, key, cells)
        ]
        if rows:
            yield GridRow(context.text(f"step.{heading}"), ("",) * len(part), part=True)
            yield from rows


def _plain(context: Context, key: str, cells: Sequence[str]) -> bool:
    """Say whether a row tells nothing: every sale is in the report's currency."""
    return key == "currency" and set(cells) == {context.printer.currency}


def _unforeseen(part: Sequence[ComparisonResult]) -> Iterator[tuple[str, Cell, bool]]:
    """Yield rows for computed steps this list does not know, so that no figure of the way is left out."""
    known = {key for rows in (_PRICE_ROWS, _THING_ROWS, _RESULT_ROWS) for key, _, _ in rows} | _TYPED_TWICE
    names = dict.fromkeys(
        name
        for one in part
        for name, outcome in one.steps.items()
        if name not in known and not (isinstance(outcome, Figure) and outcome.operation in ("typed", "noted"))
    )
    return ((name, _step(name), False) for name in names)


def step_label(context: Context, name: str) -> str:
    """Return the printed name of a step; its own name, made readable, where it has no text."""
    key = f"step.{name}"
    if context.words.has(key):
        return context.text(key, currency=context.printer.currency)
    return name.replace("_", " ")


def sales_table(context: Context, valuation: Valuation, named: str) -> Table | None:
    """Return what was sold, where, and how the price was verified."""
    text, printer = context.text, context.printer
    rows = []
    for one in valuation.comparisons:
        sale = one.sale
        if sale is None:
            continue
        what = [printer.joined([f"{printer.shown(sale.maker)} {printer.shown(sale.model)}"])]
        if given(sale.serial):
            what.append(text("summary.serial_cell", serial=sale.serial))
        if given(sale.made_from) or given(sale.made_to):
            what.append(_made(context, sale.made_from, sale.made_to))
        if given(sale.finish_class):
            what.append(text("sale.finish", finish=printer.shown(sale.finish_class)))
        if given(sale.description):
            what.append(sale.description.rstrip("."))
        where = [printer.shown(sale.house)]
        if given(sale.lot):
            where.append(sale.lot)
        where.append(printer.day(sale.day) or text("common.not_stated"))
        rows.append(
            Row((printer.shown(one.comparison.id), "; ".join(what), ", ".join(where), printer.shown(sale.verified)))
        )
    heads = ("comparison_id", "sold", "place_of_sale", "verified")
    return (
        Table(text("caption.sales", item=named), tuple(text(f"head.{h}") for h in heads), tuple(rows)) if rows else None
    )


def _made(context: Context, start: object, end: object) -> str:
    first, last = context.printer.cell(start), context.printer.cell(end)
    if first and last and first != last:
        return context.text("sale.made_between", first=first, last=last)
    return context.text("sale.made", when=first or last)


def reasons_table(context: Context, valuation: Valuation) -> Table | None:
    """Return the reason of every adjustment and weight, comparison by comparison."""
    rows = [row for one in valuation.comparisons for row in _reasons(context, one)]
    heads = ("comparison_id", "adjustment", "figure", "reason")
    if not rows:
        return None
    return Table(context.text("caption.reasons"), tuple(context.text(f"head.{h}") for h in heads), tuple(rows))


def _reasons(context: Context, result: ComparisonResult) -> Iterator[Row]:
    line, printer = result.comparison, context.printer
    figures: tuple[tuple[str, str, object], ...] = (
        ("discount", printer.percent(line.discount), line.discount_reason),
        ("level", printer.percent(line.level, signed=True), line.level_reason),
        ("condition", printer.percent(line.condition, signed=True), line.condition_reason),
        ("deductions", _deductions(context, result), line.deductions_reason),
        ("configuration", printer.percent(line.configuration, signed=True), line.configuration_reason),
        ("provenance", printer.percent(line.provenance, signed=True), line.provenance_reason),
        ("other", printer.percent(line.other, signed=True), line.other_reason),
        ("lump", printer.amount(line.lump, signed=True), line.lump_reason),
        ("weight", printer.cell(line.weight), line.weight_reason),
        ("use", "", line.use_reason),
    )
    for key, figure, reason in figures:
        if figure or given(reason):
            yield Row((printer.shown(line.id), context.text(f"reason.{key}"), figure, printer.shown(reason)))


def _deductions(context: Context, result: ComparisonResult) -> str:
    typed = result.comparison.deductions
    return "; ".join(f"{one.strip()}%" for one in typed.split(";")) if given(typed) else ""
