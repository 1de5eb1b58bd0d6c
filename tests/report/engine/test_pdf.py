"""PDF through LibreOffice: page numbers in the contents list, tags, title, language; and what is said without it."""

import re
import shutil
import stat
import subprocess
from datetime import date
from pathlib import Path

import pytest
from support.report_samples import EDGES, PROPERTIES, SECTIONS, finder, item, report

from appraise.report.engine import pdf
from appraise.report.engine.pdf import MISSING, NoPdf, Pdf, make_pdf
from appraise.report.engine.render import render

DAY = date(2025, 3, 14)


def word_file(folder: Path) -> Path:
    file = folder / "report.docx"
    with file.open("wb") as target:
        render(
            target, SECTIONS, report(), [item(1), item(2)],
            templates=finder(folder), properties=PROPERTIES, edges=EDGES,
        )  # fmt: skip
    return file


def pretender(folder: Path, script: str) -> str:
    program = folder / "office"
    program.write_text(f"#!/bin/sh\n{script}\n")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return str(program)


@pytest.mark.office
@pytest.mark.skipif(pdf.find_office() is None or shutil.which("pdftotext") is None, reason="needs LibreOffice, poppler")
def test_tagged_titled_and_with_page_numbers_in_the_contents(tmp_path: Path) -> None:
    made = make_pdf(word_file(tmp_path), created=DAY)
    assert isinstance(made, Pdf)
    file = tmp_path / "report.pdf"
    file.write_bytes(made.content)
    facts = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
    lines = dict(line.split(":", 1) for line in facts.splitlines() if ":" in line)
    assert lines["Title"].strip() == "Appraisal of musical instruments"
    assert lines["Tagged"].strip() == "yes"
    assert int(lines["Pages"]) == made.pages > 5
    assert "2025" in lines["CreationDate"]
    assert b"/Lang(en-US)" in made.content.replace(b" ", b"")
    text = subprocess.run(["pdftotext", "-layout", file, "-"], capture_output=True, text=True, check=True).stdout
    pages = text.split("\f")
    listed = [line for line in pages[1].splitlines() if "...." in line]
    assert len(listed) >= 8
    for line in listed:
        heading, page = line.strip("\n").split("...")[0].strip(), int(line.rsplit(".", 1)[1])
        words = heading.split(" ", 1)[1] if heading[0].isdigit() else heading
        assert words in pages[page - 1], (heading, page)
    assert "Page 2 of" in pages[1]
    assert "294,435.00" in text


@pytest.mark.office
@pytest.mark.skipif(pdf.find_office() is None, reason="needs LibreOffice")
def test_a_broken_word_file_gives_a_sentence(tmp_path: Path) -> None:
    file = tmp_path / "broken.docx"
    file.write_bytes(b"no zip")
    made = make_pdf(file, created=DAY, seconds=120)
    assert isinstance(made, NoPdf)
    assert "save it as PDF" in made.because


def test_a_clear_sentence_where_libreoffice_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "PROGRAMS", ("no-such-program-anywhere",))
    monkeypatch.setattr(pdf, "_PLACES", ())
    assert make_pdf(tmp_path / "none.docx", created=DAY) == NoPdf(MISSING)


@pytest.mark.skipif(not shutil.which("sh"), reason="needs a shell")
def test_an_office_that_hangs_is_stopped(tmp_path: Path) -> None:
    file = tmp_path / "a.docx"
    file.write_bytes(b"x")
    made = make_pdf(file, created=DAY, seconds=1, office=pretender(tmp_path, "sleep 600"))
    assert isinstance(made, NoPdf)
    assert "within 1 seconds" in made.because


@pytest.mark.skipif(not shutil.which("sh"), reason="needs a shell")
def test_an_office_that_claims_success_is_not_believed(tmp_path: Path) -> None:
    file = tmp_path / "a.docx"
    file.write_bytes(b"x")
    assert isinstance(make_pdf(file, created=DAY, office=pretender(tmp_path, "exit 0")), NoPdf)


def test_day_and_marks_of_a_pdf_come_from_the_report_and_its_content() -> None:
    def raw(day: bytes, mark: bytes) -> bytes:
        return b"%PDF /CreationDate(D:" + day + b"Z')>> /ID [ <" + mark + b">\n<" + mark + b"> ] /DocChecksum /" + mark

    one = pdf._dated(raw(b"20990101120000", b"A" * 32), DAY)
    other = pdf._dated(raw(b"20980101120000", b"B" * 32), DAY)
    assert one == other
    assert b"D:20250314000000Z" in one
    assert len(one) == len(raw(b"20990101120000", b"A" * 32))


def test_more_charts_are_kept_open_than_the_twenty_of_the_office_program(tmp_path: Path) -> None:
    """With its own setting LibreOffice 7.4 draws all charts but the last twenty from pictures, stretched."""
    pdf._write_profile(tmp_path / "profile", tmp_path / "a.docx", tmp_path / "a.pdf", tmp_path / "a.txt")
    settings = (tmp_path / "profile" / "user" / "registrymodifications.xcu").read_text("utf-8")
    found = re.search(r'Cache/Writer"><prop oor:name="OLE_Objects" oor:op="fuse"><value>(\d+)</value>', settings)
    assert found and int(found[1]) >= 200
