"""What `report` does besides the Word file: PDF, own templates, photographs that fail, files held open elsewhere."""

import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from support.workbooks import changed, workbook

from appraise.files.unusable import Trouble, UnusableFile
from appraise.jobs.report import Reported, write_report
from appraise.report.engine import pdf
from appraise.workbook.reading.read import read_job

TODAY = date(2025, 3, 1)
TEMPLATES = Path(__file__).parents[2] / "templates"


def job(folder: Path, **changes: Any) -> Path:
    """Return a sound job with a picture for every photograph."""
    path = workbook(folder, **changes)
    for number, photo in enumerate(read_job(path).job.photos):
        file = path.parent / str(photo.file)
        file.parent.mkdir(exist_ok=True)
        if not file.exists():
            Image.new("RGB", (40, 60), (7 * number % 256, 90, 120)).save(file)
    return path


def reported(path: Path, **options: Any) -> Reported:
    return write_report(path, None, **{"draft": False, "overwrite": False, "today": TODAY, **options})


def own_cover(folder: Path, text: str) -> Path:
    """Return a folder of templates whose cover prints `text` in its first paragraph."""
    import docx

    (folder / "sections").mkdir(parents=True)
    document = docx.Document(str(TEMPLATES / "sections" / "cover.docx"))
    document.paragraphs[0].text = text
    document.save(str(folder / "sections" / "cover.docx"))
    return folder


def first_lines(path: Path) -> list[str]:
    import docx

    return [one.text for one in docx.Document(str(path)).paragraphs[:3]]


def test_own_templates_are_used(tmp_path: Path) -> None:
    look = own_cover(tmp_path / "look", "House of {{ r.cover.title }}")
    done = reported(job(tmp_path), template=look)
    assert any(line.startswith("House of ") for line in first_lines(done.written[0].path))


def test_the_folder_named_in_the_workbook_is_used(tmp_path: Path) -> None:
    own_cover(tmp_path / "look", "Named in the workbook")
    done = reported(job(tmp_path, assignment={"template_folder": "look"}))
    assert "Named in the workbook" in first_lines(done.written[0].path)


def test_a_wrong_name_is_reported_with_its_place_and_nothing_is_written(tmp_path: Path) -> None:
    look = own_cover(tmp_path / "look", "{{ r.cover.titel }}")
    for draft in (False, True):
        done = reported(job(tmp_path), template=look, draft=draft)
        lines = list(done.lines())
        assert done.open_stops == 1
        assert lines[0].startswith("sections/cover.docx, paragraph 1  stop  TPL-09")
        assert "r.cover.title" in lines[1]
        assert lines[-1].startswith("No report written.")
        assert not (tmp_path / "job").exists()


def test_a_template_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(UnusableFile, match="no folder") as refused:
        reported(job(tmp_path), template=tmp_path / "look")
    assert refused.value.code is Trouble.MISSING


@pytest.mark.parametrize("name", ["../look", "/etc", "\\\\host\\share", "C:\\look", "a/../../look"])
def test_a_workbook_names_no_templates_outside_its_folder(tmp_path: Path, name: str) -> None:
    with pytest.raises(UnusableFile, match="--template") as refused:
        reported(job(tmp_path, assignment={"template_folder": name}))
    assert refused.value.code is Trouble.UNSAFE


def test_a_photograph_of_which_no_copy_can_be_made_is_a_stop(tmp_path: Path) -> None:
    path = job(tmp_path)
    photo = read_job(path).job.photos[0]
    file = tmp_path / str(photo.file)
    Image.effect_noise((300, 300), 80).convert("RGB").save(file, "PNG")
    file.write_bytes(file.read_bytes()[:3000])
    done = reported(path)
    assert done.written == ()
    assert any(f"{photo.file}" in line and "PIC-03" in line for line in done.lines())
    draft = reported(path, draft=True)
    assert draft.open_stops == 1
    assert [one.what for one in draft.written] == ["Draft", "Proof"]


def test_a_file_that_is_not_there_keeps_its_own_finding_only(tmp_path: Path) -> None:
    path = job(tmp_path)
    (tmp_path / str(read_job(path).job.photos[0].file)).unlink()
    codes = [one.finding.code for one in reported(path, draft=True).examined.judged]
    assert codes.count("PHO-05") == 1
    assert "PIC-01" not in codes


def test_without_libreoffice_a_sentence_and_the_exit_code_of_the_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pdf, "find_office", lambda: None)
    done = reported(job(tmp_path), pdf=True)
    assert done.open_stops == 0
    assert pdf.MISSING in list(done.lines())
    assert sorted(one.name for one in (tmp_path / "job").glob("*.*")) == [
        "job-proof.xlsx",
        "job-record.json",
        "job-report.docx",
        "written.json",
    ]


@pytest.mark.office
def test_the_pdf_lies_beside_the_report(tmp_path: Path) -> None:
    if shutil.which("soffice") is None:
        pytest.skip("LibreOffice is not installed")
    done = reported(job(tmp_path), pdf=True)
    assert [one.what for one in done.written] == ["Report", "Proof", "Record", "PDF"]
    assert done.written[-1].path.name == "job-report.pdf"
    assert done.written[-1].path.read_bytes().startswith(b"%PDF")


def test_a_report_open_elsewhere_is_written_beside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = job(tmp_path)
    reported(path)
    before = (tmp_path / "job" / "job-report.docx").read_bytes()
    replace = Path.replace

    def held(self: Path, target: Path) -> Path:
        if Path(target).name == "job-report.docx":
            raise PermissionError(13, "held open", str(target))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", held)
    done = reported(path)
    assert done.written[0].path == tmp_path / "job" / "job-report-2.docx"
    assert "job-report.docx is open in another program; the new one was written beside it." in list(done.lines())
    assert (tmp_path / "job" / "job-report.docx").read_bytes() == before
    assert reported(path).written[0].path.name == "job-report-2.docx"  # ours, so it is replaced
    (tmp_path / "job" / "job-report-2.docx").write_bytes(b"the user's")
    assert reported(path).written[0].path.name == "job-report-3.docx"


def test_a_changed_row_of_the_sound_job_is_seen(tmp_path: Path) -> None:
    """The helpers of this file do change what they say they change."""
    path = job(tmp_path, sales=changed("sales", 0, price="1,2,3"))
    assert reported(path).written == ()


def test_the_options_on_the_command_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import click.testing

    from appraise import cli

    path = job(tmp_path)
    run = click.testing.CliRunner().invoke
    look = own_cover(tmp_path / "look", "{{ r.cover.titel }}")
    refused = run(cli.appraise, ["report", str(path), "--template", str(look)], standalone_mode=False)
    assert refused.return_value == cli.STOPS
    assert "r.cover.title" in refused.output
    monkeypatch.setattr(pdf, "find_office", lambda: None)
    done = run(cli.appraise, ["report", str(path), "--redacted", "--pdf"], standalone_mode=False)
    assert done.return_value == cli.CLEAN
    assert f"Report: {tmp_path / 'job' / 'redacted-report.docx'}" in done.output
    assert pdf.MISSING in done.output
