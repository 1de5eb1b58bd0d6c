"""The bench itself: its jobs come from a seed, and no ratio counts where the answers differ."""

import json
from pathlib import Path

import pytest

from appraise.workbook.cells import Book
from bench.bases import calamine_rows, floor_proof, floor_report, openpyxl_rows, openpyxl_whole
from bench.child import python
from bench.generate import rows, write_workbook
from bench.inputs import PHOTOS
from bench.lines import Line, _equal, ratio
from bench.measuring import Result, measure
from bench.ours import cells, compose, proof, render


def answers(capsys: pytest.CaptureFixture[str]) -> object:
    """Return what the last script said."""
    return json.loads(capsys.readouterr().out.splitlines()[-1])["answer"]


def saying(answer: object) -> tuple[str, ...]:
    """Return a command that answers this."""
    return python("-c", f"from bench.say import say; say({answer!r}, 0.5)")


def measured(line: Line) -> Result:
    """Return the result of one round of one line."""
    (results,) = measure([line], 1, lambda _: None)
    return results[0]


def test_the_same_seed_gives_the_same_job(tmp_path: Path) -> None:
    assert rows(4, photos=1, seed=7) == rows(4, photos=1, seed=7)
    assert rows(4, seed=7) != rows(4, seed=8)
    books = [write_workbook(tmp_path / name / "job.xlsx", 3, photos=1, seed=7) for name in ("a", "b")]
    assert books[0].read_bytes() == books[1].read_bytes()
    photos = [sorted((book.parent / "photos").iterdir()) for book in books]
    assert [one.read_bytes() for one in photos[0]] == [one.read_bytes() for one in photos[1]]
    assert len({one.read_bytes() for one in photos[0]}) == 3


def test_a_ratio_counts_where_the_answers_agree() -> None:
    found = measured(Line("x", saying([3, "a"]), saying([3, "a"]), same=_equal, wanted=2))
    assert found.ratios == [1.0]
    assert found.reached


def test_a_wrong_answer_has_no_ratio() -> None:
    found = measured(Line("x", saying([3, "a"]), saying([3, "b"]), same=_equal, wanted=2))
    assert found.ratios == [] and found.reached is None
    assert "differ" in found.refused


def test_a_run_that_fails_has_no_ratio() -> None:
    found = measured(Line("x", saying(1), python("-c", "raise SystemExit(3)"), wanted=2))
    assert found.ratios == [] and "exit code 3" in found.refused


def test_an_exponent_says_how_work_grows() -> None:
    large, small = (
        measured(Line("x", python("-c", f"from bench.say import say; say(0, {cpu})"))).ours[0] for cpu in (8.0, 2.0)
    )
    line = Line("x", (), (), grows_by=2)
    assert ratio(line, large, small) == pytest.approx(2)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_workbook(tmp_path_factory.mktemp("job") / "job.xlsx", 3, photos=PHOTOS)


def test_readers_are_held_to_the_same_cells(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cells.main(str(book))
    counts = answers(capsys)
    bases = {"values": openpyxl_rows, "typed": openpyxl_whole, "not empty": calamine_rows}
    for which, base in bases.items():
        base.main(str(book))
        assert answers(capsys) == counts[which] > 0  # type: ignore[index]


def test_a_cell_read_wrongly_ends_the_comparison(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def rows_with_a_fault(self: Book, sheet: object) -> object:
        for row in whole(self, sheet):  # type: ignore[arg-type]
            if row.number == 3:
                row.cells[0] = row.cells[0]._replace(value="wrong")
            yield row

    whole = Book.rows
    monkeypatch.setattr(Book, "rows", rows_with_a_fault)
    with pytest.raises(SystemExit) as ended:
        cells.main(str(book))
    assert ended.value.code


def test_the_floor_of_a_report_has_the_text_of_the_report(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    view = tmp_path / "job.view"
    compose.main(str(book), str(view))
    assert answers(capsys) == 3
    render.main(str(view), str(tmp_path / "ours.docx"))
    ours = answers(capsys)
    floor_report.main(str(view), str(tmp_path / "floor.docx"))
    assert answers(capsys) == ours
    assert ours[0] > 100 and ours[2] == 3 * PHOTOS  # type: ignore[index]


def test_the_floor_of_a_proof_has_the_cells_of_the_proof(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    proof.main(str(book), str(tmp_path / "ours.xlsx"))
    ours = answers(capsys)
    floor_proof.main(str(tmp_path / "ours.xlsx"), str(tmp_path / "floor.xlsx"))
    assert answers(capsys) == ours
    assert ours[0] > 100  # type: ignore[index]
