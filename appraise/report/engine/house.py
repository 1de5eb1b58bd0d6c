"""The house document: what every report takes from it, and nothing else it may carry.

Taken: styles, numbering, theme, font table, page size and margins, headers, footers and their pictures, and from the
settings whether odd and even pages differ and whether words are divided. Everything else a document can carry
(macros, links to other files, the template's own author and dates) stays behind.
"""

import copy
import re
from dataclasses import dataclass
from functools import lru_cache

from lxml import etree  # type: ignore[import-untyped]

from appraise.model.finding import Finding, finding
from appraise.model.place import Place
from appraise.report.engine.names import FOOTER, HEADER, R, W
from appraise.report.engine.section import HeadingStyle, Section, TemplateRefusedError, compile_part, unusable
from appraise.report.engine.word_file import NotAWordFileError, Relation, WordFile, inner_xml

NAME = "house.docx"
#: Styles the engine itself writes.
NEEDED = ("TOC1", "TOC2", "TOC3", "FootnoteText", "FootnoteReference")
_PAPER = {"A4": (11906, 16838), "letter": (12240, 15840)}


@dataclass(frozen=True, eq=False)
class Edge:
    """A header or a footer: `header` or `footer`, the pages it is for (default, first, even), its content."""

    kind: str
    pages: str
    section: Section


@dataclass(frozen=True, eq=False)
class House:
    """What a report takes from the house document."""

    styles: bytes
    numbering: bytes | None
    theme: bytes | None
    fonts: bytes | None
    edges: tuple[Edge, ...]
    page: bytes
    headings: tuple[tuple[str, HeadingStyle], ...]
    style_ids: frozenset[str]
    numbering_ids: frozenset[str]
    odd_and_even: bool
    hyphenated: bool


@lru_cache(maxsize=16)
def house(content: bytes) -> House:
    """Return the house document read from its bytes; TemplateRefusedError with findings if it cannot be used."""
    try:
        return _house(WordFile(content))
    except NotAWordFileError as fault:
        raise TemplateRefusedError((unusable(NAME, str(fault)),)) from fault


def _house(file: WordFile) -> House:
    page = file.document.find(f"{W}body/{W}sectPr")
    if page is None:
        raise TemplateRefusedError((_missing("page setup"),))
    styles = file.root("word/styles.xml")
    settings = file.root("word/settings.xml") if "word/settings.xml" in file.names else None
    numbering = _optional(file, "word/numbering.xml")
    ids = frozenset(one.get(f"{W}styleId", "") for one in styles.iter(f"{W}style"))
    odd_and_even = settings is not None and settings.find(f"{W}evenAndOddHeaders") is not None
    faults = [_missing(f"style {name}") for name in NEEDED if name not in ids]
    edges, listed = _edges(file, page, file.relations("word/document.xml"))
    wanted = {"default"} | ({"first"} if page.find(f"{W}titlePg") is not None else set())
    wanted |= {"even"} if odd_and_even else set()
    faults += [_missing(f"header ({pages} pages)") for pages in sorted(wanted - listed)]
    if faults:
        raise TemplateRefusedError(tuple(faults))
    hyphenated = settings is not None and settings.find(f"{W}autoHyphenation") is not None
    return House(
        styles=etree.tostring(styles),
        numbering=None if numbering is None else _bytes(numbering),
        theme=_theme(file),
        fonts=_fonts(file),
        edges=edges,
        page=etree.tostring(page),
        headings=tuple(sorted(_headings(styles).items())),
        style_ids=ids,
        numbering_ids=frozenset()
        if numbering is None
        else frozenset(one.get(f"{W}numId", "") for one in numbering.iter(f"{W}num")),
        odd_and_even=odd_and_even,
        hyphenated=hyphenated,
    )


def _missing(what: str) -> Finding:
    return finding("TPL-16", Place(NAME), found="", file=NAME, what=what)


def _optional(file: WordFile, name: str) -> etree._Element | None:
    return file.root(name) if name in file.names else None


def _theme(file: WordFile) -> bytes | None:
    name = "word/theme/theme1.xml"
    return _bytes(file.root(name)) if name in file.names and not file.relations(name) else None


def _fonts(file: WordFile) -> bytes | None:
    root = _optional(file, "word/fontTable.xml")
    if root is None:
        return None
    for element in list(root.iter()):
        if isinstance(element.tag, str) and etree.QName(element).localname.startswith("embed"):
            element.getparent().remove(element)
    return _bytes(root)


def _bytes(root: etree._Element) -> bytes:
    made: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
    return made


def _headings(styles: etree._Element) -> dict[str, HeadingStyle]:
    """Return the paragraph styles with an outline level of 1 to 3, inherited ones too."""
    by_id = {one.get(f"{W}styleId", ""): one for one in styles.iter(f"{W}style") if one.get(f"{W}type") == "paragraph"}
    found: dict[str, HeadingStyle] = {}
    for name in by_id:
        level = _inherited(by_id, name, f"{W}pPr/{W}outlineLvl")
        number = _inherited(by_id, name, f"{W}pPr/{W}numPr/{W}numId")
        if level in ("0", "1", "2"):
            found[name] = HeadingStyle(int(level) + 1, number not in (None, "0"))
    return found


def _inherited(by_id: dict[str, etree._Element], name: str, path: str) -> str | None:
    seen: set[str] = set()
    while name in by_id and name not in seen:
        seen.add(name)
        found = by_id[name].find(path)
        if found is not None:
            value = found.get(f"{W}val")
            return None if value is None else str(value)
        parent = by_id[name].find(f"{W}basedOn")
        name = "" if parent is None else parent.get(f"{W}val", "")
    return None


def _edges(
    file: WordFile, page: etree._Element, relations: dict[str, Relation]
) -> tuple[tuple[Edge, ...], frozenset[str]]:
    """Return headers and footers in the order of the page setup, and the pages that have a header."""
    edges: list[Edge] = []
    for reference in page.findall(f"{W}headerReference") + page.findall(f"{W}footerReference"):
        kind = "header" if reference.tag == f"{W}headerReference" else "footer"
        pages = reference.get(f"{W}type", "default")
        relation = relations.get(reference.get(f"{R}id", ""))
        if relation is None or relation.external or relation.kind not in (HEADER, FOOTER):
            raise TemplateRefusedError((_missing(f"{kind} ({pages} pages)"),))
        root = file.root(relation.target)
        edges.append(Edge(kind, pages, compile_part(root, file, relation.target, f"{NAME}, {kind}", {})))
    return tuple(edges), frozenset(one.pages for one in edges if one.kind == "header")


def styles_in(found: House, language: str) -> bytes:
    """Return the styles with a report's language as the language of its text."""
    root = etree.fromstring(found.styles)
    holder = root.find(f"{W}docDefaults/{W}rPrDefault/{W}rPr")
    if holder is not None:
        for old in holder.findall(f"{W}lang"):
            holder.remove(old)
        etree.SubElement(holder, f"{W}lang", {f"{W}val": language, f"{W}eastAsia": language})
    return _bytes(root)


def page_setup(found: House, references: str, *, first: bool, landscape: bool, paper: str) -> str:
    """Return the section properties: the house document's, with the report's headers and footers.

    first      the report's first section: only it has a first page of its own
    landscape  width and height change places, and the margins turn with them
    paper      another size keeps the width of the text by moving the side margins
    """
    page = copy.deepcopy(etree.fromstring(found.page))
    for tag in ("headerReference", "footerReference", "sectPrChange", "printerSettings", "type"):
        for element in page.findall(f"{W}{tag}"):
            page.remove(element)
    size, margins = page.find(f"{W}pgSz"), page.find(f"{W}pgMar")
    if paper and size is not None and margins is not None:
        _resize(size, margins, _PAPER[paper])
    if landscape and size is not None and margins is not None and size.get(f"{W}orient") != "landscape":
        width, height = size.get(f"{W}w"), size.get(f"{W}h")
        size.attrib.update({f"{W}w": height, f"{W}h": width, f"{W}orient": "landscape"})
        sides = {one: margins.get(f"{W}{one}", "0") for one in ("top", "right", "bottom", "left")}
        turned = {"top": "left", "right": "top", "bottom": "right", "left": "bottom"}
        margins.attrib.update({f"{W}{one}": sides[turned[one]] for one in turned})
    if not first:
        for element in page.findall(f"{W}titlePg"):
            page.remove(element)
    for key in [one for one in page.attrib if str(one).startswith(f"{W}rsid")]:
        del page.attrib[key]
    text = inner_xml(page)
    opening = re.match(r"<w:sectPr[^>]*>", text)
    assert opening is not None
    kind = "" if first else '<w:type w:val="nextPage"/>'
    return f"{text[: opening.end()]}{references}{kind}{text[opening.end() :]}"


def right_stops(found: House) -> frozenset[int]:
    """Return where the right tab stops of the styles of headers and footers stand [twentieths of a point]."""
    styles = etree.fromstring(found.styles)
    return frozenset(
        int(stop.get(f"{W}pos", "0"))
        for style in styles.iter(f"{W}style")
        if style.get(f"{W}styleId") in ("Header", "Footer")
        for stop in style.iter(f"{W}tab")
        if stop.get(f"{W}val") == "right"
    )


def text_width(setup: str) -> int:
    """Return the width of the text on a page with these section properties [twentieths of a point]."""
    width = re.search(r'<w:pgSz[^>]*w:w="(\d+)"', setup)
    sides = [re.search(rf'<w:pgMar[^>]*w:{side}="(\d+)"', setup) for side in ("left", "right")]
    return int(width[1]) - sum(int(side[1]) for side in sides if side) if width else 0


def _resize(size: etree._Element, margins: etree._Element, paper: tuple[int, int]) -> None:
    spare = paper[0] - int(size.get(f"{W}w", "0"))
    for side, part in (("left", spare // 2), ("right", spare - spare // 2)):
        margins.set(f"{W}{side}", str(int(margins.get(f"{W}{side}", "0")) + part))
    size.attrib.update({f"{W}w": str(paper[0]), f"{W}h": str(paper[1])})
