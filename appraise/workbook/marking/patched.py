"""A copy of a package in which single parts are changed or added; all others are copied byte by byte."""

import posixpath
import zipfile
from typing import IO

from appraise.files.xml_parts import parse_small
from appraise.files.zips import copy_entry, fixed_entry
from appraise.workbook.marking.xml_patch import append_to, edited, escaped, locate, readable
from appraise.workbook.parts import Parts, links_part

_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_TYPES = "[Content_Types].xml"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


class PatchedPackage:
    """The parts of a workbook with the changes made so far; `write` writes the copy."""

    def __init__(self, package: zipfile.ZipFile) -> None:
        self._package = package
        self._parts = Parts(package)
        self._changed: dict[str, bytes] = {}

    def __contains__(self, part: str) -> bool:
        return part in self._parts or part in self._changed

    def namelist(self) -> list[str]:
        """Return the names of all parts."""
        return [*self._package.namelist(), *(one for one in self._changed if one not in self._parts)]

    def read(self, part: str) -> bytes:
        """Return a part as it stands now, in an encoding that can be changed."""
        name = self._parts.name(part) if part in self._parts else part
        return self._changed[name] if name in self._changed else readable(self._package.read(name))

    def put(self, part: str, content: bytes) -> None:
        """Change or add a part."""
        self._changed[self._parts.name(part) if part in self._parts else part] = content

    def links(self, part: str) -> dict[str, tuple[str, str]]:
        """Return, by id, the kind and the target of each link of a part."""
        return Parts(self).links(part)

    def linked(self, part: str, kind: str) -> str | None:
        """Return the first part of a kind that `part` points at and that is there, or None."""
        return next((target for word, target in self.links(part).values() if word == kind and target in self), None)

    def link(self, part: str, kind: str, target: str) -> str:
        """Make `part` point at another and return the id of the link; `kind` is the last word of its type."""
        name = links_part(part)
        content = self.read(name) if name in self else f'<Relationships xmlns="{_LINKS}"/>'.encode()
        taken = {one.get("Id", "").lower() for one in parse_small(content)}
        number = len(taken) + 1
        while f"rid{number}" in taken:
            number += 1
        relative = posixpath.relpath(target, posixpath.dirname(part))
        one = f'<Relationship xmlns="{_LINKS}" Id="rId{number}" Type="{_OFFICE}/{kind}" Target="{escaped(relative)}"/>'
        root = locate(content, lambda _, depth: depth == 0)[0]
        self.put(name, edited(content, append_to(content, root, one.encode())))
        return f"rId{number}"

    def add(self, folder: str, stem: str, ending: str, content_type: str) -> str:
        """Return a free name for a new part and declare its content type."""
        number = 1
        taken = {one.lower() for one in self.namelist()}
        while f"{folder}/{stem}{number}.{ending}".lower() in taken:
            number += 1
        name = f"{folder}/{stem}{number}.{ending}"
        content = self.read(_TYPES)
        space = "http://schemas.openxmlformats.org/package/2006/content-types"
        one = f'<Override xmlns="{space}" PartName="/{escaped(name)}" ContentType="{content_type}"/>'
        root = locate(content, lambda _, depth: depth == 0)[0]
        self.put(_TYPES, edited(content, append_to(content, root, one.encode())))
        return name

    def write(self, stream: IO[bytes]) -> None:
        """Write the copy: entries in the order and with the times of the original, new ones behind them."""
        with zipfile.ZipFile(stream, "w") as target:
            for entry in self._package.infolist():
                if entry.filename in self._changed:
                    target.writestr(_like(entry), self._changed[entry.filename])
                else:
                    copy_entry(self._package, entry, target)
            for name, content in self._changed.items():
                if name not in self._parts:
                    target.writestr(fixed_entry(name), content)


def _like(entry: zipfile.ZipInfo) -> zipfile.ZipInfo:
    made = zipfile.ZipInfo(entry.filename, entry.date_time)
    made.compress_type = entry.compress_type
    made.external_attr = entry.external_attr
    made.create_system = entry.create_system
    made.comment = entry.comment
    return made
