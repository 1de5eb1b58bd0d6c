"""The schedule of an insurance use as flat rows, with the totals an insurer asks for."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import TypeVar

from appraise.checks.context import ItemResults
from appraise.jobs.compute import named
from appraise.jobs.examine import Examined
from appraise.model.figure import Figure, Outcome
from appraise.model.missing import Missing, given, value_or
from appraise.records.items import Item
from appraise.records.vocabulary import Treatment, ValueType
from appraise.report.compose.context import capital
from appraise.report.compose.inputs import Total
from appraise.report.compose.printing import Printer
from appraise.report.compose.report import printer_for
from appraise.workbook.writing.schedule_file import ScheduleRow, ScheduleWords, TotalRow

T = TypeVar("T", str, date)

_ITEM_HEADS = (
    "number",
    "class",
    "maker",
    "model",
    "serial",
    "made",
    "description",
    "location",
    "value",
    "currency",
    "value_type",
    "value_date",
    "last_seen",
    "change",
    "photo_file",
)
_TOTAL_HEADS = ("value_type", "sum", "which", "items", "amount", "currency")


def schedule_words(examined: Examined) -> ScheduleWords:
    """Return names and headings in the report's language."""
    text = printer_for(examined.job).words.text
    return ScheduleWords(
        text("schedule_file.items"),
        text("schedule_file.totals"),
        tuple(text(f"head.{one}") for one in _ITEM_HEADS),
        tuple(text(f"head.{one}") for one in _TOTAL_HEADS),
    )


def schedule_rows(examined: Examined) -> Iterator[ScheduleRow]:
    """Yield one row for each item that is still there: under the first of the job's types of value it is valued in."""
    job, printer = examined.job, printer_for(examined.job)
    types = [one.value_type for one in job.value_terms if given(one.value_type)]
    changes, removed = _yearly(examined)
    for item in job.items:
        if named(item) in removed:
            continue
        results = examined.results[named(item)]
        concluded = {one.value_type: one.rounded for one in results.valuations if isinstance(one.rounded, Figure)}
        value_type = next((one for one in types if one in concluded), types[0] if types else None)
        value = concluded.get(value_type) if value_type else None
        change = changes.get((named(item), value_type)) if value_type else None
        yield ScheduleRow(
            number=item.number if given(item.number) else named(item),
            family=printer.words.word(item.family) if given(item.family) else None,
            maker=_known(item.maker),
            model=_known(item.model),
            serial=_known(item.serial),
            made=_made(printer, results),
            description=_known(item.description),
            location=_known(item.location),
            value=value.number if value else None,
            currency=value_or(job.assignment.currency, ""),
            value_type=printer.words.word(value_type) if value_type else "",
            value_date=_known(job.assignment.effective_date),
            inspected=_known(item.inspected_on),
            change=_number(change),
            photo=_photo(examined, item),
        )


def total_rows(examined: Examined, totals: Sequence[Total]) -> Iterator[TotalRow]:
    """Yield the totals: all, by location, largest item, largest location, what is away, what is above the limit."""
    printer, currency = printer_for(examined.job), value_or(examined.job.assignment.currency, "")
    text, items = printer.words.text, {named(one): one for one in examined.job.items}

    def names(ids: Sequence[str]) -> str:
        return ", ".join(_name(printer, items[one]) for one in ids if one in items)

    for total in totals:
        name = capital(printer.words.word(total.value_type))

        def row(what: str, which: str, amount: Outcome | None, count: int | None = None, name: str = name) -> TotalRow:
            return TotalRow(name, text(f"schedule_file.{what}"), which, count, _number(amount), currency)

        yield row("all", "", total.total)
        if total.lacking:
            yield row("lacking", names(total.lacking), None, len(total.lacking))
        for place, amount in total.by_location.items():
            yield row("location", place or text("common.not_stated"), amount)
        if total.largest in items:
            largest = next(
                one.rounded for one in examined.results[total.largest].valuations if one.value_type is total.value_type
            )
            yield row("largest_item", names([total.largest]), largest, 1)
        place_ = total.largest_location
        if place_ is not None:
            yield row("largest_location", place_ or text("common.not_stated"), total.by_location[place_])
        exposure = total.exposure
        if exposure is None:
            continue
        if exposure.main:
            yield row("main", exposure.main, total.by_location.get(exposure.main))
            yield row("away", names(exposure.away), exposure.value, len(exposure.away))
        for one in exposure.over:
            yield row("over", names(one.items), one.value, len(one.items))


def _yearly(examined: Examined) -> tuple[dict[tuple[str, ValueType], Outcome], set[str]]:
    """Return the change of each line from last year, and the items that were removed since."""
    changes, removed = {}, set()
    for revaluation in examined.yearly:
        for line in revaluation.lines:
            item = str(line.line.item)
            if line.treatment is Treatment.REMOVED:
                removed.add(item)
            elif line.change is not None:
                changes[item, revaluation.value_type] = line.change
    return changes, removed


def _made(printer: Printer, results: ItemResults) -> str:
    shown = results.window.shown if results.window else None
    if shown is None:
        return printer.words.text("decade.none")
    window = printer.window(shown.outer)
    return printer.words.text("decade.provisional", window=window) if shown.provisional else window


def _photo(examined: Examined, item: Item) -> str | None:
    return next((str(one.file) for one in examined.job.photos if one.item == item.id and given(one.file)), None)


def _name(printer: Printer, item: Item) -> str:
    words = [printer.cell(one) for one in (item.number, item.maker, item.model)]
    return " ".join(one for one in words if one)


def _known(value: T | Missing) -> T | None:
    return value if given(value) else None


def _number(outcome: Outcome | None) -> Decimal | None:
    return outcome.number if isinstance(outcome, Figure) else None
