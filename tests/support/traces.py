"""Looks for traces of a person or a machine in files, down to the parts of packages within packages."""

import io
import re
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from PIL import Image

#: Names of properties in which office files keep who wrote them.
_PEOPLE = re.compile(rb"<(?:\w+:)?(?:creator|lastModifiedBy|Manager|Company|Template)>([^<]+)<")
#: What a program may call itself there.
_OWN = (b"", b"appraise")


def parts_of(name: str, content: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield a file, or all parts of a package and what it says of itself, each by name; packages within it too."""
    if content[:4] != b"PK\x03\x04":
        yield name, content
        return
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        yield name, package.comment + b"".join(entry.extra + entry.comment for entry in package.infolist())
        for entry in package.infolist():
            yield from parts_of(f"{name}/{entry.filename}", package.read(entry))


def traces(folder: Path, words: Iterable[str], *, but_for: Iterable[bytes] = ()) -> list[str]:
    """Return where in the files of a folder one of the words stands, or a picture says where and by what it was taken.

    but_for  contents that are the user's own files, unchanged: they are not looked into
    """
    own = frozenset(but_for)
    found = []
    for file in sorted(one for one in folder.rglob("*") if one.is_file()):
        for name, content in parts_of(str(file.relative_to(folder)), file.read_bytes()):
            if content not in own:
                found += [f"{name}: {what}" for what in _in_part(name, content, words)]
    return found


def _in_part(name: str, content: bytes, words: Iterable[str]) -> Iterator[str]:
    for word in words:
        for spelt in (word, word.replace(" ", "%20"), word.replace("/", "\\")):
            for encoding in ("utf-8", "utf-16-le"):
                if spelt.encode(encoding).lower() in content.lower():
                    yield f"{word!r}"
        if word.lower() in name.lower():
            yield f"{word!r} in the name"
    for people in _PEOPLE.findall(content):
        if people.strip() not in _OWN:
            yield f"written by {people!r}"
    if content[:3] == b"\xff\xd8\xff" or content[:8] == b"\x89PNG\r\n\x1a\n":
        with Image.open(io.BytesIO(content)) as picture:
            if picture.getexif() or {"exif", "comment", "icc_profile", "xmp", "photoshop"} & set(picture.info):
                yield "a picture with data about itself"
