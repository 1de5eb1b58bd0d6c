"""What every section needs: the job sorted by item, the printer, and a short summary of each item."""

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from typing import Any, TypeVar

from appraise.dating.decades import by_decade
from appraise.dating.result import DateWindow
from appraise.model.figure import Figure, Outcome
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given, value_or
from appraise.model.place import Place
from appraise.records.items import Item
from appraise.records.job import SHEETS, Job
from appraise.records.market import Opinion
from appraise.records.vocabulary import Use, ValueType
from appraise.report.compose.inputs import ItemResult, ReportInputs
from appraise.report.compose.printing import Form, Printer
from appraise.wording.texts import Texts

R = TypeVar("R")


@frozen
class ItemValue:
    """The outcome of one type of value for one item, as tables show it; `stated` is False where it was left out."""

    value_type: ValueType
    rounded: Outcome | None
    stated: bool


@frozen
class Summary:
    """What tables and letters need of one item. Small: one is kept for each item of the report.

    worked  the figures of the types of value that a section of the use shows, by name
    """

    item: Item
    made: str
    item_values: tuple[ItemValue, ...]
    worked: Mapping[ValueType, Mapping[str, Outcome]] = field(default_factory=dict)


#: Sums of the insurance contract: carried, never opinions.
CONTRACT = frozenset({ValueType.AGREED, ValueType.STATED})
#: Types of value whose figures stand in a section of their own.
ELSEWHERE = frozenset({ValueType.DIMINUTION, ValueType.MARKETABLE_CASH})
#: Types of value found otherwise than by comparing sales.
BY_OTHER_METHODS = (
    CONTRACT
    | ELSEWHERE
    | {
        ValueType.ACTUAL_CASH,
        ValueType.REPLACEMENT_COST_NEW,
        ValueType.ORDERLY_LIQUIDATION,
        ValueType.FORCED_LIQUIDATION,
    }
)
#: Types of value whose figures a section of its own shows, beside the item's section.
_SHOWN_AGAIN = (
    ValueType.DIMINUTION,
    ValueType.ACTUAL_CASH,
    ValueType.MARKETABLE_CASH,
)


class Context:
    """The job sorted by item, with the printer. Made once for a report."""

    def __init__(self, inputs: ReportInputs, printer: Printer) -> None:
        self.inputs = inputs
        self.job: Job = inputs.job
        self.printer = printer
        self.words: Texts = printer.words
        self.use = value_or(self.job.assignment.use, Use.ESTATE)
        self.use_given = given(self.job.assignment.use)
        self.value_types = tuple(one.value_type for one in self.job.value_terms if given(one.value_type))
        self.parts = _by_item(self.job.parts)
        self.history = _by_item(self.job.history)
        self.inspection = _by_item(self.job.inspection)
        self.photos = _by_item(self.job.photos)
        self.opinions: dict[tuple[str, ValueType], Opinion] = {
            (one.item, one.value_type): one for one in self.job.opinions if given(one.item) and given(one.value_type)
        }
        self.costs = self.job.costs
        self.year_lines = {
            (str(one.line.item), revaluation.value_type): one
            for revaluation in inputs.yearly
            for one in revaluation.lines
        }
        self._windows: list[DateWindow] = []
        self.summaries = tuple(self._summary(result) for result in inputs.results())
        self.decades = by_decade(self._windows)
        self.by_id = {one.item.id: one for one in self.summaries if given(one.item.id)}

    def text(self, key: str, /, **fields: str) -> str:
        """Return a text of the report's language."""
        return self.words.text(key, **fields)

    @property
    def effective_day(self) -> str:
        """The effective date in full, or "not stated"."""
        return self.printer.shown(self.job.assignment.effective_date)

    @property
    def value_type_words(self) -> str:
        """The types of value as a list in words."""
        return self.printer.joined(self.words.word(one) for one in self.value_types)

    def numbers_of(self, ids: Iterable[str]) -> str:
        """Return the printed numbers of items as a list (`no. 2 and 5`), in the order of the items; no ids: empty."""
        wanted = set(ids)
        numbers = [self.number(one.item) for one in self.summaries if one.item.id in wanted]
        return self.text("common.numbers", numbers=self.printer.joined(numbers)) if numbers else ""

    def number(self, item: Item) -> str:
        """Return the printed number of an item; its id where it has none."""
        return item.number if given(item.number) else value_or(item.id, self.words.text("common.not_stated"))

    def named(self, item: Item) -> str:
        """Return maker and model of an item, or its model with "maker unknown"."""
        if not given(item.model):
            return self.printer.shown(item.maker if given(item.maker) else item.description)
        if not given(item.maker) or is_word(item.maker, "unknown"):
            return self.text("item.maker_unknown", model=item.model)
        return f"{item.maker} {item.model}"

    def named_with_serial(self, item: Item) -> str:
        """Return maker and model of an item with its serial number, if it has one."""
        if not given(item.serial) or is_word(item.serial, "none"):
            return self.named(item)
        return f"{self.named(item)}, {self.text('summary.serial_cell', serial=item.serial)}"

    def title(self, item_id: str | Missing) -> str:
        """Return number and name of an item by its id; the id itself where there is no such item."""
        known = self.by_id.get(item_id) if given(item_id) else None
        if known is None:
            return self.printer.shown(item_id)
        return self.text("uses.item", number=self.number(known.item), name=self.named(known.item))

    def value_head(self, value_type: ValueType) -> str:
        """Return the heading of a column of opinions: type of value and currency."""
        name = self.words.word(value_type)
        return self.text("head.value_in", value_type=capital(name), currency=self.printer.currency)

    @property
    def value_heads(self) -> tuple[str, ...]:
        """The headings of the columns of opinions, one for each type of value."""
        return tuple(self.value_head(one) for one in self.value_types)

    def value_cell(self, value: ItemValue, form: Form = Form.WHOLE_PLAIN) -> str:
        """Return the rounded opinion for a table: "not concluded" where it is wanted and missing, a dash if out."""
        if value.rounded is not None:
            return self.printer.printed(value.rounded, form)
        return self.text("common.not_concluded" if value.stated else "common.dash")

    def _summary(self, result: ItemResult) -> Summary:
        self._windows.append(_without_evidence(result.window))
        shown = result.window.shown
        made = self.printer.window(shown.outer) if shown else self.text("decade.none")
        if shown and shown.provisional:
            made = self.text("decade.provisional", window=made)
        by_type = {one.value_type: one for one in result.valuations}
        found = []
        for value_type in self.value_types:
            opinion = self.opinions.get((str(result.item.id), value_type))
            left_out = opinion is not None and given(opinion.not_valued)
            valuation = by_type.get(value_type)
            rounded = valuation.rounded if valuation and isinstance(valuation.rounded, Figure) else None
            found.append(ItemValue(value_type, rounded, stated=not left_out))
        return Summary(
            result.item,
            made,
            tuple(found),
            {kind: by_type[kind].figures for kind in _SHOWN_AGAIN if kind in by_type},
        )

    def place(self, place: Place) -> str:
        """Return where a finding arose, as the reader of the workbook finds it."""
        if self.inputs.place_name is not None:
            return self.inputs.place_name(place)
        sheet = next((one for one in SHEETS.values() if one.name == place.sheet), None)
        column = sheet.column(place.column).heading if sheet and place.column else ""
        row = self.text("common.row", row=str(place.row)) if place.row else ""
        return ", ".join(one for one in (place.sheet, row, column) if one)


def _without_evidence(window: DateWindow) -> DateWindow:
    """Return the window without what led to it, small enough to be kept for each item."""
    return replace(window, statements=(), conflicts=(), explanations=(), best=(), parts=(), advice=(), findings=())


def _by_item(records: Iterable[Any]) -> dict[str, list[Any]]:
    sorted_out: dict[str, list[Any]] = {}
    for record in records:
        if given(record.item):
            sorted_out.setdefault(record.item, []).append(record)
    return sorted_out


def item_key(number: int) -> str:
    """Return the anchor of the section of an item, counted from 1."""
    return f"item{number}"


def capital(text: str) -> str:
    """Return a text with its first letter as a capital."""
    return text[:1].upper() + text[1:]


def ids_in(text: str | Missing) -> tuple[str, ...]:
    """Return the ids of a cell that lists them, separated by semicolons."""
    return tuple(one.strip() for one in text.split(";") if one.strip()) if given(text) else ()


def closed(words: str) -> str:
    """Return typed words with a full stop, unless a mark ends them already; nothing for none.

    >>> closed("the price such stands bring "), closed("Why?")
    ('the price such stands bring.', 'Why?')
    """
    shown = words.strip()
    return shown if not shown or shown.endswith((".", "!", "?")) else f"{shown}."


def is_word(text: str | Missing, word: str) -> bool:
    """Say whether a cell holds just that word, whatever its case (`none`, `all`, `used`)."""
    return given(text) and text.strip().rstrip(".").casefold() == word
