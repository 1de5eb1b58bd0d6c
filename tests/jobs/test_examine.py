"""One cell put wrong is one stop, whatever follows from it."""

from datetime import date
from pathlib import Path

import pytest
from support.typed_pages import fill, type_over

from appraise.jobs.examine import examine
from appraise.records.vocabulary import Family, Use
from appraise.workbook.writing.write import write_blank

ENTRIES = Path(__file__).parents[1] / "first_hour" / "flat_top.toml"


@pytest.mark.parametrize(
    ("sheet", "known", "heading", "typed", "code"),
    [
        ("Items", "N01", "Condition scale", "K-FLOT", "CEL-23"),
        ("Items", "N01", "Price index", "FRET", "CEL-23"),
        ("Sales", "S1", "Price", "$27,000", "CEL-03"),
        ("Sales", "S1", "Kind of price", "sold by a dealer", "CEL-17"),
        ("Comparisons", "c1", "Sale id", "S9", "CEL-23"),
    ],
)
def test_what_only_follows_from_an_unreadable_cell_is_not_said(
    tmp_path: Path, sheet: str, known: str, heading: str, typed: str, code: str
) -> None:
    book = write_blank(tmp_path / "job.xlsx", Use.INSURANCE, families=[Family.FLAT_TOP])
    fill(book, ENTRIES)
    type_over(book, sheet, known, heading, typed)
    examined = examine(book, today=date(2025, 3, 17))
    assert [one.finding.code for one in examined.judged if one.stops] == [code]


def test_what_an_answer_could_release_hides_nothing(tmp_path: Path) -> None:
    """A price stated unknown can be answered as such, and is then still needed for the figure."""
    book = write_blank(tmp_path / "job.xlsx", Use.INSURANCE, families=[Family.FLAT_TOP])
    fill(book, ENTRIES)
    type_over(book, "Sales", "S1", "Price", "unknown")
    examined = examine(book, today=date(2025, 3, 17))
    assert "VAL-01" in {one.finding.code for one in examined.judged if one.stops}
