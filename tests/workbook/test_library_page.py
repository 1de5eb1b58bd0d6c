"""docs/library.md names every sheet that may stand in a library, and what makes two rows of it the same row."""

from pathlib import Path

from appraise.records.job import SHEETS
from appraise.workbook.reading.references import SHARED_IDS, id_key

PAGE = (Path(__file__).parents[2] / "docs" / "library.md").read_text("utf-8")
ROWS = dict(
    line.strip("|").strip().split(" | ", 1) for line in PAGE.split("|---|---|\n", 1)[1].split("\n\n", 1)[0].splitlines()
)
LIBRARY = {name: sheet for name, sheet in SHEETS.items() if sheet.library}


def test_the_sheets_of_a_library() -> None:
    assert list(ROWS) == [sheet.name for sheet in LIBRARY.values()]


def test_a_row_is_known_by_its_id_and_a_table_by_the_id_of_all_its_rows() -> None:
    for name, sheet in LIBRARY.items():
        key = id_key(sheet)
        if key is not None:
            said = ROWS[sheet.name]
            assert said.split(" (")[0] == sheet.column(key).heading
            assert (" (" in said) is (name in SHARED_IDS)


def test_where_there_is_no_id_columns_are_named_by_their_headings() -> None:
    for sheet in LIBRARY.values():
        said = ROWS[sheet.name]
        if id_key(sheet) is None and said != "everything":
            assert set(said.split(", ")) <= {column.heading for column in sheet.columns}
