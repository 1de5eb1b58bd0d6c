"""The reports of the finished demonstration jobs, as a reader gets them: the PDF read back, every file searched."""

import getpass
import io
import os
import re
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import docx
import pytest
from PIL import Image
from support.demo import REPOSITORY

from appraise.jobs.report import write_report
from appraise.jobs.report_inputs import report_inputs
from appraise.model.figure import Figure
from appraise.report.compose.printing import Form
from appraise.report.compose.report import printer_for

TODAY = date(2025, 3, 1)
DEMO = REPOSITORY / "workbooks_demo"
JOBS = ("claim", "donation", "estate", "insurance", "yearly")
#: Pages a report may have for each item and type of value, and for all that stands once.
PAGES_FOR_A_VALUE, PAGES_ONCE = 9, 45


@dataclass(frozen=True)
class Printed:
    """One report: its folder, its headings of the first level, its totals as printed, the PDF's pages as text."""

    folder: Path
    headings: list[str]
    totals: list[str]
    opinions: int
    pages: list[str]


@pytest.fixture(scope="module", params=JOBS)
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    if shutil.which("soffice") is None or shutil.which("pdftotext") is None:
        pytest.skip("LibreOffice or poppler is not installed")
    out = tmp_path_factory.mktemp(request.param)
    path = DEMO / request.param / f"{request.param}.xlsx"
    done = write_report(path, out, draft=False, overwrite=False, today=TODAY, pdf=True)
    word = next(one.path for one in done.written if one.what == "Report")
    pdf = next(one.path for one in done.written if one.what == "PDF")
    job, printer = done.examined.job, printer_for(done.examined.job)
    totals = [one.total for one in report_inputs(done.examined, {}, draft=False).totals]
    return Printed(
        out,
        [one.text for one in docx.Document(str(word)).paragraphs if one.style.name in ("Heading 1", "Heading Front")],
        [printer.printed(one, Form.WHOLE) for one in totals if isinstance(one, Figure)],
        len(job.items) * max(len(job.value_terms), 1),
        _pages(pdf),
    )


def _pages(pdf: Path) -> list[str]:
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, check=True).stdout.decode()
    return text.split("\f")[:-1]


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.office
def test_every_heading_and_every_total_is_read_back(printed: Printed) -> None:
    whole = words("\n".join(printed.pages))
    assert len(printed.headings) >= 12
    assert [one for one in printed.headings if words(one) not in whole] == []
    assert printed.totals
    assert [one for one in printed.totals if words(one) not in whole] == []


@pytest.mark.office
def test_the_contents_list_names_the_page_each_heading_stands_on(printed: Printed) -> None:
    listed = {}
    for page in printed.pages[:8]:
        for line in page.splitlines():
            found = re.fullmatch(r"\s*(?:\d+\s+)?(\S.*?)\s*\.{4,}\s*(\d+)\s*", line)
            if found:
                listed.setdefault(words(found[1]), int(found[2]))
    named = [one for one in printed.headings if words(one) in listed]
    assert len(named) >= 10
    wrong = [one for one in named if words(one) not in words(printed.pages[listed[words(one)] - 1])]
    assert wrong == []


@pytest.mark.office
def test_the_number_of_pages_is_on_every_page_and_in_proportion(printed: Printed) -> None:
    count = len(printed.pages)
    assert count <= PAGES_ONCE + PAGES_FOR_A_VALUE * printed.opinions
    numbered = [page for number, page in enumerate(printed.pages, 1) if f"Page {number} of {count}" in words(page)]
    assert len(numbered) >= count - 1  # the cover has no number


def _inside(file: Path) -> Iterator[tuple[str, bytes]]:
    """Yield the file's own bytes, and of a zip the name and bytes of each part."""
    content = file.read_bytes()
    yield file.name, content
    if zipfile.is_zipfile(io.BytesIO(content)):
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            for name in package.namelist():
                yield name, package.read(name)


@pytest.mark.office
def test_no_file_tells_of_this_machine(printed: Printed) -> None:
    telling = [str(REPOSITORY), str(printed.folder), str(Path.home()), "/tmp/", "file://", "python-docx"]
    # A very short name of a user stands in ordinary words.
    telling += [name for name in (getpass.getuser(),) if len(name) > 5]
    found = [
        (name, one)
        for file in printed.folder.glob("*.*")
        for name, content in _inside(file)
        for one in telling
        if one.encode() in content
    ]
    assert found == []


@pytest.mark.office
def test_pictures_say_nothing_of_where_and_when_they_were_taken(printed: Printed) -> None:
    word = next(printed.folder.glob("*-report.docx"))
    pictures = [(name, content) for name, content in _inside(word) if name.startswith("word/media/")]
    assert pictures
    for name, content in pictures:
        with Image.open(io.BytesIO(content)) as picture:
            assert not picture.getexif(), name
            assert not {"exif", "comment", "icc_profile", "xmp", "photoshop"} & set(picture.info), name


@pytest.mark.office
def test_author_and_days_are_those_of_the_report(printed: Printed) -> None:
    properties = docx.Document(str(next(printed.folder.glob("*-report.docx")))).core_properties
    assert properties.author == "Maud Tarrow"
    assert properties.last_modified_by == "Maud Tarrow"
    assert properties.created == properties.modified
    assert properties.created.year == 2025


@pytest.mark.parametrize("job", ["claim", "yearly"])
def test_the_same_input_gives_the_same_bytes_whatever_the_machine(job: str, tmp_path: Path) -> None:
    written = []
    for number, (seed, zone, locale) in enumerate((("1", "Pacific/Auckland", "C"), ("7", "America/Denver", "C.UTF-8"))):
        folder = tmp_path / f"somewhere{number}" / job
        shutil.copytree(DEMO / job, folder)
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": locale}
        command = [sys.executable, "-m", "appraise", "report", f"{job}.xlsx", "--out", "../out"]
        environment["PYTHONPATH"] = os.pathsep.join([str(REPOSITORY), environment.get("PYTHONPATH", "")])
        ran = subprocess.run(command, env=environment, cwd=folder, capture_output=True, text=True, check=False)
        assert ran.returncode == 0, ran.stdout + ran.stderr
        out = folder.parent / "out"
        written.append({one.name: one.read_bytes() for one in out.iterdir() if one.suffix in (".docx", ".xlsx")})
    assert {f"{job}-report.docx", f"{job}-schedule.xlsx"} <= set(written[0])
    assert [name for name in written[0] if written[0][name] != written[1][name]] == []
