"""Names in the workbook: only files of its folder are used."""

from pathlib import Path

import pytest

from appraise.files.hashes import sha256_hex
from appraise.findings.entries import message
from appraise.photos.faults import Fault
from appraise.photos.files import locate, photo_facts
from appraise.records.declare import filled
from appraise.records.items import Photo

FRONT = b"\xff\xd8\xff\xe0 and so on"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    folder = tmp_path / "job"
    (folder / "photos").mkdir(parents=True)
    (folder / "photos" / "front.jpg").write_bytes(FRONT)
    (tmp_path / "secret.jpg").write_bytes(b"secret")
    return folder


def test_found_with_either_slash(job: Path) -> None:
    expected = (job / "photos" / "front.jpg").resolve()
    assert locate(job, "photos/front.jpg") == expected
    assert locate(job, "photos\\front.jpg") == expected


@pytest.mark.parametrize(
    "name",
    ["../secret.jpg", "photos/../../secret.jpg", "/etc/hostname", "C:\\secret.jpg", "\\\\host\\x.jpg", "", "a\0b"],
)
def test_names_that_lead_out_are_refused(name: str, job: Path) -> None:
    assert locate(job, name) == Fault("PIC-02")


def test_links_that_lead_out_are_refused_and_links_inside_are_followed(job: Path) -> None:
    (job / "out.jpg").symlink_to(job.parent / "secret.jpg")
    (job / "folder").symlink_to(job.parent)
    (job / "inside.jpg").symlink_to(job / "photos" / "front.jpg")
    (job / "loop.jpg").symlink_to(job / "loop.jpg")
    assert locate(job, "out.jpg") == Fault("PIC-02")
    assert locate(job, "folder/secret.jpg") == Fault("PIC-02")
    assert locate(job, "inside.jpg") == (job / "photos" / "front.jpg").resolve()
    assert locate(job, "loop.jpg") == Fault("PIC-01")


def test_a_folder_is_not_a_file(job: Path) -> None:
    assert locate(job, "photos") == Fault("PIC-01")
    assert locate(job, "photos/back.jpg") == Fault("PIC-01")


def test_facts_for_the_checks_and_findings_for_what_may_not_be_used(job: Path) -> None:
    rows = [
        filled(Photo, row=5, item="G01", file="photos/front.jpg"),
        filled(Photo, row=6, item="G01", file="photos/back.jpg"),
        filled(Photo, row=7, item="G02", file="../secret.jpg"),
        filled(Photo, row=8, item="G02"),
    ]
    facts, findings = photo_facts(job, rows)
    assert facts["photos/front.jpg"].sha256 == sha256_hex(FRONT)
    assert facts["photos/front.jpg"].size == len(FRONT)
    assert not facts["photos/back.jpg"].exists
    assert facts["../secret.jpg"].sha256 == ""
    assert [(one.code, one.place.row, one.subjects) for one in findings] == [("PIC-02", 7, ("G02",))]
    assert "../secret.jpg" in message(findings[0])


def test_a_format_word_cannot_carry_is_found_before_any_report_is_made(job: Path) -> None:
    (job / "a.heic").write_bytes(b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")
    (job / "b.jpg").write_text("a letter")
    rows = [filled(Photo, row=5, item="G01", file="a.heic"), filled(Photo, row=6, item="G01", file="b.jpg")]
    facts, findings = photo_facts(job, rows)
    assert all(fact.exists for fact in facts.values())
    assert [(one.code, one.place.row) for one in findings] == [("PIC-04", 5), ("PIC-03", 6)]
    assert "HEIC" in message(findings[0])
