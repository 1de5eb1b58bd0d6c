"""The column reference is what the declarations say."""

from pathlib import Path

from appraise.records.documentation import columns_page
from appraise.records.job import SHEETS

PAGE = Path(__file__).parents[2] / "docs" / "columns.md"


def test_the_page_is_current() -> None:
    assert PAGE.read_text("utf-8") == columns_page(), "docs/columns.md is old: see appraise/records/documentation.py"


def test_every_column_stands_on_the_page_with_a_hint_or_an_example() -> None:
    text = columns_page()
    for sheet in SHEETS.values():
        for column in sheet.columns:
            assert f"| {column.heading} | `{column.key}` |" in text
            assert column.hint or column.example, f"{sheet.name}: {column.heading} tells nobody what to type"
