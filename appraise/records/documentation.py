"""The column declarations as a page of documentation, `docs/columns.md`; a test keeps the page current.

To write it anew: python -c "from appraise.records.documentation import columns_page as p; print(p(), end='')"
"""

from collections.abc import Iterator

from appraise.records.declare import Column, Sheet
from appraise.records.job import FORMAT, SHEETS


def columns_page() -> str:
    """Return the whole page as Markdown."""
    lines = [
        "# Sheets and columns",
        "",
        "Made from the declarations in `appraise/records`; do not edit by hand. The key is what findings, answers and",
        "case files name a column by; it never changes. *Always* means that a blank cell is a finding.",
        "",
        f"Workbook format: {FORMAT}.",
    ]
    for field, sheet in SHEETS.items():
        lines += ["", *_section(field, sheet)]
    return "\n".join(lines) + "\n"


def _section(field: str, sheet: Sheet) -> Iterator[str]:
    yield f"## {sheet.name}"
    yield ""
    yield f"{sheet.purpose} {_kind(sheet)} Key of the sheet: `{field}`.{_uses(sheet.uses)}"
    yield ""
    yield "| heading | key | how it is typed | required | what to type | example |"
    yield "|---|---|---|---|---|---|"
    for column in sheet.columns:
        cells = (
            column.heading,
            f"`{column.key}`",
            _typed(column),
            column.required,
            column.hint + _uses(column.uses),
            column.example,
        )
        yield "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def _kind(sheet: Sheet) -> str:
    if sheet.form:
        return "A form: one line for each fact."
    return "A table; it may also stand in the library." if sheet.library else "A table."


def _uses(uses: frozenset[str]) -> str:
    return f" Only for: {', '.join(sorted(uses))}." if uses else ""


def _typed(column: Column) -> str:
    if column.choices is not None:
        return "one of: " + ", ".join(str(word) for word in column.choices)
    if column.refers_to:
        return f"id from {column.refers_to}"
    return f"{column.kind.value}, may be below zero" if column.signed else column.kind.value
