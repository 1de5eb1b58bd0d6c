"""Packages: opened with care, written the same every time."""

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest

from appraise.files.hashes import sha256_hex, sha256_of
from appraise.files.unusable import Trouble, UnusableFile
from appraise.files.xml_parts import UnsafeXml, parse_small
from appraise.files.zips import copy_entry, open_package, write_package


def made(path: Path, *names: str, content: bytes = b"x") -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for name in names:
            package.writestr(name, content)
    return path


def test_a_plain_package_opens(tmp_path: Path) -> None:
    with open_package(made(tmp_path / "a.zip", "a.xml", "b/c.xml")) as package:
        assert package.namelist() == ["a.xml", "b/c.xml"]


@pytest.mark.parametrize("name", ["../a.xml", "/a.xml", "a/../../b", "..\\a", "C:\\a"])
def test_names_that_lead_out_are_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(UnusableFile) as caught:
        open_package(made(tmp_path / "a.zip", name))
    assert caught.value.code is Trouble.UNSAFE


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_names_that_stand_twice_are_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableFile) as caught:
        open_package(made(tmp_path / "a.zip", "a.xml", "a.xml"))
    assert caught.value.code is Trouble.UNSAFE


def test_too_much_content_is_refused_before_any_is_read(tmp_path: Path) -> None:
    path = made(tmp_path / "a.zip", "a.xml", "b.xml", content=b"0" * 1000)
    open_package(path, size_limit=2000).close()
    with pytest.raises(UnusableFile) as caught:
        open_package(path, size_limit=1999)
    assert caught.value.code is Trouble.TOO_LARGE
    bomb = made(tmp_path / "bomb.zip", "a.xml", content=bytes(70 * 1024**2))
    with pytest.raises(UnusableFile) as caught:
        open_package(bomb)
    assert caught.value.code is Trouble.TOO_LARGE


def test_the_same_parts_give_the_same_bytes() -> None:
    written = []
    for _ in range(2):
        stream = io.BytesIO()
        write_package(stream, [("b.xml", b"<b/>"), ("a.xml", b"<a/>")])
        written.append(stream.getvalue())
    assert written[0] == written[1]
    with zipfile.ZipFile(io.BytesIO(written[0])) as package:
        assert package.namelist() == ["b.xml", "a.xml"]
        assert {entry.date_time for entry in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_hashes(tmp_path: Path) -> None:
    # FIPS 180-4 example: the message "abc".
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    (tmp_path / "abc").write_bytes(b"abc")
    assert sha256_of(tmp_path / "abc") == sha256_hex(b"abc") == expected


def test_small_parts() -> None:
    root = parse_small(b'<a xmlns="urn:x" xmlns:r="urn:y"><b r:id="1">t</b></a>')
    assert root.tag == "{urn:x}a"
    assert root[0].get("{urn:y}id") == "1" and root[0].text == "t"
    for bad in (b"<a>", b"", b'<!DOCTYPE a [<!ENTITY e "x">]><a>&e;</a>', b"<a>&unknown;</a>"):
        with pytest.raises(UnsafeXml):
            parse_small(bad)


class _Unseekable(io.RawIOBase):
    """A stream that can only be written forwards: sizes then stand behind the entries."""

    def __init__(self, target: io.BytesIO) -> None:
        self.target = target

    def writable(self) -> bool:
        return True

    def write(self, data: Any) -> int:
        return self.target.write(data)


@pytest.mark.parametrize("seekable", [True, False])
def test_a_copied_entry_is_packed_as_it_was(seekable: bool) -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held if seekable else _Unseekable(held), "w") as package:
        package.writestr(zipfile.ZipInfo("stored ü", (2001, 2, 3, 4, 5, 6)), b"abc")
        package.writestr("packed", b"abc" * 500_000, zipfile.ZIP_DEFLATED)
        package.writestr("nothing", b"")
    made = io.BytesIO()
    with zipfile.ZipFile(held) as source, zipfile.ZipFile(made, "w") as target:
        for entry in source.infolist():
            copy_entry(source, entry, target)
        target.writestr("more", b"x")
    with zipfile.ZipFile(held) as source, zipfile.ZipFile(made) as target:
        assert target.testzip() is None
        assert target.namelist() == [*source.namelist(), "more"]
        for entry in source.infolist():
            copy = target.getinfo(entry.filename)
            assert target.read(copy) == source.read(entry)
            for name in ("date_time", "compress_type", "compress_size", "external_attr", "create_system"):
                assert getattr(copy, name) == getattr(entry, name)


def test_an_entry_that_is_not_where_it_should_be_is_not_copied() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as package:
        package.writestr("one", b"abc")
    broken = zipfile.ZipFile(io.BytesIO(held.getvalue().replace(b"PK\x03\x04", b"PK\x03\x05")))
    with broken, zipfile.ZipFile(io.BytesIO(), "w") as target, pytest.raises(zipfile.BadZipFile):
        copy_entry(broken, broken.getinfo("one"), target)
