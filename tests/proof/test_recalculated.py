"""The proof worked out again from its formulas by a spreadsheet program: every figure, to the last decimal.

The values kept beside the formulas are taken out first, so that nothing can be shown but what was worked out.
"""

import re
import zipfile
from datetime import date
from pathlib import Path

import pytest
from support.demo import job_folders, workbook_of
from support.proof_jobs import case_blocks, random_schedules
from support.proofs import lines_of, recalculated, unequal, verdict_of

from appraise.jobs.examine import examine
from appraise.jobs.proof import write_job_proof
from appraise.model.operations import OPERATIONS
from appraise.proof.book import Block, write_proof

pytestmark = pytest.mark.office
TODAY = date(2025, 5, 5)
SCHEDULES, SEED = 200, 20_260_101
COMES_OUT = "Every figure comes out."


def written(folder: Path, name: str, items: list[Block], whole: list[Block]) -> Path:
    path = folder / f"{name}.xlsx"
    with path.open("wb") as stream:
        write_proof(stream, name, items, whole, lambda place: f"{place.sheet}, {place.row}")
    return path


def test_every_figure_of_demonstrations_cases_and_random_schedules(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = []
    for folder in job_folders():
        paths.append(tmp_path / f"{folder.name}.xlsx")
        with paths[-1].open("wb") as stream:
            write_job_proof(stream, examine(workbook_of(folder), today=TODAY))
    drawn = list(random_schedules(SCHEDULES, SEED))
    assert len(drawn) == SCHEDULES
    items = [block for own, _ in drawn for block in own]
    paths.append(written(tmp_path, "schedules", items, [whole for _, whole in drawn]))
    cases = case_blocks(monkeypatch)
    assert {block.name[:3] for block in cases} >= {f"V{number:02d}" for number in range(1, 13)}
    paths.append(written(tmp_path, "cases", cases, []))

    again = recalculated(paths, tmp_path / "office")

    for ours, worked in zip(paths, again, strict=True):
        assert unequal(ours, worked) == []
        assert verdict_of(worked) == COMES_OUT
    made = [block.figures for block in (*items, *(whole for _, whole in drawn), *cases)]
    expected = sum(
        figure.operation in OPERATIONS and figure.operation != "typed" for one in made for figure in one.values()
    )
    assert sum(line.compared for path in paths[-2:] for line in lines_of(path)) == expected > 40_000


def first_sum(path: Path) -> str:
    """Return the id of a figure on the sheet Values whose line is live."""
    return next(line.id for line in lines_of(path) if line.sheet == "Values" and line.compared)


def edited(path: Path, sheet: str, pattern: str, by: str) -> Path:
    """Return a copy with the first match on a sheet replaced."""
    target = path.with_name(f"edited-{path.name}")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(target, "w") as copy:
        for name in source.namelist():
            content = source.read(name).decode("utf-8", "surrogateescape")
            if name == sheet:
                content, count = re.subn(pattern, by, content, count=1)
                assert count == 1
            copy.writestr(name, content.encode("utf-8", "surrogateescape"))
    return target


@pytest.fixture(scope="module")
def claim(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("claim") / "claim.xlsx"
    (folder,) = [one for one in job_folders() if one.name == "claim"]
    with path.open("wb") as stream:
        write_job_proof(stream, examine(workbook_of(folder), today=TODAY))
    return path


#: Part of the package that holds a sheet: the summary first, then the stages in order.
VALUES = "xl/worksheets/sheet8.xml"
INPUTS = "xl/worksheets/sheet2.xml"


def test_a_wrong_value_kept_beside_a_formula_is_caught(claim: Path, tmp_path: Path) -> None:
    wrong = edited(claim, VALUES, r"(<f>[^<]*</f>)<v>[^<]*</v>", r"\1<v>1.23</v>")
    (again,) = recalculated([wrong], tmp_path)
    (found,) = unequal(wrong, again)
    assert found.startswith("Values W01") and ": 1.23 " in found


def test_a_wrong_figure_of_ours_is_caught_by_the_workbook_itself(claim: Path, tmp_path: Path) -> None:
    wrong = edited(claim, VALUES, r"(<c r=\"D\d+\" [^>]*><v>)[^<]*", r"\g<1>1.23")
    (again,) = recalculated([wrong], tmp_path)
    assert len(unequal(wrong, again)) == 1
    assert verdict_of(again).startswith("Not every figure comes out")


def test_a_changed_input_moves_what_rests_on_it(claim: Path, tmp_path: Path) -> None:
    price = next(line for line in lines_of(claim) if line.sheet == "Inputs" and line.id.endswith(".price"))
    changed = edited(claim, INPUTS, rf'(<c r="C{price.row}" [^>]*><v>)[^<]*', rf"\g<1>{price.live + 100}")
    (again,) = recalculated([changed], tmp_path)
    moved = {line.id for line in lines_of(again) if line.compared and line.difference != 0}
    assert "W01.fmv.mean" in moved
    assert "W01.window.first" not in moved
    assert verdict_of(again).startswith("Not every figure comes out")
