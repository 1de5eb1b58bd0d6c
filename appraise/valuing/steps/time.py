"""Step d: from the month of the sale to the month of the effective date, by an index (method rule R8)."""

from decimal import Decimal

from appraise.model.figure import NoFigure, Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import COUNT, FACTOR, INDEX
from appraise.model.missing import given
from appraise.model.months import Month, month_text
from appraise.model.operations import PRODUCT, QUOTIENT
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.market import SALES
from appraise.records.tables import INDEXES, IndexPoint
from appraise.valuing.days import month_of
from appraise.valuing.inputs import Inputs
from appraise.valuing.lookup.indexes import Index, Reading, figure_of
from appraise.valuing.operations import CARRIED, INTERPOLATED
from appraise.valuing.steps.line import Line
from appraise.valuing.working import Working


@frozen
class Timeline:
    """The index an item is moved through time by.

    index      None: the item has none, or it is not in the tables
    valuation  index of the month of the effective date; None: the item has no index and the step is skipped
    reading    where that month lies
    """

    index: Index | None
    valuation: Outcome | None
    reading: Reading | None = None


def timeline(inputs: Inputs, work: Working) -> Timeline:
    """Return the index of the item and its figure for the month of the effective date (`index_valuation`)."""
    if not given(inputs.item.index):
        return Timeline(None, None)
    index = inputs.tables.indexes.get(inputs.item.index)
    place = place_of(ITEMS, inputs.item, "index")
    if index is None:
        return Timeline(None, work.refuse("index_valuation", "VAL-02", place, found=inputs.item.index))
    if not given(inputs.tables.effective):
        lacking = work.lacking(ASSIGNMENT, inputs.tables.assignment, "effective_date")
        return Timeline(index, work.keep("index_valuation", lacking))
    month = month_of(inputs.tables.effective)
    reading = index.reading(month)
    if reading is None:
        refused = work.refuse(
            "index_valuation", "VAL-03", place, found=index.id, month=month_text(month), **_reach(index)
        )
        return Timeline(index, refused)
    if reading.carried:
        work.find("VAL-04", place, found=index.id, month=month_text(month), **_reach(index))
    return Timeline(index, index_figure(work, "index_valuation", reading), reading)


def time_adjusted(line: Line, price: Outcome, time: Timeline) -> Outcome:
    """Return the price as of the effective date (figures `index`, `time_factor`, `time`; none without an index)."""
    if time.valuation is None:
        return price
    work, sale = line.work, line.sale
    if not given(sale.day):
        return work.keep("time", work.lacking(SALES, sale, "day"))
    if time.index is None or isinstance(time.valuation, NoFigure):
        return work.keep("time", time.valuation)
    month = month_of(sale.day)
    reading = time.index.reading(month)
    if reading is None:
        code = "CMP-33" if month < time.index.first else "CMP-34"
        place = place_of(SALES, sale, "day")
        details = {"index": time.index.id, "month": month_text(month), **_reach(time.index)}
        return work.refuse("time", code, place, found=sale.day.isoformat(), **details)
    factor = work.figure("time_factor", FACTOR, QUOTIENT, time.valuation, index_figure(work, "index", reading))
    return work.figure("time", line.report_money, PRODUCT, price, factor)


def index_figure(work: Working, name: str, reading: Reading) -> Outcome:
    """Return the index figure of a month: a point as typed, or on the straight line between two points."""
    before = _point(work, f"{name}_before", reading.before)
    if reading.after is None:
        return work.figure(name, INDEX, CARRIED, before)
    after = _point(work, f"{name}_after", reading.after)
    first, last = place_of(INDEXES, reading.before, "month"), place_of(INDEXES, reading.after, "month")
    months = work.note(f"{name}_months", Decimal(reading.months), first, kind=COUNT)
    span = work.note(f"{name}_span", Decimal(reading.span), first, last, kind=COUNT)
    return work.figure(name, INDEX, INTERPOLATED, before, after, months, span)


def _point(work: Working, name: str, point: IndexPoint) -> Outcome:
    return work.keep(name, work.ledger.typed(name, figure_of(point), place_of(INDEXES, point, "figure")))


def _reach(index: Index) -> dict[str, str]:
    return {"first": month_text(index.first), "last": month_text(index.last)}


def sale_reading(line: Line, time: Timeline) -> Reading | None:
    """Return where the month of the sale lies on the index, None where there is no index or no day."""
    if time.index is None or not given(line.sale.day):
        return None
    return time.index.reading(_month(line))


def _month(line: Line) -> Month:
    if not given(line.sale.day):
        raise ValueError("a sale without a day")
    return month_of(line.sale.day)
