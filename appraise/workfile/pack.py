"""Writes a workfile: its files in the order given, a manifest with their hashes, and the seal."""

import hashlib
import json
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, BinaryIO

from appraise.files.zips import fixed_entry
from appraise.model.frozen import frozen
from appraise.workfile.seal import UNSEALED, content_digest, seal

MANIFEST = "manifest.json"
#: Format of the manifest. Keys are added without a new number.
WORKFILE_FORMAT = 1
_BLOCK = 1 << 20
#: Packed already: deflating them again gains nothing.
_PACKED = frozenset({".docx", ".jpeg", ".jpg", ".pdf", ".png", ".xlsx", ".zip"})


@frozen
class Entry:
    """One file of a workfile: its name inside, and its content or the file that holds it."""

    name: str
    content: bytes | Path


def write_workfile(stream: BinaryIO, entries: Iterable[Entry], facts: Mapping[str, Any]) -> str:
    """Write a sealed workfile and return its content digest. The same entries and facts give the same bytes.

    facts  what else the manifest says; its keys may not be `format`, `files` or `content_digest`
    A name given twice is our own mistake.
    """
    files: dict[str, dict[str, Any]] = {}
    with zipfile.ZipFile(stream, "w") as package:
        for entry in entries:
            if entry.name in files or entry.name == MANIFEST:
                raise ValueError(f"{entry.name} stands twice in the workfile")
            files[entry.name] = _packed(package, entry)
        digest = content_digest({name: str(one["sha256"]) for name, one in files.items()})
        manifest = {
            "format": WORKFILE_FORMAT,
            **facts,
            "content_digest": digest,
            "files": [{"name": name, **files[name]} for name in sorted(files)],
        }
        package.writestr(fixed_entry(MANIFEST), as_json(manifest))
        package.comment = UNSEALED
    seal(stream)
    return digest


def as_json(content: Any) -> bytes:
    """Return content as the JSON files of a workfile hold it: UTF-8, one key a line, keys in the order given."""
    return (json.dumps(content, ensure_ascii=False, indent=1) + "\n").encode()


def _packed(package: zipfile.ZipFile, entry: Entry) -> dict[str, Any]:
    running, size = hashlib.sha256(), 0
    info = fixed_entry(entry.name, stored=Path(entry.name).suffix.lower() in _PACKED)
    with package.open(info, "w", force_zip64=isinstance(entry.content, Path)) as target:
        for block in _blocks(entry.content):
            running.update(block)
            size += len(block)
            target.write(block)
    return {"size": size, "sha256": running.hexdigest()}


def _blocks(content: bytes | Path) -> Iterator[bytes]:
    if isinstance(content, bytes):
        yield content
        return
    with content.open("rb") as stream:
        while block := stream.read(_BLOCK):
            yield block
