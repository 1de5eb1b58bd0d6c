"""The parts of an opened package: found whatever the case of their names, small ones parsed, links followed."""

import posixpath
from collections.abc import Iterable
from typing import Protocol
from xml.etree.ElementTree import Element

from appraise.files.xml_parts import parse_small

_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"


class Opened(Protocol):
    """What is needed of an opened zip."""

    def namelist(self) -> Iterable[str]:
        """Return the names of its entries."""

    def read(self, name: str) -> bytes:
        """Return the content of an entry."""


class Parts:
    """Names, contents and links of a package's parts."""

    def __init__(self, package: Opened) -> None:
        self._package = package
        self._names = {name.lower(): name for name in package.namelist()}

    def __contains__(self, part: str) -> bool:
        return part.lower() in self._names

    def name(self, part: str) -> str:
        """Return a part's name as the package spells it; KeyError where it is not there.

        Some writers spell names in the wrong case; packages are compared without it (ECMA-376 part 2).
        """
        return self._names[part.lower()]

    def read(self, part: str) -> bytes:
        """Return the content of a part."""
        return self._package.read(self.name(part))

    def small(self, part: str) -> Element:
        """Return the root of a small part."""
        return parse_small(self.read(part))

    def links(self, part: str) -> dict[str, tuple[str, str]]:
        """Return, by id, the kind (last word of its type) and the target part of each link of `part` inside it."""
        if links_part(part) not in self:
            return {}
        folder = posixpath.dirname(part)
        links = {}
        for one in self.small(links_part(part)).iterfind(f"{{{_LINKS}}}Relationship"):
            if one.get("TargetMode") == "External":
                continue
            target = one.get("Target", "")
            whole = target[1:] if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
            links[one.get("Id", "")] = (one.get("Type", "").rpartition("/")[2], whole)
        return links


def links_part(part: str) -> str:
    """Return the name of the part that holds the links of `part` ("" the package itself)."""
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")
