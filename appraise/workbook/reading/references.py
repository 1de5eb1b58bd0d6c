"""Ids: given once on their sheet, and existing where another sheet refers to them."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from appraise.model.finding import Finding, finding
from appraise.model.place import Place
from appraise.records.declare import ColumnKind, Sheet
from appraise.records.job import SHEETS

#: Sheets whose id names a whole table: every row of the table carries it.
SHARED_IDS = frozenset(("premiums", "commissions", "indexes", "scales"))

Records = Mapping[str, Iterable[Any]]


def id_key(sheet: Sheet) -> str | None:
    """Return the key of the id column of a sheet, None where it has none."""
    return next((column.key for column in sheet.columns if column.kind is ColumnKind.IDENTITY), None)


def duplicate_findings(records: Records) -> Iterator[Finding]:
    """Yield a finding for each row whose id was given before on the same sheet."""
    for name, sheet in SHEETS.items():
        key = id_key(sheet)
        if key is None or name in SHARED_IDS:
            continue
        first: dict[str, int] = {}
        for record in records.get(name, ()):
            value = getattr(record, key)
            if not isinstance(value, str):
                continue
            row = first.setdefault(value.casefold(), record.row)
            if row != record.row:
                place = Place(sheet.name, record.row, key)
                yield finding("CEL-25", place, value, found=value, sheet=sheet.name, first=row)


def reference_findings(records: Records, example_ids: Mapping[str, set[str]]) -> Iterator[Finding]:
    """Yield a finding for each reference to an id that does not exist, or that only an example row has."""
    known = {sheet.name: known_ids(sheet, records.get(name, ())) for name, sheet in SHEETS.items()}
    for name, sheet in SHEETS.items():
        references = [column for column in sheet.columns if column.refers_to]
        for column in references:
            ids = known[column.refers_to]
            examples = example_ids.get(column.refers_to, set())
            for record in records.get(name, ()):
                value = getattr(record, column.key)
                if not isinstance(value, str) or value in ids:
                    continue
                place = Place(sheet.name, record.row, column.key)
                code = "CEL-24" if value in examples else "CEL-23"
                yield finding(
                    code,
                    place,
                    found=value,
                    heading=column.heading,
                    sheet=column.refers_to,
                    nearest=_nearest(value, ids),
                )


def known_ids(sheet: Sheet, records: Iterable[Any]) -> Mapping[str, int]:
    """Return the ids of a sheet with how often each stands there."""
    key = id_key(sheet)
    if key is None:
        return {}
    return Counter(value for record in records if isinstance(value := getattr(record, key), str))


def _nearest(value: str, ids: Mapping[str, int]) -> str:
    if len(ids) > 20_000:
        return "the ids there"
    by_folded = {one.casefold(): one for one in ids}
    near = get_close_matches(value.casefold(), by_folded, 2, 0.5)
    return " or ".join(f"'{by_folded[one]}'" for one in near) or "the ids there"
