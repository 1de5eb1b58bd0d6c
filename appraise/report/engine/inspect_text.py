"""The structural check of one part of text: reads it strictly, and looks at every shape in it.

A report repeats few shapes very often. What stands between two ends of paragraphs is gone through tag by tag once for
each shape and each place in the structure at which it stands, and its outcome is remembered. Before that every text is
taken out, and so is what differs from one drawing, bookmark or link to the next: that is checked one by one.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from html import unescape
from typing import IO
from xml.parsers import expat

from appraise.model.frozen import frozen
from appraise.report.engine.names import NAMESPACES

_BLOCK = 1 << 20
_END = "</w:p>"
#: How many shapes are remembered before starting again.
_REMEMBERED = 20_000
_LEFT_OVER = re.compile(r"\{[{%#]")
_TEXT = re.compile(r"<w:t(?: [^<>]*)?>([^<]*)")
_SHOWN = re.compile(r'<w:t(?: xml:space="preserve")?>[^<]*')
_CODE = re.compile(r'<w:instrText(?: xml:space="preserve")?>[^<]*')
#: Elements that differ in their attributes alone; these are checked one by one.
_SINGLE = re.compile(
    r"<(w:bookmarkStart|w:bookmarkEnd|w:hyperlink|w:footnoteReference|w:footnote|w:id|wp:docPr|wp:extent|pic:cNvPr"
    r"|a:blip|a:ext|c:chart)( [^<>]*?)(/?)>"
)
_ELEMENT = re.compile(r"<(/?)([\w:.-]+)([^<>]*?)(/?)>([^<]*)")
_ATTRIBUTE = re.compile(r"""([\w:.-]+)=(?:"([^"]*)"|'([^']*)')""")
_ORDER = {
    "w:pPr": "pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr suppressLineNumbers pBdr shd "
    "tabs suppressAutoHyphens kinsoku wordWrap overflowPunct topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd "
    "snapToGrid spacing ind contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment "
    "textboxTightWrap outlineLvl divId cnfStyle rPr sectPr pPrChange",
    "w:rPr": "rStyle rFonts b bCs i iCs caps smallCaps strike dstrike outline shadow emboss imprint noProof "
    "snapToGrid vanish webHidden color spacing w kern position sz szCs highlight u effect bdr shd fitText "
    "vertAlign rtl cs em lang eastAsianLayout specVanish oMath",
    "w:tcPr": "cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection tcFitText vAlign hideMark",
    "w:tblPr": "tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize tblW jc tblCellSpacing "
    "tblInd tblBorders shd tblLayout tblCellMar tblLook tblCaption tblDescription",
}
_RANKS = {tag: {f"w:{name}": rank for rank, name in enumerate(order.split())} for tag, order in _ORDER.items()}
_STYLED = frozenset(("w:pStyle", "w:rStyle", "w:tblStyle"))
_DECLARATIONS = {f"xmlns:{prefix}": uri for prefix, uri in NAMESPACES.items()}

#: An open element: its name, and what must be known of its children so far. Of a cell the name of the last child, of a
#: row and a table the names of the children that it must have, of properties the rank of the last one.
Open = tuple[str, str | int]


class NotWellFormedError(Exception):
    """The part is no XML."""


@frozen
class Known:
    """What a part may point at: styles of the house document, footnotes, its own relationships."""

    styles: frozenset[str]
    notes: frozenset[str]
    related: frozenset[str]


@dataclass(slots=True, eq=False)
class _State:
    """A place in the structure: the open elements from the outside in, and the fields that are open.

    after  the state behind each shape that was gone through here and is sound
    """

    opened: tuple[Open, ...]
    fields: int
    after: dict[str, "_State"] = field(default_factory=dict)


class TextPart:
    """Goes through one part, block by block, so that a long report stays flat in memory."""

    def __init__(self, known: Known) -> None:
        self._known = known
        self._states: dict[tuple[tuple[Open, ...], int], _State] = {}
        self._state = self._reached([], 0)
        self._remembered = 0
        self._seen: dict[str, set[str]] = {"drawing": set(), "bookmark": set(), "name": set(), "control": set()}
        self._open: set[str] = set()
        self._anchors: set[str] = set()

    def problems(self, stream: IO[bytes]) -> Iterator[str]:
        """Yield what is wrong. Raises NotWellFormedError where the part is no XML."""
        rest = ""
        for text in _parsed(stream):
            whole, end, rest = (rest + text).rpartition(_END)
            if end:
                yield from self._block(f"{whole}{end}")
        yield from self._block(rest)
        yield from (f"a link points at {one}, which is not there" for one in sorted(self._anchors - self._seen["name"]))
        if self._open:
            yield f"{len(self._open)} bookmarks are not closed"
        if self._state.fields:
            yield "a field is not closed"

    def _block(self, text: str) -> Iterator[str]:
        """Yield what is wrong with a stretch that ends behind a paragraph."""
        if _LEFT_OVER.search(text):
            for found in _TEXT.finditer(text):
                if _LEFT_OVER.search(found[1]):
                    yield f"a tag is left: {found[1][:60]!r}, {_near(text, text.count(_END, 0, found.start()))}"
        shapes = _SHOWN.sub("<w:t>", text)
        if "<w:instrText" in shapes:
            shapes = _CODE.sub("<w:instrText>", shapes)
        singles: list[str] = []

        def take_out(found: re.Match[str]) -> str:
            for fault in self._single(found[1], _attributes(found[2])):
                singles.append(f"{fault}, {_near(text, shapes.count(_END, 0, found.start()))}")
            return f"<{found[1]}{found[3]}>"

        units = _SINGLE.sub(take_out, shapes).split(_END)
        yield from singles
        last = len(units) - 1
        for number, unit in enumerate(units):
            after = self._state.after.get(unit)
            if after is None:
                shape = unit if number == last else f"{unit}{_END}"
                yield from (f"{fault}, {_near(text, number)}" for fault in self._walk(unit, shape))
            else:
                self._state = after

    def _single(self, name: str, given: dict[str, str]) -> Iterator[str]:
        """Yield what is wrong with the attributes of an element that differs in them alone."""
        for key in ("r:id", "r:embed", "r:link"):
            if key in given and given[key] not in self._known.related:
                yield f"the relationship {given[key]} is not there"
        ident = given.get("w:id", "")
        if name == "wp:docPr":
            yield from self._once("drawing", given.get("id", ""))
            if not given.get("descr", "").strip():
                yield "a drawing has no description"
        elif name == "w:bookmarkStart":
            yield from self._once("bookmark", ident)
            yield from self._once("name", given.get("w:name", ""))
            self._open.add(ident)
        elif name == "w:bookmarkEnd":
            if ident not in self._open:
                yield "a bookmark is closed that is not open"
            self._open.discard(ident)
        elif name == "w:hyperlink" and "w:anchor" in given:
            self._anchors.add(given["w:anchor"])
        elif name == "w:footnoteReference" and ident not in self._known.notes:
            yield f"footnote {ident} is not there"
        elif name == "w:id":
            yield from self._once("control", given.get("w:val", ""))

    def _once(self, kind: str, value: str) -> Iterator[str]:
        if value in self._seen[kind]:
            yield f"{kind} {value} is there twice"
        self._seen[kind].add(value)

    def _walk(self, unit: str, shape: str) -> list[str]:
        """Go through a shape tag by tag; return what is wrong, remember a sound one and turn to the state behind it."""
        before = self._state
        walk = _Walk(list(before.opened), before.fields, self._known)
        faults = list(walk.through(shape))
        self._state = self._reached(walk.opened, walk.fields)
        if not faults:
            self._remembered += 1
            if self._remembered > _REMEMBERED:
                self._remembered = 0
                for one in self._states.values():
                    one.after.clear()
            before.after[unit] = self._state
        return faults

    def _reached(self, opened: list[Open], fields: int) -> _State:
        key = (tuple(opened), fields)
        state = self._states.get(key)
        if state is None:
            state = self._states[key] = _State(*key)
        return state


def _parsed(stream: IO[bytes]) -> Iterator[str]:
    """Yield the text of a part block by block as it is parsed, cut between characters."""
    parser = expat.ParserCreate()
    left = b""
    try:
        while block := stream.read(_BLOCK):
            parser.Parse(block, False)
            # The parser has seen that the bytes are UTF-8; a block may end inside a character.
            whole, left = _cut(left + block)
            yield whole.decode()
        parser.Parse(b"", True)
        yield left.decode()
    except expat.ExpatError as fault:
        raise NotWellFormedError(str(fault)) from fault


def _cut(block: bytes) -> tuple[bytes, bytes]:
    """Return the block up to the start of its last tag, and the rest."""
    at = block.rfind(b"<")
    return block[: max(at, 0)], block[max(at, 0) :]


@dataclass(slots=True)
class _Walk:
    """One way through a shape, tag by tag."""

    opened: list[Open]
    fields: int
    known: Known

    def through(self, shape: str) -> Iterator[str]:
        """Yield what is wrong with a shape; `opened` and `fields` are then what they are behind it."""
        yield from self._bare(shape[: max(shape.find("<"), 0)])
        for closing, name, attributes, empty, text in _ELEMENT.findall(shape):
            if closing:
                yield from self._close()
            else:
                yield from self._begin(name, _attributes(attributes))
                if empty:
                    yield from self._close()
            yield from self._bare(text)
        if "<!" in shape or shape.count("<?") > shape.count("<?xml "):
            yield "a comment or an instruction stands in the text"

    def _begin(self, name: str, given: dict[str, str]) -> Iterator[str]:
        if self.opened:
            yield from self._child(name)
        if name == "w:p" and self._inside_paragraph():
            yield "a paragraph stands inside a paragraph"
        elif name in _STYLED and given.get("w:val", "") not in self.known.styles:
            yield f"the style {given.get('w:val')} is not in the house document"
        elif name == "w:fldChar":
            self.fields += {"begin": 1, "end": -1}.get(given.get("w:fldCharType", ""), 0)
        for key, value in given.items():
            if key in ("r:id", "r:embed", "r:link") and value not in self.known.related:
                yield f"the relationship {value} is not there"
            elif key.startswith("xmlns") and _DECLARATIONS.get(key) != value:
                yield f"{key} is declared as {value}"
        self.opened.append((name, -1 if name in _RANKS else ""))

    def _child(self, name: str) -> Iterator[str]:
        """Take note of a child in the element it stands in."""
        parent, noted = self.opened[-1]
        if parent == "w:t":
            yield "an element stands inside a text"
        elif parent == "w:tc":
            self.opened[-1] = (parent, name)
        elif (parent, name) in (("w:tr", "w:tc"), ("w:tbl", "w:tr")):
            self._note(-1, name)
        elif parent == "w:tblGrid" and name == "w:gridCol" and self.opened[-2][0] == "w:tbl":
            self._note(-2, name)
        elif isinstance(noted, int):
            rank = _RANKS[parent].get(name, noted)
            if rank < noted:
                yield f"{name.partition(':')[2]} stands too late in {parent.partition(':')[2]}"
            self.opened[-1] = (parent, max(rank, noted))

    def _note(self, at: int, child: str) -> None:
        parent, noted = self.opened[at]
        if child not in str(noted).split():
            self.opened[at] = (parent, " ".join(sorted((*str(noted).split(), child))))

    def _inside_paragraph(self) -> bool:
        for name, _ in reversed(self.opened):
            if name in ("w:p", "w:txbxContent"):
                return name == "w:p"
        return False

    def _close(self) -> Iterator[str]:
        name, noted = self.opened.pop()
        if name == "w:tc" and noted != "w:p":
            yield "a cell does not end with a paragraph"
        elif (name == "w:tr" and noted != "w:tc") or (name == "w:tbl" and noted != "w:gridCol w:tr"):
            yield "a table without rows or a row without cells"

    def _bare(self, text: str) -> Iterator[str]:
        if text.strip() and self.opened:
            holder = self.opened[-1][0]
            if holder not in ("w:t", "w:instrText") and not holder.startswith("wp:"):
                yield "text stands outside a run"


def _attributes(text: str) -> dict[str, str]:
    if not text:
        return {}
    return {name: one or other for name, one, other in _ATTRIBUTE.findall(text)}


def _near(text: str, number: int) -> str:
    """Return words by which a person finds the paragraph of that number in a stretch."""
    pieces: Iterable[str] = _TEXT.findall(text.split(_END)[number])
    words = " ".join(unescape("".join(pieces)).split())
    return f"near {words[:50]!r}" if words else "in a block without text"
