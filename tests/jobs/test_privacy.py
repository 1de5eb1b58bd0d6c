"""No output says where, by whom or on which machine it was made, and nothing ever goes out to a network."""

import ast
import shutil
import zipfile
from datetime import date
from pathlib import Path

import pytest
from PIL import Image
from support.demo import REPOSITORY, job_folders, workbook_of
from support.traces import parts_of, traces

from appraise.jobs.check import check_job
from appraise.jobs.report import write_report
from appraise.jobs.revalue import revalue_job
from appraise.jobs.workfile import pack_workfile
from appraise.workbook.reading.read import read_job

TODAY = date(2025, 5, 5)
USER, FOLDER, HOST, CAMERA, AUTHOR = (
    "ozwald.private",
    "Locked Cabinet",
    "cellar-machine",
    "Ennerby Optik 9",
    "T. Writer",
)
WORDS = (USER, FOLDER, HOST, CAMERA, AUTHOR, str(REPOSITORY), "/tmp/", "/home/")
#: Position: 47 degrees 12 minutes 34 seconds, as Exif 3.0, 4.6.7 writes it.
LATITUDE = (47.0, 12.0, 34.0)


def signed_templates(folder: Path) -> Path:
    """Copy the house document and a section as somebody saved them: with their name and the path of their template."""
    core = (
        '<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" '
        f'xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:creator>{AUTHOR}</dc:creator>'
        f"<cp:lastModifiedBy>{AUTHOR}</cp:lastModifiedBy></cp:coreProperties>"
    )
    app = (
        '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
        f"<Template>C:/Users/{USER}/Normal.dotm</Template><Company>{FOLDER}</Company></Properties>"
    )
    (folder / "sections").mkdir(parents=True)
    for name in ("house.docx", "sections/cover.docx"):
        with zipfile.ZipFile(REPOSITORY / "templates" / name) as shipped, zipfile.ZipFile(folder / name, "w") as made:
            for part in shipped.namelist():
                if not part.startswith("docProps/"):
                    made.writestr(part, shipped.read(part))
            made.writestr("docProps/core.xml", core)
            made.writestr("docProps/app.xml", app)
    return folder


def with_position(file: Path) -> None:
    """Save a photograph again as a camera would: with its place, its owner and its maker."""
    exif = Image.Exif()
    exif[0x010F], exif[0x013B] = CAMERA, USER
    position = exif.get_ifd(0x8825)
    position[1], position[2] = "N", LATITUDE
    with Image.open(file) as picture:
        picture.convert("RGB").save(file, "JPEG", exif=exif, comment=USER.encode())


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> Path:
    for name in ("USER", "LOGNAME", "USERNAME"):
        monkeypatch.setenv(name, USER)
    monkeypatch.setenv("HOSTNAME", HOST)
    monkeypatch.setenv("HOME", str(tmp_path / USER))
    source = workbook_of(next(one for one in job_folders() if one.name == request.param))
    home = tmp_path / USER / FOLDER
    shutil.copytree(source.parent, home)
    for photo in read_job(home / source.name).job.photos[:3]:
        with_position(home / str(photo.file))
    return home / source.name


@pytest.mark.parametrize("job", [one.name for one in job_folders()], indirect=True)
def test_outputs_of_the_demonstrations_say_nothing_of_person_place_or_machine(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "outputs"
    out.mkdir()
    checked = check_job(job, today=TODAY)
    (out / "findings.json").write_text(checked.as_json(), "utf-8")
    (out / "findings.txt").write_text("\n".join(checked.lines()), "utf-8")
    checked.write_findings(job.parent / "findings.xlsx", overwrite=False)
    shutil.move(job.parent / "findings.xlsx", out)
    checked.write_annotated(out / "annotated.xlsx", overwrite=False)
    look = signed_templates(tmp_path / "look")
    done = write_report(job, out / "report", draft=True, overwrite=False, today=TODAY, template=look)
    assert done.written
    revalue_job(job, date(2026, 6, 30), out / "next", overwrite=False, today=TODAY)
    pack_workfile(job, out / "workfile", draft=True, overwrite=False, today=TODAY, progress=None, template=look)
    mine = [file.read_bytes() for folder in (job.parent, look) for file in folder.rglob("*") if file.is_file()]
    mine += [part for content in mine for _, part in parts_of("", content)]
    people = {str(one.name) for one in checked.examined.job.people}
    found = traces(out, WORDS, but_for=mine)
    # The report is the appraiser's: it is signed by the name the workbook gives.
    found = [one for one in found if not any(f"written by {name.encode()!r}" in one for name in people)]
    assert not found, "\n".join(found)


def test_the_search_finds_what_it_looks_for(tmp_path: Path) -> None:
    look = signed_templates(tmp_path / "look")
    Image.new("RGB", (40, 30)).save(tmp_path / "look" / "a.jpg")
    assert [one for one in traces(look, ()) if one.startswith("a.jpg")] == []
    with_position(tmp_path / "look" / "a.jpg")
    found = traces(look, WORDS)
    assert any("written by" in one for one in found)
    assert any(USER in one and one.startswith("house.docx/docProps/app.xml") for one in found)
    assert any(one.startswith("a.jpg: a picture") for one in found)


#: Modules by which a program reaches a network.
_REACHING_OUT = frozenset(
    ("socket", "ssl", "http", "urllib", "ftplib", "smtplib", "poplib", "imaplib", "telnetlib", "xmlrpc", "socketserver",
     "asyncio", "webbrowser", "requests", "httpx", "aiohttp", "urllib3")
)  # fmt: skip


def test_nothing_of_ours_can_reach_a_network() -> None:
    """Beside this, every run of `tests/hostile` and every test ends at the first attempt to connect."""
    found = []
    for file in sorted((REPOSITORY / "appraise").rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            names = [one.name for one in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) and not node.level else []
            found += [f"{file.name}: {name}" for name in names if name.partition(".")[0] in _REACHING_OUT]
    assert found == []


def test_a_test_that_connects_fails() -> None:
    import socket

    with socket.socket() as plug, pytest.raises(RuntimeError, match="network"):
        plug.connect(("192.0.2.1", 80))
    with pytest.raises(RuntimeError, match="network"):
        socket.getaddrinfo("invented.example", 80)
