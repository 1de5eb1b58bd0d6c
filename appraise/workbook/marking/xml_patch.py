"""Changes parts of a document somebody else made at single places; every other byte stays as it is.

A parser says where elements begin and end; the changes are made in the bytes. What is put in is ASCII, so it fits
every encoding a part may have but UTF-16, which is brought to UTF-8 first.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple
from xml.parsers import expat

from appraise.files.xml_parts import SEPARATOR, UnsafeXml, strict_parser

_TAG = re.compile(rb"""<[^\s/>]+(?:\s+[^\s=>]+\s*=\s*(?:"[^"]*"|'[^']*'))*\s*/?>""")
_ATTRIBUTE = re.compile(rb"""(\s+)([^\s=>]+)\s*=\s*("[^"]*"|'[^']*')""")
_DECLARATION = re.compile(r"^\ufeff?<\?xml[^>]*\?>")
#: Characters XML 1.0 cannot carry.
_FORBIDDEN = re.compile("[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Edit(NamedTuple):
    """Put `new` in the place of the bytes from start to end."""

    start: int
    end: int
    new: bytes


class Located(NamedTuple):
    """Where an element stands.

    name    local name; `space` its namespace
    start   of the start tag; `inside` the byte behind it
    close   start of the end tag (of an element without one: as `end`); `end` the byte behind the element
    """

    name: str
    space: str
    attributes: Mapping[str, str]
    start: int
    inside: int
    close: int
    end: int

    @property
    def empty(self) -> bool:
        """Whether it is written as one tag, `<name/>`."""
        return self.inside == self.end


def readable(content: bytes) -> bytes:
    """Return a part in an encoding that ASCII can be put into."""
    if content[:2] not in (b"\xff\xfe", b"\xfe\xff"):
        return content
    try:
        return _DECLARATION.sub("", content.decode("utf-16")).encode()
    except UnicodeDecodeError as error:
        raise UnsafeXml("the part is not in the encoding it says") from error


def tag_end(content: bytes, start: int) -> int:
    """Return the byte behind the tag that begins at `start`."""
    found = _TAG.match(content, start)
    if found is None:
        raise UnsafeXml("a tag that cannot be read")
    return found.end()


def locate(content: bytes, wanted: Callable[[str, int], bool]) -> list[Located]:
    """Return where the wanted elements stand, in the order of their ends.

    wanted  is asked with local name and depth (0 for the root)
    Raises `UnsafeXml` where the part is not well formed or declares a document type.
    """
    parser = strict_parser()
    found: list[Located] = []
    path: list[tuple[str, str, dict[str, str], int] | None] = []

    def start(name: str, attributes: dict[str, str]) -> None:
        space, _, local = name.rpartition(SEPARATOR)
        here = (local, space, attributes, parser.CurrentByteIndex) if wanted(local, len(path)) else None
        path.append(here)

    def end(_: str) -> None:
        here = path.pop()
        if here is None:
            return
        local, space, attributes, begin = here
        inside, close = tag_end(content, begin), parser.CurrentByteIndex
        last = close if content[inside - 2 : inside] == b"/>" else content.index(b">", close) + 1
        found.append(Located(local, space, attributes, begin, inside, close, last))

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    try:
        parser.Parse(content, True)
    except expat.ExpatError as error:
        raise UnsafeXml(str(error)) from error
    return found


def edited(content: bytes, edits: Iterable[Edit]) -> bytes:
    """Return the content with the edits made; what is put in at one place in the order given, before what is replaced.

    Edits that overlap are our own mistake.
    """
    pieces = []
    position = 0
    for edit in sorted(edits, key=lambda one: (one.start, one.end)):
        assert edit.start >= position
        pieces += [content[position : edit.start], edit.new]
        position = edit.end
    return b"".join([*pieces, content[position:]])


def with_attributes(tag: bytes, values: Mapping[str, str | None]) -> bytes:
    """Return a tag with attributes set, or taken away where the value is None."""
    wanted = dict(values)

    def changed(match: re.Match[bytes]) -> bytes:
        name = match[2].decode("latin-1")
        if name not in wanted:
            return match[0]
        value = wanted.pop(name)
        return b"" if value is None else match[1] + match[2] + b"=" + quoted(value)

    tag = _ATTRIBUTE.sub(changed, tag)
    more = b"".join(b" " + name.encode() + b"=" + quoted(value) for name, value in wanted.items() if value is not None)
    end = -2 if tag.endswith(b"/>") else -1
    return tag[:end].rstrip() + more + tag[end:]


def set_attributes(content: bytes, element: Located, **values: str | None) -> Edit:
    """Return the edit that sets attributes of an element."""
    return Edit(element.start, element.inside, with_attributes(content[element.start : element.inside], values))


def append_to(content: bytes, element: Located, new: bytes, **values: str | None) -> list[Edit]:
    """Return the edits that put `new` at the end of an element, and set attributes of it."""
    tag = with_attributes(content[element.start : element.inside], values)
    if not element.empty:
        return [Edit(element.start, element.inside, tag), Edit(element.close, element.close, new)]
    name = tag[1:].split(None, 1)[0].rstrip(b"/>")
    return [Edit(element.start, element.inside, tag[:-2].rstrip() + b">" + new + b"</" + name + b">")]


def prefix_of(content: bytes, element: Located) -> str:
    """Return the prefix an element is written with, its colon included; "" for none."""
    name = re.match(rb"<([^\s/>]+)", content[element.start : element.inside])
    prefix, colon, _ = (name[1] if name else b"").decode("utf-8", "replace").rpartition(":")
    return prefix + colon


def escaped(text: str) -> str:
    """Return text as it stands in an element: ASCII, without what XML cannot carry."""
    clean = _FORBIDDEN.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))
    clean = clean.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return clean.encode("ascii", "xmlcharrefreplace").decode("ascii")


def quoted(value: str) -> bytes:
    """Return an attribute's value in quotes."""
    return b'"' + escaped(value).replace('"', "&quot;").encode() + b'"'
