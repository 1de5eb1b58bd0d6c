"""Reads a Word file's parts and parses them: closed against entities, oversize and whatever is not a document."""

import io
import re
import zipfile
import zlib
from functools import cached_property

from lxml import etree  # type: ignore[import-untyped]

from appraise.files.hashes import sha256_hex
from appraise.model.frozen import frozen
from appraise.report.engine.names import NAMESPACES

#: More than this, unpacked, is no template [bytes].
LARGEST_UNPACKED = 60_000_000
#: The text part of a template; what is repeated comes from the view, so this is plenty [bytes].
LARGEST_PART = 3_000_000
_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}"


class NotAWordFileError(Exception):
    """The bytes are not a Word document that can be used; the message says why."""


@frozen
class Relation:
    """One relationship of a part."""

    kind: str
    target: str
    external: bool


def parse(content: bytes) -> etree._Element:
    """Return the root of a part; NotAWordFileError if it is not well-formed or declares a document type."""
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, load_dtd=False, huge_tree=False, remove_comments=True, remove_pis=True
    )
    try:
        root = etree.fromstring(content, parser)
    except etree.XMLSyntaxError as fault:
        raise NotAWordFileError(f"a part is not well-formed: {fault}") from fault
    if root.getroottree().docinfo.doctype:
        raise NotAWordFileError("a part declares a document type")
    return root


class WordFile:
    """The parts of a Word document, by name; `mark` is the hash of the whole file."""

    def __init__(self, content: bytes) -> None:
        self.mark = sha256_hex(content)
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(content))
            sizes = [one.file_size for one in self._zip.infolist()]
        except (zipfile.BadZipFile, ValueError) as fault:
            raise NotAWordFileError("it is not a .docx file (or it is protected by a password)") from fault
        if sum(sizes) > LARGEST_UNPACKED or len(sizes) > 2000:
            raise NotAWordFileError("unpacked it is larger than any template")
        self.names = frozenset(self._zip.namelist())
        if "word/document.xml" not in self.names:
            raise NotAWordFileError("it holds no Word document")

    def read(self, name: str) -> bytes:
        """Return a part's bytes; NotAWordFileError if it is missing or damaged."""
        try:
            return self._zip.read(name)
        except (KeyError, zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError) as fault:
            raise NotAWordFileError(f"its part {name} cannot be read") from fault

    def root(self, name: str) -> etree._Element:
        """Return the parsed part; NotAWordFileError if it is too large, missing or damaged."""
        content = self.read(name)
        if name != "word/styles.xml" and len(content) > LARGEST_PART:
            raise NotAWordFileError(f"its part {name} is larger than any template's")
        return parse(content)

    def relations(self, name: str) -> dict[str, Relation]:
        """Return the relationships of a part by id; empty if it has none."""
        folder, _, file = name.rpartition("/")
        listing = f"{folder}/_rels/{file}.rels"
        if listing not in self.names:
            return {}
        found: dict[str, Relation] = {}
        for one in self.root(listing).iter(f"{_RELATIONS}Relationship"):
            external = one.get("TargetMode") == "External"
            target = one.get("Target", "")
            if not external:
                target = _joined(folder, target)
            found[one.get("Id", "")] = Relation(one.get("Type", ""), target, external)
        return found

    @cached_property
    def document(self) -> etree._Element:
        """The parsed main part."""
        return self.root("word/document.xml")


def _joined(folder: str, target: str) -> str:
    if target.startswith("/"):
        return target[1:]
    parts = folder.split("/")
    for step in target.split("/"):
        if step == "..":
            parts = parts[:-1]
        elif step != ".":
            parts.append(step)
    return "/".join(parts)


_DECLARATION = re.compile(r' xmlns(?::\w+)?="[^"]*"')


def inner_xml(element: etree._Element) -> str:
    """Return an element as text with the prefixes of `names.NAMESPACES` and no declarations of its own."""
    etree.cleanup_namespaces(element, top_nsmap=dict(NAMESPACES), keep_ns_prefixes=list(NAMESPACES))
    text: str = etree.tostring(element, encoding="unicode", with_tail=False)
    return _DECLARATION.sub("", text)
