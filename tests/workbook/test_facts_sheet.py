"""The list of published facts that a blank workbook offers on Evidence."""

from pathlib import Path

import openpyxl

from appraise.records.vocabulary import EvidenceKind, Use
from appraise.rules.published import facts
from appraise.workbook.layout import PUBLISHED_FACTS
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.write import write_blank


def test_every_fact_can_be_picked_by_its_id(tmp_path: Path) -> None:
    book = openpyxl.load_workbook(write_blank(tmp_path / "a.xlsx", Use.ESTATE))
    page = book[PUBLISHED_FACTS]
    rows = list(page.iter_rows(min_row=3, values_only=True))
    assert [row[0] for row in rows] == list(facts())
    assert {row[2] for row in rows} <= {str(kind) for kind in EvidenceKind}


def test_the_sheet_is_not_taken_for_one_of_the_users_own(tmp_path: Path) -> None:
    assert PUBLISHED_FACTS not in {
        one.name for one in read_job(write_blank(tmp_path / "a.xlsx", Use.ESTATE)).extra_sheets
    }
