"""The redacted copy: nothing of what is left out stands anywhere in the package, and everything else still does."""

import html
import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import docx
import pytest
from support.demo import REPOSITORY

from appraise.files.unusable import UnusableFile
from appraise.jobs.examine import examine
from appraise.jobs.report import write_report
from appraise.model.missing import given
from appraise.records.declare import filled
from appraise.records.items import Item
from appraise.records.job import Job
from appraise.records.vocabulary import PhotoKind
from appraise.report.redact import redaction
from appraise.wording.texts import texts

TODAY = date(2025, 3, 1)
DEMO = REPOSITORY / "workbooks_demo"
JOBS = ("estate", "insurance", "yearly", "donation", "claim")


@pytest.fixture(scope="module", params=JOBS)
def copy(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Job, Path]:
    """One redacted copy of each finished job of the demonstration, with the job as typed."""
    path = DEMO / request.param / f"{request.param}.xlsx"
    out = tmp_path_factory.mktemp(request.param)
    done = write_report(path, out, draft=True, overwrite=False, today=TODAY, redacted=True)
    return done.examined.job, done.written[0].path


def left_out(job: Job) -> Iterator[str]:
    """Yield what must not stand anywhere, straight from the workbook."""
    a = job.assignment
    for text in (a.client, a.owner, a.client_address, a.intended_users):
        yield str(text)
    for name in (a.client, a.owner):
        yield str(name).split(",")[0]
    yield from str(a.client_address).split(", ")
    for person in job.people:
        yield str(person.name)
        yield str(person.name).split()[-1]
        yield from (str(one) for one in (person.address, person.tax_number) if given(one))
    for item in job.items:
        if given(item.location):
            yield str(item.location)
        if given(item.serial) and len(str(item.serial)) > 3 and str(item.serial) != "none":
            yield str(item.serial)
        yield from (str(one) for one in (item.provenance, item.owner_statement) if given(one) and len(str(one)) > 12)


def said(path: Path) -> str:
    """Return all text and all attribute values of a package, spaces made one."""
    parts = []
    with zipfile.ZipFile(path) as package:
        for name in package.namelist():
            parts.append(name)
            if name.endswith((".xml", ".rels")):
                content = package.read(name).decode()
                parts += [re.sub(r"<[^>]*>", "\n", content), *re.findall(r'="([^"]*)"', content)]
    return " ".join(html.unescape("\n".join(parts)).split())


def test_nothing_of_what_is_left_out_stands_in_the_package(copy: tuple[Job, Path]) -> None:
    job, path = copy
    printed = said(path)
    texts_out = list(dict.fromkeys(left_out(job)))
    assert len(texts_out) > 6
    found = [one for one in texts_out if re.search(rf"(?<!\w){re.escape(' '.join(one.split()))}(?!\w)", printed)]
    assert found == []


def test_the_same_search_finds_them_in_the_full_report(tmp_path: Path) -> None:
    done = write_report(DEMO / "estate" / "estate.xlsx", tmp_path, draft=False, overwrite=False, today=TODAY)
    printed = said(done.written[0].path)
    there = [one for one in left_out(done.examined.job) if " ".join(one.split()) in printed]
    assert len(there) > 15


def test_the_cover_says_that_it_is_redacted(copy: tuple[Job, Path]) -> None:
    _job, path = copy
    first = [one.text for one in docx.Document(str(path)).paragraphs[:8]]
    assert "redacted" in first[0]
    assert any("left out or replaced" in one for one in first)


def test_the_file_is_not_named_after_the_workbook(copy: tuple[Job, Path]) -> None:
    _job, path = copy
    assert path.name == "redacted-draft.docx"
    assert {one.name for one in path.parent.iterdir()} == {path.name, "written.json", "prepared"}


def test_photographs_of_numbers_labels_and_papers_are_not_there(copy: tuple[Job, Path]) -> None:
    job, path = copy
    hidden = (PhotoKind.SERIAL, PhotoKind.LABEL, PhotoKind.DOCUMENT)
    shown = {one.file for one in job.photos if one.kind not in hidden}
    with zipfile.ZipFile(path) as package:
        pictures = [one for one in package.namelist() if "media" in one]
    assert any(one.kind in hidden for one in job.photos) or not job.photos
    assert len(pictures) <= len(shown)


def test_values_are_those_of_the_full_report(copy: tuple[Job, Path]) -> None:
    _job, path = copy
    full = write_report(
        DEMO / path.parent.name.rstrip("0123456789") / f"{path.parent.name.rstrip('0123456789')}.xlsx",
        path.parent / "full",
        draft=True,
        overwrite=False,
        today=TODAY,
    )
    amount = re.compile(r"\bUSD\s[\d,]+")
    assert set(amount.findall(said(path))) == set(amount.findall(said(full.written[0].path)))


def job_of(**typed: Any) -> Job:
    job = examine(DEMO / "estate" / "estate.xlsx", today=TODAY).job
    return replace(job, items=(filled(Item, id="G01", **typed),), people=())


@pytest.mark.parametrize(
    ("typed", "before", "after"),
    [
        ({"serial": "1936"}, "number 1936, in 1,936.00", "number [redacted], in 1,936.00"),
        ({"serial": "588"}, "label No. 588 on page 588", "label No. [redacted] on page 588"),
        ({"location": "House, Vell Harbor"}, "at vell  harbor", "at [redacted]"),
        ({"location": "House, Vell Harbor"}, "House of sale", "House of sale"),
        ({"location": "House, Vell Harbor"}, "kept: House, Vell Harbor", "kept: Location 1"),
        ({}, "the late Odran Quenby's", "the late [redacted]'s"),
        ({}, "QUENBY falls", "[redacted] falls"),
    ],
)
def test_what_is_searched_in_texts(typed: dict[str, str], before: str, after: str) -> None:
    assert redaction(job_of(**typed), texts("en")).text(before) == after


def test_a_name_in_an_own_template_keeps_the_copy_from_being_written(tmp_path: Path) -> None:
    (tmp_path / "sections").mkdir()
    document = docx.Document(str(REPOSITORY / "templates" / "sections" / "cover.docx"))
    document.paragraphs[0].text = "The Quenby papers"
    document.save(str(tmp_path / "sections" / "cover.docx"))
    with pytest.raises(UnusableFile, match="Quenby"):
        write_report(
            DEMO / "estate" / "estate.xlsx",
            tmp_path / "out",
            draft=False,
            overwrite=False,
            today=TODAY,
            redacted=True,
            template=tmp_path,
        )
    assert not list((tmp_path / "out").glob("*.docx"))
