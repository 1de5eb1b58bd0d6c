"""Reading XML that somebody else wrote: no document type, no entities, no surprises."""

from collections.abc import Iterator
from typing import IO, Any
from xml.etree.ElementTree import Element, TreeBuilder
from xml.parsers import expat

#: Between namespace and name in the names an expat parser reports.
SEPARATOR = " "
_BLOCK = 1 << 16


class UnsafeXml(Exception):
    """A part declares a document type or is not well formed."""


def parse_small(content: bytes) -> Element:
    """Return the root element of a small part, names as ElementTree writes them. Raises `UnsafeXml`."""
    builder = TreeBuilder()
    parser = strict_parser()

    def start(name: str, attributes: dict[str, str]) -> None:
        builder.start(_braced(name), {_braced(key): value for key, value in attributes.items()})

    def end(name: str) -> None:
        builder.end(_braced(name))

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = builder.data
    try:
        parser.Parse(content, True)
    except expat.ExpatError as error:
        raise UnsafeXml(str(error)) from error
    return builder.close()


def _braced(name: str) -> str:
    space, separator, local = name.rpartition(SEPARATOR)
    return f"{{{space}}}{local}" if separator else name


def strict_parser() -> Any:
    """Return an expat parser that knows namespaces, joins text and refuses a document type."""
    parser = expat.ParserCreate(namespace_separator=SEPARATOR)
    parser.buffer_text = True
    parser.buffer_size = _BLOCK
    parser.StartDoctypeDeclHandler = _refuse
    return parser


def feed(parser: Any, stream: IO[bytes]) -> Iterator[None]:
    """Feed `stream` to `parser` block by block, pausing after each. Raises `UnsafeXml`."""
    size = _BLOCK
    try:
        while block := stream.read(size):
            before = parser.CurrentByteIndex
            parser.Parse(block, False)
            # Some parsers begin a token that does not end within a block anew with each block: one long comment,
            # and the time grows with its square. With larger and larger blocks it does not.
            size = 2 * size if parser.CurrentByteIndex == before else _BLOCK
            yield
        parser.Parse(b"", True)
    except expat.ExpatError as error:
        raise UnsafeXml(str(error)) from error
    yield


def _refuse(*_: object) -> None:
    raise UnsafeXml("the part declares a document type")
