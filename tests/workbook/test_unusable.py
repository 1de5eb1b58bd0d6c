"""Files that cannot be used at all: one clear sentence each."""

import os
import zipfile
from pathlib import Path

import pytest
from support.raw_xml import package
from support.workbooks import workbook

from appraise.files.unusable import Trouble, UnusableFile
from appraise.workbook.reading.read import read_job

OLE = bytes.fromhex("D0CF11E0A1B11AE1")


def refused(path: Path) -> UnusableFile:
    with pytest.raises(UnusableFile) as caught:
        read_job(path)
    sentence = caught.value.sentence
    assert sentence.endswith(".") and "Traceback" not in sentence and len(sentence) < 250
    assert path.name in sentence
    return caught.value


def zip_file(path: Path, **parts: bytes) -> Path:
    with zipfile.ZipFile(path, "w") as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return path


@pytest.mark.parametrize(
    ("name", "content", "code"),
    [
        ("notes.xlsx", b"these are notes", Trouble.NOT_A_WORKBOOK),
        ("empty.xlsx", b"", Trouble.EMPTY),
        ("old.xls", OLE + b"\0" * 600 + "Workbook".encode("utf-16-le"), Trouble.OLD_EXCEL),
        ("secret.xlsx", OLE + b"\0" * 600 + "EncryptedPackage".encode("utf-16-le"), Trouble.PASSWORD),
        ("cut.xlsx", b"PK\x03\x04 cut off in the middle", Trouble.NOT_A_WORKBOOK),
    ],
)
def test_no_workbook(name: str, content: bytes, code: Trouble, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    assert refused(path).code is code


def test_missing_and_folder(tmp_path: Path) -> None:
    assert refused(tmp_path / "nowhere.xlsx").code is Trouble.MISSING
    assert refused(tmp_path).code is Trouble.NOT_A_FILE


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    path = workbook(tmp_path)
    path.chmod(0)
    assert refused(path).code is Trouble.NO_PERMISSION


def test_a_file_that_may_not_be_read_whoever_asks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def denied(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    path = workbook(tmp_path)
    monkeypatch.setattr(Path, "open", denied)
    assert refused(path).code is Trouble.NO_PERMISSION


def test_an_open_document(tmp_path: Path) -> None:
    ods = b"application/vnd.oasis.opendocument.spreadsheet"
    assert refused(zip_file(tmp_path / "job.ods", mimetype=ods)).code is Trouble.OPEN_DOCUMENT


def test_a_zip_of_something_else(tmp_path: Path) -> None:
    assert refused(zip_file(tmp_path / "photos.xlsx", picture=b"x")).code is Trouble.NOT_A_WORKBOOK


def test_a_document_instead_of_a_workbook(tmp_path: Path) -> None:
    path = package(tmp_path / "letter.xlsx", "", main="http://schemas.openxmlformats.org/wordprocessingml/2006/main")
    assert refused(path).code is Trouble.NOT_A_WORKBOOK


def test_strict_open_xml(tmp_path: Path) -> None:
    path = package(tmp_path / "strict.xlsx", "", main="http://purl.oclc.org/ooxml/spreadsheetml/main")
    assert refused(path).code is Trouble.STRICT


def test_no_sheets(tmp_path: Path) -> None:
    path = package(tmp_path / "bare.xlsx", "", name="A")
    with zipfile.ZipFile(path) as made:
        parts = {name: made.read(name) for name in made.namelist()}
    parts["xl/workbook.xml"] = b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>'
    assert refused(zip_file(path, **parts)).code is Trouble.NO_SHEETS


def test_cut_off_in_the_middle_of_a_sheet(tmp_path: Path) -> None:
    path = package(tmp_path / "torn.xlsx", "<sheetData><row r=", name="Items")
    assert refused(path).code is Trouble.DAMAGED


def test_a_flipped_byte_in_a_sheet(tmp_path: Path) -> None:
    path = workbook(tmp_path)
    content = bytearray(path.read_bytes())
    with zipfile.ZipFile(path) as made:
        entry = next(one for one in made.infolist() if one.filename == "xl/worksheets/sheet3.xml")
        start = entry.header_offset + 30 + len(entry.filename) + 40
    content[start : start + 4] = bytes(byte ^ 0xFF for byte in content[start : start + 4])
    path.write_bytes(bytes(content))
    assert refused(path).code is Trouble.DAMAGED
