"""The sealed file itself: same content, same bytes; a single changed byte anywhere is noticed."""

import json
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from appraise.files.hashes import sha256_hex
from appraise.files.unusable import Trouble, UnusableFile
from appraise.workfile.opened import content_of, open_workfile, unpack
from appraise.workfile.pack import MANIFEST, Entry, write_workfile
from appraise.workfile.seal import UNSEALED, content_digest, seal, sealed_as_written

ENTRIES = [
    Entry("README.txt", b"All that the report rests on.\n" * 4),
    Entry("inputs/Ennerby Häuser.xlsx", bytes(range(256))),
    Entry("empty.txt", b""),
]
FACTS = {"job": "inputs/quenby.xlsx", "draft": False}


def packed(folder: Path, entries: list[Entry] | None = None, name: str = "workfile.zip") -> Path:
    path = folder / name
    with path.open("w+b") as stream:
        write_workfile(stream, ENTRIES if entries is None else entries, FACTS)
    return path


def test_what_was_packed_is_found_again(tmp_path: Path) -> None:
    opened = open_workfile(packed(tmp_path))
    assert opened.faults == ()
    assert opened.manifest["job"] == "inputs/quenby.xlsx"
    assert [one["name"] for one in opened.manifest["files"]] == sorted(one.name for one in ENTRIES)
    assert content_of(opened, "inputs/Ennerby Häuser.xlsx") == bytes(range(256))
    unpack(opened, "inputs/", tmp_path / "out")
    assert [file.name for file in (tmp_path / "out" / "inputs").iterdir()] == ["Ennerby Häuser.xlsx"]
    assert not (tmp_path / "out" / "README.txt").exists()


def test_the_same_content_gives_the_same_bytes(tmp_path: Path) -> None:
    file = tmp_path / "page.txt"
    file.write_bytes(b"saved page")
    entries = [*ENTRIES, Entry("inputs/page.txt", file)]
    first = packed(tmp_path, entries, "first.zip").read_bytes()
    assert packed(tmp_path, entries, "second.zip").read_bytes() == first


@pytest.mark.parametrize("mask", [0x01, 0x20, 0x80])
def test_every_changed_byte_is_noticed(tmp_path: Path, mask: int) -> None:
    path = packed(tmp_path)
    content = path.read_bytes()
    changed = tmp_path / "changed.zip"
    for position in range(len(content)):
        changed.write_bytes(content[:position] + bytes([content[position] ^ mask]) + content[position + 1 :])
        assert not sealed_as_written(changed), position
        if position % 7 == 0:
            assert open_workfile(changed).faults, position


@pytest.mark.parametrize(
    "change", [lambda one: one[:-1], lambda one: one + b"\0", lambda one: one[1:], lambda one: b""]
)
def test_a_file_cut_short_or_made_longer_is_noticed(tmp_path: Path, change) -> None:
    path = packed(tmp_path)
    path.write_bytes(change(path.read_bytes()))
    assert open_workfile(path).faults


def resealed(path: Path, replaced: dict[str, bytes]) -> Path:
    """Return a copy with other files in it and a seal that fits, as somebody who knows the form could make it."""
    with zipfile.ZipFile(path) as source:
        contents = {name: source.read(name) for name in source.namelist()} | replaced
    target = path.with_name("resealed.zip")
    with target.open("w+b") as stream:
        with zipfile.ZipFile(stream, "w") as package:
            for name, content in contents.items():
                package.writestr(name, content)
            package.comment = UNSEALED
        seal(stream)
    return target


def test_a_changed_file_under_a_new_seal_is_named_by_its_hash(tmp_path: Path) -> None:
    opened = open_workfile(resealed(packed(tmp_path), {"README.txt": b"Other words.\n"}))
    assert opened.faults == ("README.txt was changed.",)


def test_an_added_and_a_missing_file_are_named(tmp_path: Path) -> None:
    path = packed(tmp_path)
    assert open_workfile(resealed(path, {"more.txt": b""})).faults == ("more.txt is not in the manifest.",)
    manifest = json.loads(content_of(open_workfile(path), MANIFEST))
    manifest["files"].append({"name": "lost.txt", "size": 0, "sha256": sha256_hex(b"")})
    faults = open_workfile(resealed(path, {MANIFEST: json.dumps(manifest).encode()})).faults
    assert faults == ("lost.txt is missing.", "The content digest is not that of the files listed.")


def test_the_content_digest_is_over_names_and_hashes() -> None:
    lines = f"{sha256_hex(b'a')}  a\n{sha256_hex(b'b')}  b\n"
    assert content_digest({"b": sha256_hex(b"b"), "a": sha256_hex(b"a")}) == sha256_hex(lines.encode())


@pytest.mark.parametrize("content", [b"", b"no zip at all", UNSEALED, b"PK\x05\x06" + bytes(18)])
def test_something_else_is_said_to_be_no_workfile(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "other.zip"
    path.write_bytes(content)
    opened = open_workfile(path)
    assert len(opened.faults) == 2
    assert opened.manifest == {}


def test_a_file_that_is_not_there_cannot_be_checked(tmp_path: Path) -> None:
    with pytest.raises(UnusableFile) as raised:
        open_workfile(tmp_path / "lost.zip")
    assert raised.value.code is Trouble.MISSING


def test_a_newer_form_asks_for_the_newer_version(tmp_path: Path) -> None:
    path = packed(tmp_path)
    manifest = json.loads(content_of(open_workfile(path), MANIFEST)) | {"format": 99}
    with pytest.raises(UnusableFile) as raised:
        open_workfile(resealed(path, {MANIFEST: json.dumps(manifest).encode()}))
    assert raised.value.code is Trouble.NEWER_FORMAT


def test_a_name_given_twice_is_refused() -> None:
    with pytest.raises(ValueError, match="twice"):
        write_workfile(BytesIO(), [ENTRIES[0], ENTRIES[0]], {})
