"""Random schedules: objects, sales and comparisons drawn at will, as rows that are written to a real workbook."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st
from support.workbooks import sound_rows

from appraise.model.missing import NOT_INSPECTED, UNKNOWN
from appraise.records.declare import Column, ColumnKind
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Conclusion

Rows = dict[str, Any]
TABLES = tuple(name for name, sheet in SHEETS.items() if not sheet.form)

_PERCENTS = st.decimals(-60, 60, places=1)
_WEIGHTS = st.decimals(0, 10, places=2)
_MONEY = st.decimals("0.01", 5_000_000, places=2)


def _all_rows() -> Rows:
    return {**{name: [] for name in TABLES}, **sound_rows()}


@st.composite
def sound_schedules(draw: st.DrawFn) -> Rows:
    """Return a schedule of one to five objects, each with its own evidence and comparisons, all of it well formed."""
    rows = _all_rows()
    copies = draw(st.integers(0, 4))
    for name in TABLES:
        first = [row for row in rows[name] if row.get("item", row.get("id")) == "G01" and name != "sales"]
        for number in range(copies):
            rows[name] = [*rows[name], *(_renamed(name, row, number) for row in first)]
    for row in rows["sales"]:
        row["price"] = draw(_MONEY)
        row["day"] = draw(st.dates(date(2019, 1, 1), date(2024, 10, 31)))
    for row in rows["comparisons"]:
        row["weight"] = draw(_WEIGHTS)
        for key in ("condition", "configuration", "provenance", "other"):
            if draw(st.booleans()):
                row[key] = draw(_PERCENTS)
                row[f"{key}_reason"] = "as seen"
    for row in rows["items"]:
        if row["id"].startswith("G"):
            row["grade"] = draw(st.sampled_from([one["grade"] for one in rows["scales"]]))
    rows["value_terms"][0]["conclusion"] = draw(st.sampled_from([Conclusion.MEAN, Conclusion.MEDIAN]))
    return rows


def _renamed(name: str, row: dict[str, Any], number: int) -> dict[str, Any]:
    """Return a row of the first object as one of its copy."""
    changed = {**row}
    for key in ("item", "id"):
        if changed.get(key) == "G01":
            changed[key] = f"G{10 + number}"
    if name == "items":
        changed |= {"number": str(10 + number), "serial": f"{3000 + number}"}
    elif name != "items" and "id" in changed and "item" in changed:
        changed["id"] = f"{changed['id']}-{number}"
    return changed


#: Texts nobody would type on purpose; the writer keeps them as they are.
ODD_TEXTS = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        [
            "", " ", "unknown", "=1+1", "{{ 1 }}", "<w:p/>&", "1.234,56", "1,2,3", "2025-02-30", "circa", "c. 1930s",
            "before 1941", "no", "yes", "N/A", "-", "#REF!", "[red]", "../x.jpg", "G01", "S001", "A1", "1e309", "%",
            "12 %", "-0", "0", "999999999999", "unknown; unknown", "\u202egpj.exe", "Ⅷ", "١٩٤٠", "0.1+0.2",
        ]
    ),
)  # fmt: skip
_ODD = st.one_of(
    ODD_TEXTS,
    st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**15), max_value=10**15, places=3),
    st.dates(date(1900, 3, 1), date(2100, 1, 1)),
    st.booleans(),
    st.sampled_from([UNKNOWN, NOT_INSPECTED, None]),
)


def _cells() -> st.SearchStrategy[tuple[str, Column]]:
    return st.sampled_from([(name, column) for name, sheet in SHEETS.items() for column in sheet.columns])


@st.composite
def any_schedules(draw: st.DrawFn) -> Rows:
    """Return a schedule in which up to twelve cells hold anything, and rows are missing, doubled or added."""
    rows = _all_rows()
    for name in draw(st.lists(st.sampled_from(TABLES), max_size=3)):
        deed: Callable[[list[Any]], list[Any]] = draw(
            st.sampled_from([lambda old: old[1:], lambda old: old * 2, lambda _: [], lambda old: [*old, {}]])
        )
        rows[name] = [dict(row) for row in deed(list(rows[name]))]
    for name, column in draw(st.lists(_cells(), max_size=12)):
        value = draw(st.one_of(_ODD, st.sampled_from(list(column.choices)))) if column.choices else draw(_ODD)
        if SHEETS[name].form:
            rows.setdefault(name, {})
            rows[name] = {**rows[name], column.key: value}
        else:
            rows[name] = rows[name] or [{}]
            draw(st.sampled_from(rows[name]))[column.key] = value
    return rows


def holds_text(column: Column) -> bool:
    """Say whether a column takes any text as it is."""
    return column.kind in (ColumnKind.TEXT, ColumnKind.LONG_TEXT, ColumnKind.VERBATIM)


def total_of(values: list[Decimal]) -> Decimal:
    """Return the sum of values, 0 for none."""
    return sum(values, Decimal(0))
