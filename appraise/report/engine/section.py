"""One template, read and compiled: docxtpl's `patch_xml` gives the source, our environment compiles it.

What docxtpl would do after rendering is done here once, in the source: drawing ids, links to pictures, widths of
repeated columns, bookmarks of headings. So the rendered text can go straight into the finished part.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from types import CodeType
from typing import Any

from jinja2 import Template, nodes
from jinja2.exceptions import TemplateSyntaxError
from lxml import etree  # type: ignore[import-untyped]

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.report.engine.environment import environment
from appraise.report.engine.guard import refusals
from appraise.report.engine.kept_code import keep_code, kept_code
from appraise.report.engine.names import HYPERLINK, IMAGE, NAMESPACES, R, W
from appraise.report.engine.tags import Scan, Tag
from appraise.report.engine.word_file import NotAWordFileError, Relation, WordFile, inner_xml

#: Fields a template may hold: they count, number or point within the document and fetch nothing.
FIELDS = frozenset({"PAGE", "NUMPAGES", "SECTIONPAGES", "PAGEREF", "REF", "SEQ", "STYLEREF", "TOC", "TITLE"})
_TRACKED = frozenset(
    f"{W}{name}"
    for name in ("ins", "del", "moveFrom", "moveTo", "delText", "pPrChange", "rPrChange", "tblPrChange", "trPrChange")
)
_FETCHES = frozenset(f"{W}{name}" for name in ("object", "altChunk", "subDoc", "control", "contentPart"))
_DROPPED = tuple(
    f"{W}{name}"
    for name in (
        "bookmarkStart", "bookmarkEnd", "proofErr", "lastRenderedPageBreak", "permStart", "permEnd",
        "commentRangeStart", "commentRangeEnd", "commentReference",
    )
)  # fmt: skip
_KNOWN = frozenset(NAMESPACES.values())


class TemplateRefusedError(Exception):
    """A template cannot be used; `findings` say where and why."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("; ".join(f"{one.place.sheet}, paragraph {one.place.row}: {one.code}" for one in findings))
        self.findings = findings


@frozen
class HeadingStyle:
    """A paragraph style that makes a heading: outline level from 1, and whether it carries a number."""

    level: int
    numbered: bool


@dataclass(frozen=True, eq=False)
class Section:
    """A compiled template.

    checked    the text that was looked through for what a template may not say; `source` is what is rendered
    styles, numberings   what it uses of the house document, each with the first paragraph that does
    resources   what its links point at, in the order of their numbers: (relationship, bytes of a picture or None)
    landscape   its pages lie on their side
    tags        its tags in order; `tree` counts them as lines from 2
    """

    name: str
    checked: str
    source: str
    template: Template
    resources: tuple[tuple[Relation, bytes | None], ...]
    landscape: bool
    tags: tuple[Tag, ...]
    styles: Mapping[str, int]
    numberings: Mapping[str, int]

    @cached_property
    def tree(self) -> nodes.Template:
        """The syntax tree of what was checked."""
        return environment().parse(self.checked)


@lru_cache(maxsize=256)
def compiled(content: bytes, name: str, headings: tuple[tuple[str, HeadingStyle], ...] = ()) -> Section:
    """Return the section compiled from a template's bytes; TemplateRefusedError with every finding if it cannot be."""
    try:
        file = WordFile(content)
        body = file.document.find(f"{W}body")
        if body is None:
            raise NotAWordFileError("it has no body")
        return compile_part(body, file, "word/document.xml", name, dict(headings))
    except NotAWordFileError as fault:
        raise TemplateRefusedError((unusable(name, str(fault)),)) from fault


def unusable(name: str, reason: str) -> Finding:
    """Return the finding for a file that is no template at all."""
    return finding("TPL-01", Place(name), found=name, file=name, reason=reason)


def compile_part(
    body: etree._Element, file: WordFile, part: str, name: str, headings: Mapping[str, HeadingStyle]
) -> Section:
    """Return the compiled content of a body, a header or a footer."""
    place, made_of = f"{name} {part}", f"{file.mark} {sorted(headings.items())!r}"
    kept = kept_code(place, made_of)
    if kept is not None:
        return Section(**kept[0], template=Template.from_code(environment(), kept[1], {}))
    scan = Scan(body, name)
    _structure(body, scan)
    relations = file.relations(part)
    styles, numberings = _used(body, scan, "pStyle", "rStyle", "tblStyle"), _used(body, scan, "numId")
    landscape = _landscape(body)
    resources = _resources(body, relations, file, scan)
    if scan.findings:
        raise TemplateRefusedError(tuple(scan.findings))
    checked = numbered_source(_cleaned(body))
    _check(checked, scan)
    source = _prepared(checked, headings)
    code = _compile(source)
    beside: dict[str, Any] = {
        "name": name,
        "checked": checked,
        "source": source,
        "resources": resources,
        "landscape": landscape,
        "tags": tuple(scan.tags),
        "styles": styles,
        "numberings": numberings,
    }
    keep_code(place, made_of, beside, code)
    return Section(**beside, template=Template.from_code(environment(), code, {}))


def _structure(body: etree._Element, scan: Scan) -> None:
    """Report tracked changes, embedded objects, foreign drawings and fields that fetch."""
    for element in body.iter():
        if not isinstance(element.tag, str):
            continue
        if element.tag in _TRACKED:
            scan.report("TPL-03", scan.number_of(element), "".join(element.itertext()).strip()[:60])
        elif element.tag in _FETCHES or etree.QName(element).namespace not in _KNOWN:
            scan.report("TPL-02", scan.number_of(element), etree.QName(element).localname)
        elif element.tag == f"{W}fldSimple":
            _field(element.get(f"{W}instr", ""), element, body, scan)
    for paragraph in body.iter(f"{W}p"):
        code = "".join(one.text or "" for one in paragraph.iter(f"{W}instrText"))
        if code.strip():
            _field(code, paragraph, body, scan)


def _field(code: str, element: etree._Element, body: etree._Element, scan: Scan) -> None:
    words = code.split()
    if not words or words[0].upper() not in FIELDS:
        scan.report("TPL-12", scan.number_of(element), code.strip()[:60])


def _used(body: etree._Element, scan: Scan, *names: str) -> dict[str, int]:
    found: dict[str, int] = {}
    for element in body.iter(*(f"{W}{name}" for name in names)):
        found.setdefault(element.get(f"{W}val", ""), scan.number_of(element))
    return found


def _landscape(body: etree._Element) -> bool:
    size = body.find(f"{W}sectPr/{W}pgSz")
    return size is not None and size.get(f"{W}orient") == "landscape"


def _resources(
    body: etree._Element, relations: Mapping[str, Relation], file: WordFile, scan: Scan
) -> tuple[tuple[Relation, bytes | None], ...]:
    """Replace each link's id by a number of ours and return what the numbers stand for."""
    found: list[tuple[Relation, bytes | None]] = []
    numbers: dict[str, int] = {}
    for element in body.iter():
        if element.tag in (f"{W}headerReference", f"{W}footerReference"):
            continue
        for key, value in list(element.attrib.items()):
            if not str(key).startswith(R):
                continue
            relation = relations.get(str(value))
            number = scan.number_of(element)
            if relation is None or not _harmless(relation) or str(key) == f"{R}link":
                scan.report("TPL-02", number, relation.target if relation else str(value))
                continue
            if str(value) not in numbers:
                numbers[str(value)] = len(found)
                found.append((relation, None if relation.external else file.read(relation.target)))
            element.set(str(key), f"appraise-link-{numbers[str(value)]}")
    return tuple(found)


def _harmless(relation: Relation) -> bool:
    if relation.kind == HYPERLINK:
        return relation.external and relation.target.startswith(("http://", "https://", "mailto:"))
    return relation.kind == IMAGE and not relation.external and relation.target.endswith((".png", ".jpg", ".jpeg"))


def _cleaned(body: etree._Element) -> str:
    """Return the content as text: no section properties, bookmarks, revision marks, content controls."""
    for section in body.findall(f"{W}sectPr"):
        body.remove(section)
    for control in list(body.iter(f"{W}sdt")):
        holder = control.getparent()
        content = control.find(f"{W}sdtContent")
        place = holder.index(control)
        for child in reversed(list(content) if content is not None else []):
            holder.insert(place, child)
        holder.remove(control)
    etree.strip_elements(body, *_DROPPED, etree.Comment, etree.ProcessingInstruction, with_tail=False)
    for element in body.iter():
        for key in list(element.attrib):
            space = etree.QName(key).namespace
            if (space is not None and space not in _KNOWN and not str(key).startswith("{http://www.w3.org/XML")) or (
                str(key).startswith(f"{W}rsid")
            ):
                del element.attrib[key]
    return "".join(inner_xml(child) for child in body)


def numbered_source(xml: str) -> str:
    """Return docxtpl's reading of the text, with a line break at the start of each tag: tag k stands on line k + 1."""
    from docxtpl import DocxTemplate

    patched: str = DocxTemplate(None).patch_xml(re.sub(r"[\r\n]+", " ", xml))
    return re.sub(r"(\{\{|\{%)", "\\1\n", patched)


def _check(source: str, scan: Scan) -> None:
    """Go through the source; TemplateRefusedError for what does not parse or may not be said."""
    try:
        tree = environment().parse(source)
    except TemplateSyntaxError as fault:
        tag = tag_on_line(tuple(scan.tags), fault.lineno)
        scan.report("TPL-08", tag.paragraph if tag else 0, tag.text if tag else "", reason=fault.message or "")
        raise TemplateRefusedError(tuple(scan.findings)) from fault
    except RecursionError as fault:
        scan.report("TPL-07", 0, "", what="so deep a nesting")
        raise TemplateRefusedError(tuple(scan.findings)) from fault
    for refusal in refusals(tree):
        tag = tag_on_line(tuple(scan.tags), refusal.line)
        scan.report("TPL-07", tag.paragraph if tag else 0, tag.text if tag else "", what=refusal.what)
    if scan.findings:
        raise TemplateRefusedError(tuple(scan.findings))


def tag_on_line(tags: tuple[Tag, ...], line: int) -> Tag | None:
    """Return the tag that stands on a line of the source."""
    return tags[line - 2] if 2 <= line < len(tags) + 2 else None


_DRAWING_ID = re.compile(r'(<wp:docPr [^>]*?\bid=")\d+(")|(<wp:docPr id=")\d+(")')
_LINK = re.compile(r"appraise-link-(\d+)")
_TABLE = re.compile(r"<w:tbl>(?:(?!<w:tbl>).)*?</w:tbl>", re.DOTALL)
_ROW = re.compile(r"<w:tr[ >].*?</w:tr>", re.DOTALL)
_REPEATED = re.compile(r"\{%\s*for (\w+) in ([\w.]+)\s*%\}\s*(<w:tc>.*?</w:tc>)\s*\{%\s*endfor\s*%\}", re.DOTALL)
_CELL_WIDTH = re.compile(r'(<w:tcW [^>]*?w:w=")(\d+)(")')
_GRID = re.compile(r"<w:tblGrid>.*?</w:tblGrid>", re.DOTALL)
_PARAGRAPH = re.compile(
    r'(<w:p(?: [^>]*)?>)(<w:pPr>(?:(?!</w:pPr>).)*?<w:pStyle w:val="([^"]*)"/>.*?</w:pPr>)(.*?)(</w:p>)', re.DOTALL
)


def _prepared(source: str, headings: Mapping[str, HeadingStyle]) -> str:
    source = _DRAWING_ID.sub(lambda m: f"{m[1] or m[3]}{{{{ _drawing_id() }}}}{m[2] or m[4]}", source)
    source = _LINK.sub(r"{{ _link_id(\1) }}", source)
    source = _TABLE.sub(lambda m: _shared_widths(m.group()), source)

    def heading(match: re.Match[str]) -> str:
        style = headings.get(match[3])
        if style is None:
            return match.group()
        call = f"{{% filter _heading({style.level}, {int(style.numbered)}) %}}"
        return f"{match[1]}{match[2]}{call}{match[4]}{{% endfilter %}}{match[5]}"

    return _PARAGRAPH.sub(heading, source) if headings else source


def _shared_widths(table: str) -> str:
    """Return the table's source with columns that are repeated sharing the width of the one they are drawn from."""
    first = _ROW.search(table)
    if first is None or not _REPEATED.search(first.group()):
        return table
    columns = []
    position = 0
    for match in [*_REPEATED.finditer(first.group()), None]:
        fixed = first.group()[position : match.start() if match else len(first.group())]
        columns += [f'<w:gridCol w:w="{width[1]}"/>' for width in _CELL_WIDTH.findall(fixed)]
        if match:
            position = match.end()
            width = _CELL_WIDTH.search(match[3])
            share = f"{{% with _width = {match[2]} | _share({width[2] if width else 0}) %}}"
            repeated = f'{{% for {match[1]} in {match[2]} %}}<w:gridCol w:w="{{{{ _width }}}}"/>{{% endfor %}}'
            columns.append(f"{share}{repeated}{{% endwith %}}")

    def shared(match: re.Match[str]) -> str:
        width = _CELL_WIDTH.search(match[3])
        cells = _CELL_WIDTH.sub(r"\1{{ _width }}\3", match.group())
        return f"{{% with _width = {match[2]} | _share({width[2] if width else 0}) %}}{cells}{{% endwith %}}"

    table = _REPEATED.sub(shared, table)
    return _GRID.sub(lambda _: f"<w:tblGrid>{''.join(columns)}</w:tblGrid>", table, count=1)


def _compile(source: str) -> CodeType:
    """Return the template's code; every loop in it is counted before it runs."""
    made = environment()
    tree = made.parse(source)
    for loop in _loops(tree):
        loop.iter = nodes.Filter(loop.iter, "_steps", [], [], None, None, lineno=loop.lineno, environment=made)
    return made.compile(tree)


def _loops(tree: nodes.Template) -> Iterator[nodes.For]:
    """Yield every loop. They stand in the bodies of statements only, so no expression is looked through."""
    waiting: list[nodes.Node] = [tree]
    while waiting:
        one = waiting.pop()
        if isinstance(one, nodes.For):
            yield one
        for name in ("body", "elif_", "else_"):
            waiting += getattr(one, name, ())
