"""The structural check of a finished report. Word refuses files that LibreOffice opens; so this looks itself.

Whatever it finds is our own fault, never the user's: the report is not handed over.
"""

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO
from xml.parsers import expat

from lxml import etree  # type: ignore[import-untyped]

from appraise.report.engine.names import NAMESPACES, WP, A, C, R, W

_TEXT_PART = re.compile(r"word/(document|header\d+|footer\d+|footnotes)\.xml")
_TAG = re.compile(r"\{[{%#]")
#: Elements whose children are read one by one.
_HOLDERS = frozenset(f"{W}{name}" for name in ("body", "hdr", "ftr", "footnote"))
_ORDER = {
    f"{W}pPr": "pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr suppressLineNumbers pBdr shd "
    "tabs suppressAutoHyphens kinsoku wordWrap overflowPunct topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd "
    "snapToGrid spacing ind contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment "
    "textboxTightWrap outlineLvl divId cnfStyle rPr sectPr pPrChange",
    f"{W}rPr": "rStyle rFonts b bCs i iCs caps smallCaps strike dstrike outline shadow emboss imprint noProof "
    "snapToGrid vanish webHidden color spacing w kern position sz szCs highlight u effect bdr shd fitText "
    "vertAlign rtl cs em lang eastAsianLayout specVanish oMath",
    f"{W}tcPr": "cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection tcFitText "
    "vAlign hideMark",
    f"{W}tblPr": "tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize tblW jc tblCellSpacing "
    "tblInd tblBorders shd tblLayout tblCellMar tblLook tblCaption tblDescription",
}
_RANKS = {tag: {f"{W}{name}": rank for rank, name in enumerate(order.split())} for tag, order in _ORDER.items()}
_FIND_NESTED = etree.XPath("descendant-or-self::w:p//w:p[not(ancestor::w:txbxContent)]", namespaces=NAMESPACES)
_FIND_IN_TEXT = etree.XPath(".//w:t/*", namespaces=NAMESPACES)
_FIND_BARE = etree.XPath(
    "descendant-or-self::*[not(self::w:t or self::w:instrText)]/text()[normalize-space()]", namespaces=NAMESPACES
)
_FIND_CELLS = etree.XPath(".//w:tc[not(*[last()][self::w:p])]", namespaces=NAMESPACES)
_FIND_EMPTY = etree.XPath(
    "descendant-or-self::w:tbl[not(w:tr)] | .//w:tr[not(w:tc)] | descendant-or-self::w:tbl[not(w:tblGrid/w:gridCol)]",
    namespaces=NAMESPACES,
)
_STYLED = frozenset(f"{W}{name}" for name in ("pStyle", "rStyle", "tblStyle"))
_RELATED = (f"{A}blip", f"{C}chart", f"{W}hyperlink", f"{W}headerReference", f"{W}footerReference")
#: Elements looked at one by one.
_LOOKED_AT = (
    f"{W}t", *_RANKS, *_STYLED, *_RELATED, f"{WP}docPr", f"{W}bookmarkStart", f"{W}bookmarkEnd", f"{W}id",
    f"{W}footnoteReference", f"{W}fldChar",
)  # fmt: skip
_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}"
_TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"


class BrokenReportError(Exception):
    """A finished report is not sound; the problems go to the log."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__(f"the finished report has {len(problems)} structural problems, the first: {problems[0]}")
        self.problems = problems


def inspect_docx(file: Path | BinaryIO, *, most: int = 100) -> list[str]:
    """Return what is wrong with a Word file, at most so many sentences; an empty list if it is sound."""
    found: list[str] = []
    with zipfile.ZipFile(file) as package:
        for problem in _problems(package):
            found.append(problem)
            if len(found) >= most:
                break
    return found


def require_sound(file: Path | BinaryIO) -> None:
    """Raise BrokenReportError if a finished report has any structural problem."""
    problems = inspect_docx(file)
    if problems:
        raise BrokenReportError(problems)


def _problems(package: zipfile.ZipFile) -> Iterator[str]:
    listed = package.namelist()
    if len(set(listed)) != len(listed):
        yield "a part stands twice in the file"
    for name in listed:
        if name.endswith((".xml", ".rels")) and not _TEXT_PART.fullmatch(name):
            fault = _not_well_formed(package, name)
            if fault:
                yield f"{name}: {fault}"
                return
    yield from _types(package, frozenset(listed))
    yield from _links(package, frozenset(listed))
    styles = {one.get(f"{W}styleId") for one in etree.fromstring(package.read("word/styles.xml")).iter(f"{W}style")}
    notes = frozenset(_footnotes(package) if "word/footnotes.xml" in listed else ())
    for name in listed:
        if _TEXT_PART.fullmatch(name):
            try:
                yield from _Part(package, name, styles, notes).problems()
            except etree.XMLSyntaxError as fault:
                yield f"{name}: not well-formed ({fault.msg})"


def _footnotes(package: zipfile.ZipFile) -> Iterator[str | None]:
    with package.open("word/footnotes.xml") as stream:
        for _, note in etree.iterparse(stream, tag=f"{W}footnote"):
            yield note.get(f"{W}id")
            note.clear()


def _not_well_formed(package: zipfile.ZipFile, name: str) -> str:
    with package.open(name) as stream:
        try:
            expat.ParserCreate().ParseFile(stream)
        except expat.ExpatError as fault:
            return f"not well-formed ({fault})"
    return ""


def _types(package: zipfile.ZipFile, listed: frozenset[str]) -> Iterator[str]:
    root = etree.fromstring(package.read("[Content_Types].xml"))
    named = [one.get("PartName", "").lstrip("/") for one in root.iter(f"{_TYPES}Override")]
    endings = {one.get("Extension", "") for one in root.iter(f"{_TYPES}Default")}
    if len(set(named)) != len(named):
        yield "a content type is declared twice"
    for name in sorted(set(named) - listed):
        yield f"a content type is declared for {name}, which is not there"
    for name in sorted(listed - set(named) - {"[Content_Types].xml"}):
        if name.rpartition(".")[2] not in endings or (name.endswith(".xml") and name.startswith("word/")):
            yield f"{name} has no content type"


def _links(package: zipfile.ZipFile, listed: frozenset[str]) -> Iterator[str]:
    for name in sorted(one for one in listed if one.endswith(".rels")):
        folder = name.rpartition("_rels/")[0]
        for one in etree.fromstring(package.read(name)).iter(f"{_RELATIONS}Relationship"):
            if one.get("TargetMode") != "External" and f"{folder}{one.get('Target')}" not in listed:
                yield f"{name}: {one.get('Id')} points at {one.get('Target')}, which is not there"


class _Part:
    """One part of text, read block by block so that a long report stays flat in memory."""

    def __init__(
        self, package: zipfile.ZipFile, name: str, styles: set[str | None], notes: frozenset[str | None]
    ) -> None:
        self.package, self.name, self.styles, self.notes = package, name, styles, notes
        folder, _, file = name.rpartition("/")
        relations = f"{folder}/_rels/{file}.rels"
        self.related = (
            {one.get("Id") for one in etree.fromstring(package.read(relations)).iter(f"{_RELATIONS}Relationship")}
            if relations in package.namelist()
            else set()
        )
        self.seen: dict[str, set[str | None]] = {"drawing": set(), "bookmark": set(), "name": set(), "control": set()}
        self.open: set[str | None] = set()
        self.anchors: set[str | None] = set()
        self.depth = 0

    def problems(self) -> Iterator[str]:
        """Yield what is wrong with the part."""
        with self.package.open(self.name) as stream:
            for _, block in etree.iterparse(stream, events=("end",), tag=(f"{W}p", f"{W}tbl", f"{W}sectPr")):
                parent = block.getparent()
                if parent is None or parent.tag not in _HOLDERS:
                    continue
                yield from (f"{self.name}: {one}" for one in self._block(block))
                block.clear()
                while block.getprevious() is not None:
                    del parent[0]
        for missing in sorted(str(one) for one in self.anchors - self.seen["name"]):
            yield f"{self.name}: a link points at {missing}, which is not there"
        if self.open:
            yield f"{self.name}: {len(self.open)} bookmarks are not closed"
        if self.depth:
            yield f"{self.name}: a field is not closed"

    def _block(self, block: etree._Element) -> Iterator[str]:
        for problem in self._faults(block):
            yield f"{problem}, {self._near(block)}"

    def _faults(self, block: etree._Element) -> Iterator[str]:
        if _FIND_NESTED(block):
            yield "a paragraph stands inside a paragraph"
        if _FIND_IN_TEXT(block):
            yield "an element stands inside a text"
        if any(not str(one.getparent().tag).startswith(WP) for one in _FIND_BARE(block)):
            yield "text stands outside a run"
        if _FIND_CELLS(block):
            yield "a cell does not end with a paragraph"
        if _FIND_EMPTY(block):
            yield "a table without rows or a row without cells"
        for element in block.iter(*_LOOKED_AT):
            yield from self._element(element)

    def _element(self, element: etree._Element) -> Iterator[str]:
        tag = element.tag
        if tag == f"{W}t":
            if element.text and _TAG.search(element.text):
                yield f"a tag is left: {element.text[:60]!r}"
        elif tag in _RANKS:
            yield from self._order(element)
        elif tag in _STYLED:
            if element.get(f"{W}val") not in self.styles:
                yield f"the style {element.get(f'{W}val')} is not in the house document"
        elif tag in _RELATED:
            yield from self._related(element)
        else:
            yield from self._numbered(element, tag)

    def _numbered(self, element: etree._Element, tag: str) -> Iterator[str]:
        ident = element.get(f"{W}id")
        if tag == f"{WP}docPr":
            yield from self._once("drawing", element.get("id"))
            if not (element.get("descr") or "").strip():
                yield "a drawing has no description"
        elif tag == f"{W}bookmarkStart":
            yield from self._once("bookmark", ident)
            yield from self._once("name", element.get(f"{W}name"))
            self.open.add(ident)
        elif tag == f"{W}bookmarkEnd":
            if ident not in self.open:
                yield "a bookmark is closed that is not open"
            self.open.discard(ident)
        elif tag == f"{W}footnoteReference":
            if ident not in self.notes:
                yield f"footnote {ident} is not there"
        elif tag == f"{W}fldChar":
            self.depth += {"begin": 1, "end": -1}.get(element.get(f"{W}fldCharType"), 0)
        elif element.getparent().tag == f"{W}sdtPr":
            yield from self._once("control", element.get(f"{W}val"))

    def _related(self, element: etree._Element) -> Iterator[str]:
        if element.get(f"{W}anchor") is not None:
            self.anchors.add(element.get(f"{W}anchor"))
        for key in ("id", "embed", "link"):
            value = element.get(f"{R}{key}")
            if value is not None and value not in self.related:
                yield f"the relationship {value} is not there"

    def _once(self, kind: str, value: str | None) -> Iterator[str]:
        if value in self.seen[kind]:
            yield f"{kind} {value} is there twice"
        self.seen[kind].add(value)

    @staticmethod
    def _order(properties: etree._Element) -> Iterator[str]:
        """Yield a property out of the order the schema gives them; Word refuses some."""
        ranks, last = _RANKS[properties.tag], -1
        for child in properties:
            rank = ranks.get(child.tag, last)
            if rank < last:
                yield f"{etree.QName(child).localname} stands too late in {etree.QName(properties).localname}"
                return
            last = rank

    @staticmethod
    def _near(block: etree._Element) -> str:
        words = " ".join("".join(block.itertext()).split())
        return f"near {words[:50]!r}" if words else "in a block without text"
