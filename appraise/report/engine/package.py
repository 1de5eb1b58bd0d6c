"""The zip that is a Word file: fixed order and times, pictures stored as they are, lists of parts written last."""

import io
import shutil
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import BinaryIO, Self
from xml.sax.saxutils import quoteattr

from appraise.report.engine.names import TYPES, XML_HEAD

_LEVEL = 6
#: Of each text kept in memory before a temporary file is used [bytes]; there are five at a time.
_IN_MEMORY = 1_000_000
_BLOCK = 1 << 18


class Spool:
    """Text that grows while a report is rendered and is read once afterwards; beyond a megabyte it lies in a file."""

    def __init__(self) -> None:
        self._file = tempfile.SpooledTemporaryFile(max_size=_IN_MEMORY)  # noqa: SIM115 - closed by close()
        self.size = 0

    def write(self, text: str) -> None:
        self.size += self._file.write(text.encode())

    def copy_to(self, target: Callable[[bytes], object], start: int = 0, end: int | None = None) -> None:
        """Hand the bytes from start to end to a function, block by block."""
        left = (self.size if end is None else end) - start
        self._file.seek(start)
        while left > 0:
            block = self._file.read(min(_BLOCK, left))
            left -= len(block)
            target(block)

    def close(self) -> None:
        self._file.close()


def entry(name: str, *, stored: bool = False) -> zipfile.ZipInfo:
    """Return a zip entry that says nothing about the machine or the hour."""
    made = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    made.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
    made.create_system = 3
    made.external_attr = 0o600 << 16
    if not stored:
        made._compresslevel = _LEVEL  # type: ignore[attr-defined]
    return made


class Package:
    """Writes the parts of one document. Relationships of the main part and content types are written by `finish`."""

    def __init__(self, target: BinaryIO) -> None:
        self._zip = zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL)
        self._relations = Spool()
        self._types = Spool()
        self._count = 0
        self._pictures: dict[str, str] = {}
        self._media = self._charts = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._relations.close()
        self._types.close()
        if kind is None:
            self._zip.close()
        else:
            self._zip.fp = None  # leave the half-written file to its owner; a closed zip would look finished

    def part(self, name: str, content: str | bytes, kind: str = "") -> None:
        """Write a part; `kind` is a key of `names.TYPES`."""
        self._zip.writestr(entry(name), content)
        if kind:
            self.typed(name, kind)

    def typed(self, name: str, kind: str) -> None:
        """Declare the content type of a part."""
        self._types.write(f'<Override PartName="/{name}" ContentType="{TYPES[kind]}"/>')

    def streamed(self, name: str, kind: str, size: int, write: Callable[[Callable[[bytes], object]], None]) -> None:
        """Write a part whose bytes a function hands over block by block; `size` is their number."""
        made = entry(name)
        made.file_size = size
        with self._zip.open(made, "w", force_zip64=size > (1 << 31)) as stream:
            write(stream.write)
        self.typed(name, kind)

    def relation(self, kind: str, target: str, *, external: bool = False) -> str:
        """Return the id of a new relationship of the main part."""
        self._count += 1
        made = f"rId{self._count}"
        self._relations.write(_relationship(made, kind, target, external))
        return made

    def picture(self, mark: str, extension: str, source: Path | bytes | Callable[[], BinaryIO], relation: str) -> str:
        """Return the relationship id of a picture of the main part; one whose mark was seen is not stored again.

        mark  tells apart what the picture shows: of a photograph its SHA-256
        """
        known = self._pictures.get(mark)
        if known is None:
            known = self._pictures[mark] = self.relation(relation, f"media/{self.media(extension, source)}")
        return known

    def media(self, extension: str, source: Path | bytes | Callable[[], BinaryIO]) -> str:
        """Store a picture and return its file name in the package."""
        self._media += 1
        name = f"image{self._media:05d}.{extension}"
        if isinstance(source, bytes):
            opened: BinaryIO = io.BytesIO(source)
        else:
            opened = source.open("rb") if isinstance(source, Path) else source()
        with opened, self._zip.open(entry(f"word/media/{name}", stored=True), "w") as stream:
            shutil.copyfileobj(opened, stream, _BLOCK)
        return name

    def chart(self, content: str, relation: str) -> str:
        """Return the relationship id of a new chart."""
        self._charts += 1
        name = f"charts/chart{self._charts}.xml"
        self.part(f"word/{name}", content, "chart")
        return self.relation(relation, name)

    def relations_of(self, part: str, lines: list[tuple[str, str, str, bool]]) -> None:
        """Write the relationships of a part: (id, kind, target, external) each; nothing for none."""
        if lines:
            folder, _, file = part.rpartition("/")
            body = "".join(_relationship(*line) for line in lines)
            self.part(f"{folder}/_rels/{file}.rels".lstrip("/"), f"{_RELATIONS_HEAD}{body}</Relationships>")

    def finish(self) -> None:
        """Write the main part's relationships and the content types."""
        for name, head, spool, tail in (
            ("word/_rels/document.xml.rels", _RELATIONS_HEAD, self._relations, "</Relationships>"),
            ("[Content_Types].xml", _TYPES_HEAD, self._types, "</Types>"),
        ):
            made = entry(name)
            made.file_size = spool.size + len(head) + len(tail)
            with self._zip.open(made, "w") as stream:
                stream.write(head.encode())
                spool.copy_to(stream.write)
                stream.write(tail.encode())


def _relationship(mark: str, kind: str, target: str, external: bool) -> str:
    outside = ' TargetMode="External"' if external else ""
    return f'<Relationship Id="{mark}" Type="{kind}" Target={quoteattr(target)}{outside}/>'


_RELATIONS_HEAD = f'{XML_HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
_TYPES_HEAD = (
    f'{XML_HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="xml" ContentType="application/xml"/>'
    '<Default Extension="jpeg" ContentType="image/jpeg"/><Default Extension="png" ContentType="image/png"/>'
)
