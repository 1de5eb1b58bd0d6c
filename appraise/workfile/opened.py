"""Opens a workfile and says what is not as it was packed, before anything in it is believed."""

import hashlib
import json
import struct
import zipfile
import zlib
from pathlib import Path
from typing import Any

from appraise.files.unusable import Trouble, UnusableFile
from appraise.files.zips import open_package
from appraise.model.frozen import frozen
from appraise.workfile.pack import MANIFEST, WORKFILE_FORMAT
from appraise.workfile.seal import content_digest, sealed_as_written

_BLOCK = 1 << 20
#: A file of ten thousand photographs as the camera made them [bytes].
_SIZE_LIMIT = 1 << 37
#: What a damaged zip file makes the library raise.
_DAMAGE = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, ValueError, NotImplementedError, OSError, KeyError)


@frozen
class Opened:
    """What a workfile says of itself.

    manifest  empty where it cannot be read
    faults    sentences: what is not as it was packed; empty if all is
    """

    path: Path
    manifest: dict[str, Any]
    faults: tuple[str, ...]


def open_workfile(path: Path) -> Opened:
    """Return a workfile with every hash worked out again. Raises UnusableFile where there is no such file."""
    if not path.is_file():
        raise UnusableFile(Trouble.MISSING, path, f"There is no file {path}. Check the name and the folder.")
    faults = []
    if not sealed_as_written(path):
        faults.append("The seal is broken or missing: at least one byte is not as it was written.")
    try:
        manifest, found = _checked(path)
    except UnusableFile as error:
        if error.code is Trouble.NEWER_FORMAT:
            raise
        return Opened(path, {}, (*faults, f"It cannot be unpacked: {error.sentence}"))
    except (TypeError, *_DAMAGE):
        return Opened(path, {}, (*faults, "It can no longer be unpacked, or is no workfile."))
    return Opened(path, manifest, (*faults, *found))


def unpack(opened: Opened, prefix: str, folder: Path) -> None:
    """Unpack the files whose names begin with `prefix` into a folder. To be called on a workfile without faults."""
    with open_package(opened.path, size_limit=_SIZE_LIMIT) as package:
        for name in package.namelist():
            if name.startswith(prefix):
                package.extract(name, folder)


def content_of(opened: Opened, name: str) -> bytes:
    """Return the content of one file of a workfile."""
    with open_package(opened.path, size_limit=_SIZE_LIMIT) as package:
        return package.read(name)


def _checked(path: Path) -> tuple[dict[str, Any], list[str]]:
    with open_package(path, size_limit=_SIZE_LIMIT) as package:
        manifest = json.loads(package.read(MANIFEST))
        if manifest["format"] > WORKFILE_FORMAT:
            sentence = f"{path.name} was packed by a newer version of this program. Use that version."
            raise UnusableFile(Trouble.NEWER_FORMAT, path, sentence)
        stated = {one["name"]: (one["size"], one["sha256"]) for one in manifest["files"]}
        inside = [name for name in package.namelist() if name != MANIFEST]
        faults = [f"{name} is not in the manifest." for name in inside if name not in stated]
        faults += [f"{name} is missing." for name in stated if name not in inside]
        faults += [
            f"{name} was changed." for name in inside if name in stated and _facts(package, name) != stated[name]
        ]
    if content_digest({name: sha256 for name, (_size, sha256) in stated.items()}) != manifest["content_digest"]:
        faults.append("The content digest is not that of the files listed.")
    return manifest, faults


def _facts(package: zipfile.ZipFile, name: str) -> tuple[int, str] | None:
    """Return size and SHA-256 of a file inside; None where it cannot be unpacked."""
    running, size = hashlib.sha256(), 0
    try:
        with package.open(name) as stream:
            while block := stream.read(_BLOCK):
                running.update(block)
                size += len(block)
    except _DAMAGE:
        return None
    return size, running.hexdigest()
