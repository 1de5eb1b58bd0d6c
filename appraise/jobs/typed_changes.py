"""What was typed differently in two versions of a job, by the id of the row and the heading of the column."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Any

from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given
from appraise.model.place import Place
from appraise.records.declare import ColumnKind, Sheet, place_of
from appraise.records.job import SHEETS, Job

#: Columns that name a row where no id does, or where several rows share one. All others: the id, or the first two
#: columns that always have to be filled.
_NAMED_BY = {
    "Value types": ("value_type",),
    "Parts": ("item", "part"),
    "Photos": ("item", "file"),
    "Subject history": ("item", "kind", "day"),
    "Comparisons": ("item", "value_type", "id"),
    "Costs": ("item", "quotation", "kind"),
    "Repairs": ("item", "work", "estimator"),
    "Liquidation": ("id",),
    "Market notes": ("family",),
    "Cover": ("item",),
    "Losses": ("item",),
    "Premiums": ("table", "valid_from", "up_to"),
    "Commissions": ("table", "up_to"),
    "Indexes": ("index", "month"),
    "Scales": ("scale", "grade"),
    "Model periods": ("maker", "model"),
    "Answers": ("code", "subjects", "column_key"),
}


@frozen
class TypedChange:
    """One cell that was typed differently, or a row that is new or gone.

    row      what names the row: `S3`; "" on a form
    heading  of the column, "" for a whole row
    old      as it was typed; None: the row was not there
    new      as it is typed now; None: the row is gone
    place    in the new version; in the old one for a row that is gone
    """

    sheet: str
    row: str
    heading: str
    old: str | None
    new: str | None
    place: Place


def typed_changes(old: Job, new: Job) -> Iterator[TypedChange]:
    """Yield what was typed differently, in the order of sheets, rows and columns of the new version."""
    for key, sheet in SHEETS.items():
        before, now = getattr(old, key), getattr(new, key)
        if sheet.form:
            yield from _cells(sheet, "", before, now)
        else:
            yield from _rows(sheet, before, now)


def _rows(sheet: Sheet, before: Sequence[Any], now: Sequence[Any]) -> Iterator[TypedChange]:
    keys = _keys(sheet)
    old, new = _by_name(keys, before), _by_name(keys, now)
    for name, rows in new.items():
        left, came = _unequal(old.get(name, []), rows, sheet)
        for was, one in zip(left, came, strict=False):
            yield from _cells(sheet, name, was, one)
        for one in came[len(left) :]:
            yield TypedChange(sheet.name, name, "", None, _summary(sheet, one), place_of(sheet, one, ""))
        for one in left[len(came) :]:
            yield TypedChange(sheet.name, name, "", _summary(sheet, one), None, place_of(sheet, one, ""))
    for name, rows in old.items():
        for one in rows if name not in new else ():
            yield TypedChange(sheet.name, name, "", _summary(sheet, one), None, place_of(sheet, one, ""))


def _keys(sheet: Sheet) -> tuple[str, ...]:
    if sheet.name in _NAMED_BY:
        return _NAMED_BY[sheet.name]
    ids = tuple(one.key for one in sheet.columns if one.kind is ColumnKind.IDENTITY)
    return ids or tuple(one.key for one in sheet.columns if one.required == "always")[:2]


def _by_name(keys: Iterable[str], records: Iterable[Any]) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = defaultdict(list)
    for record in records:
        named = [typed_text(value) for key in keys if given(value := getattr(record, key))]
        found[", ".join(named) or "without a name"].append(record)
    return dict(found)


def _unequal(old: Sequence[Any], new: Sequence[Any], sheet: Sheet) -> tuple[list[Any], list[Any]]:
    """Return the rows of one name that have no equal on the other side."""
    left = list(old)
    came = []
    for one in new:
        same = next((other for other in left if _values(sheet, other) == _values(sheet, one)), None)
        if same is None:
            came.append(one)
        else:
            left.remove(same)
    return left, came


def _values(sheet: Sheet, record: Any) -> list[Any]:
    return [getattr(record, column.key) for column in sheet.columns]


def _cells(sheet: Sheet, name: str, old: Any, new: Any) -> Iterator[TypedChange]:
    for column in sheet.columns:
        was, now = getattr(old, column.key), getattr(new, column.key)
        if was != now:
            place = place_of(sheet, new, column.key)
            yield TypedChange(sheet.name, name, column.heading, typed_text(was), typed_text(now), place)


def _summary(sheet: Sheet, record: Any) -> str:
    return "; ".join(
        f"{column.heading}: {typed_text(value)}"
        for column in sheet.columns
        if (value := getattr(record, column.key)) is not Missing.BLANK
    )


def typed_text(value: object) -> str:
    """Return a value as it may be typed: plain digits, days as ISO 8601 writes them, `blank` for nothing."""
    if isinstance(value, Missing):
        return value.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:f}" if isinstance(value, Decimal) else str(value)
