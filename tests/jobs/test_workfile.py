"""The workfile of a job: what it holds, that it can be worked out again, what is said where it cannot."""

import json
import random
import shutil
import zipfile
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.demo import job_folders, workbook_of

from appraise.cli import appraise
from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.examine import Examined, examine
from appraise.jobs.workfile import Packed, pack_workfile, verify_workfile
from appraise.jobs.workfile_parts import retention, versions
from appraise.model.missing import BLANK
from appraise.records.assignment import ASSIGNMENT
from appraise.workfile.opened import open_workfile
from appraise.workfile.pack import MANIFEST, Entry, write_workfile
from appraise.workfile.seal import sealed_as_written

TODAY = date(2025, 5, 5)
FOLDERS = {folder.name: folder for folder in job_folders()}


def pack(name: str, out: Path, **options: bool) -> Packed:
    workbook = workbook_of(FOLDERS[name])
    return pack_workfile(workbook, out, draft=True, overwrite=False, today=TODAY, **options)


@pytest.fixture(scope="module")
def claim(tmp_path_factory: pytest.TempPathFactory) -> Path:
    written = pack("claim", tmp_path_factory.mktemp("claim")).written
    assert written is not None
    return written


def names_in(path: Path) -> set[str]:
    with zipfile.ZipFile(path) as package:
        return set(package.namelist())


def changed(path: Path, target: Path, replaced: dict[str, bytes]) -> Path:
    """Return a workfile packed anew with other content, sealed and listed as it should be."""
    manifest = open_workfile(path).manifest
    facts = {key: value for key, value in manifest.items() if key not in ("format", "files", "content_digest")}
    with zipfile.ZipFile(path) as package:
        contents = {name: package.read(name) for name in package.namelist() if name != MANIFEST} | replaced
    with target.open("w+b") as stream:
        write_workfile(stream, [Entry(name, content) for name, content in contents.items()], facts)
    return target


@pytest.mark.parametrize("name", sorted(FOLDERS))
def test_every_demonstration_is_worked_out_again_as_it_was(name: str, tmp_path: Path) -> None:
    done = pack(name, tmp_path)
    assert done.written is not None
    checked = verify_workfile(done.written)
    assert checked.faults == ()
    assert checked.figures > 100
    assert checked.opened.manifest["content_digest"] == done.digest
    assert any(done.digest in line for line in checked.lines())


def test_it_holds_all_that_the_report_rests_on(claim: Path) -> None:
    names = names_in(claim)
    given = {f"inputs/{file.relative_to(FOLDERS['claim']).as_posix()}" for file in FOLDERS["claim"].rglob("*.jpg")}
    assert given
    assert names >= given
    assert names >= {
        "README.txt",
        "inputs/claim.xlsx",
        "report/claim-draft.docx",
        "report/claim-proof.xlsx",
        "templates/house.docx",
        "templates/sections/cover.docx",
        "findings.json",
        "figures.txt",
        "settings.json",
        "rules.json",
        "versions.json",
        "retention.json",
        "manifest.json",
    }


def test_saved_pages_and_records_of_earlier_years_are_packed(tmp_path: Path) -> None:
    done = pack("yearly", tmp_path)
    assert done.written is not None
    names = names_in(done.written)
    assert any(name.startswith("inputs/records/") for name in names)
    assert any(name.startswith("inputs/pages/") for name in names)


def test_rules_settings_and_versions_are_told_with_their_sources(claim: Path) -> None:
    with zipfile.ZipFile(claim) as package:
        rules, settings = (json.loads(package.read(name)) for name in ("rules.json", "settings.json"))
    assert all(one["source"] for one in (*rules["elements"], *rules["definitions"], *rules["retention"]))
    assert settings["typed"]["Assignment"][ASSIGNMENT.column("currency").heading] == "USD"
    assert {"openpyxl", "lxml"} <= set(versions()["packages"])


def test_the_same_job_gives_the_same_bytes_whatever_the_day(claim: Path, tmp_path: Path) -> None:
    workbook = workbook_of(FOLDERS["claim"])
    again = pack_workfile(workbook, tmp_path, draft=True, overwrite=False, today=date(2031, 1, 1)).written
    assert again is not None
    assert again.read_bytes() == claim.read_bytes()


def test_a_changed_byte_anywhere_is_noticed(claim: Path, tmp_path: Path) -> None:
    content = claim.read_bytes()
    draw = random.Random(8)
    path = tmp_path / "flipped.zip"
    positions = [0, 1, len(content) - 1, len(content) - 70, *(draw.randrange(len(content)) for _ in range(60))]
    for number, position in enumerate(positions):
        flipped = bytearray(content)
        flipped[position] ^= 1 << draw.randrange(8)
        path.write_bytes(flipped)
        assert not sealed_as_written(path), position
        if number % 8 == 0:
            assert verify_workfile(path).faults, position


def test_the_first_figure_that_differs_is_named(claim: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(claim) as package:
        figures = package.read("figures.txt").decode()
    line = next(one for one in figures.splitlines() if one.startswith("W01.fmv.mean\t"))
    other = figures.replace(line, "W01.fmv.mean\t1.00")
    checked = verify_workfile(changed(claim, tmp_path / "w.zip", {"figures.txt": other.encode()}))
    mean = line.split("\t")[1]
    assert checked.faults[0] == f"W01.fmv.mean was 1.00, worked out again it is {mean}."
    assert checked.faults[1].startswith("1 of ")


def test_figures_left_out_are_named(claim: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(claim) as package:
        lines = package.read("figures.txt").decode().splitlines(keepends=True)
    checked = verify_workfile(changed(claim, tmp_path / "w.zip", {"figures.txt": "".join(lines[:-1]).encode()}))
    last = lines[-1].split("\t")[0]
    assert checked.faults[0] == f"Where nothing more stood, working out again gives {last}."


def test_a_job_put_in_place_of_the_packed_one_is_noticed(claim: Path, tmp_path: Path) -> None:
    other = workbook_of(FOLDERS["donation"]).read_bytes()
    checked = verify_workfile(changed(claim, tmp_path / "w.zip", {"inputs/claim.xlsx": other}))
    assert checked.faults
    assert "D01" in checked.faults[0]


def test_a_workfile_without_its_job_cannot_be_checked(claim: Path, tmp_path: Path) -> None:
    path = tmp_path / "w.zip"
    with path.open("w+b") as stream:
        facts = {"job": "inputs/lost.xlsx", "computed_on": "2025-05-05", "program": ""}
        write_workfile(stream, [Entry("figures.txt", b"")], facts)
    with pytest.raises(UnusableFile) as raised:
        verify_workfile(path)
    assert raised.value.code is Trouble.DAMAGED


def test_a_report_edited_since_is_packed_as_it_was_issued(tmp_path: Path) -> None:
    (tmp_path / "claim-report.docx").write_bytes(b"as signed")
    (tmp_path / "claim-2026.xlsx").write_bytes(b"next year's workbook")
    done = pack("claim", tmp_path)
    assert done.written is not None
    issued = {name for name in names_in(done.written) if name.startswith("issued/")}
    assert issued == {"issued/claim-report.docx"}


def test_open_stops_keep_it_from_being_written(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    shutil.copytree(FOLDERS["claim"], folder)
    for photo in (folder / "photos").iterdir():
        photo.unlink()
    done = pack_workfile(folder / "claim.xlsx", tmp_path / "out", draft=False, overwrite=False, today=TODAY)
    assert done.open_stops
    assert done.written is None
    assert list(done.lines())[-1].startswith("No workfile written.")
    assert not (tmp_path / "out" / "claim-workfile.zip").exists()


def with_case(examined: Examined, **values: object) -> Examined:
    """Return the job with facts about its court case and its day."""
    from dataclasses import replace

    days = {key: values.pop(key) for key in ("report_date", "signed_on") if key in values}
    job = replace(
        examined.job,
        assignment=replace(examined.job.assignment, **days),
        court_case=replace(examined.job.court_case, **values),
    )
    return replace(examined, read=replace(examined.read, job=job))


@pytest.mark.parametrize(
    ("facts", "day"),
    [
        # USPAP Record Keeping Rule: five years after preparation, or two after final disposition, the later.
        ({"report_date": date(2026, 3, 10), "signed_on": BLANK}, "2031-03-10"),
        ({"report_date": date(2024, 2, 29), "signed_on": BLANK}, "2029-03-01"),
        ({"signed_on": date(2026, 3, 10), "testimony_expected": True, "ended_on": date(2031, 6, 30)}, "2033-06-30"),
        ({"signed_on": date(2026, 3, 10), "testimony_expected": True, "ended_on": date(2027, 6, 30)}, "2031-03-10"),
        ({"signed_on": date(2026, 3, 10), "testimony_expected": True, "ended_on": BLANK}, None),
        ({"signed_on": date(2026, 3, 10), "testimony_expected": False, "ended_on": date(2031, 6, 30)}, "2031-03-10"),
        ({"signed_on": BLANK, "report_date": BLANK}, None),
    ],
)
def test_until_when_it_is_kept(facts: dict[str, object], day: str | None) -> None:
    kept = retention(with_case(examine(workbook_of(FOLDERS["claim"]), today=TODAY), **facts))
    assert kept["keep_until"] == day
    assert any("Local rules" in note for note in kept["notes"])
    if facts.get("testimony_expected") and day is None:
        assert "hold the file" in kept["because"]


def test_the_command_packs_checks_and_tells_by_its_exit_code(tmp_path: Path) -> None:
    def run(*words: object) -> tuple[object, str]:
        ran = CliRunner().invoke(appraise, ["workfile", *map(str, words)], standalone_mode=False)
        return ran.exception or ran.return_value, ran.output

    outcome, said = run(workbook_of(FOLDERS["donation"]), "--out", tmp_path)
    assert outcome == 0
    path = tmp_path / "donation-workfile.zip"
    assert said.splitlines()[0] == f"Workfile: {path}"
    assert run("--verify", path)[0] == 0
    content = bytearray(path.read_bytes())
    content[1000] ^= 4
    path.write_bytes(content)
    outcome, said = run("--verify", path)
    assert outcome == 1
    assert said.startswith("The seal is broken")
    assert isinstance(run("--verify", tmp_path / "lost.zip")[0], UnusableFile)
