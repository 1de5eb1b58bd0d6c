"""Puts a report together: house document, sections in order, items one after the other, into one open file."""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, islice
from typing import Any, BinaryIO
from xml.parsers import expat

from markupsafe import Markup

from appraise.report.engine import names
from appraise.report.engine.contents import contents_list
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.helpers import CONTENTS_MARK, Helpers, TooLargeError
from appraise.report.engine.house import Edge, House, house, page_setup, right_stops, styles_in, text_width
from appraise.report.engine.package import Package, Spool
from appraise.report.engine.section import Section, compiled
from appraise.report.engine.settings import app_part, core_part, settings_part
from appraise.report.engine.views import Edges, Properties, SectionUse
from appraise.report.engine.watermark import watermark

#: Pieces of text joined before they are written; large enough to be quick, small enough to stay flat.
_PIECES = 2000
#: More than this is no report [bytes of the main part], or no rendering of one section.
MOST_BYTES = 2_000_000_000
MOST_BYTES_AT_ONCE = 400_000_000


def render(
    target: BinaryIO,
    sections: Sequence[SectionUse],
    report_view: object,
    items: Iterable[object],
    *,
    templates: TemplateFinder,
    properties: Properties,
    edges: Edges,
    draft: bool = False,
) -> None:
    """Write the report as a Word file into an open binary file.

    sections    in the order of the report; neighbours that are repeated are repeated together, item by item
    items       the item views; read once for each group of repeated sections, so an iterator serves one group only
    templates   where house document and sections are found
    draft       the draft's mark goes across every page

    What is written is checked afterwards: `inspect.require_sound` reads the finished file strictly and goes through
    its structure; nobody hands a report over without it.

    Refused: a template that cannot be used (TemplateRefusedError, with findings); one that repeats more than any
    report needs (TooLargeError). After an exception the file is not a report; its owner removes it.
    """
    found = house(templates.house())
    parts = {use.name: _compiled(use.name, templates, found) for use in sections}
    groups = sum(1 for repeated, _ in groupby(sections, lambda use: use.per_item) if repeated)
    if groups > 1 and iter(items) is items:
        raise ValueError("items that can be read only once serve one group of repeated sections")
    footnotes, body = Spool(), Body()
    try:
        with Package(target) as package:
            helpers = Helpers(package, footnotes)
            _house_parts(package, found, properties)
            context = {"r": report_view, "edges": edges, **helpers.context()}
            marks = edges.draft if draft else ""
            wide_page = page_setup(found, "", first=True, landscape=True, paper=properties.paper)
            cleared = "".join(f'<w:tab w:val="clear" w:pos="{stop}"/>' for stop in sorted(right_stops(found)))
            stops = f'<w:tabs>{cleared}<w:tab w:val="right" w:pos="{text_width(wide_page)}"/></w:tabs>'
            setups = {}
            for wide in (False, True):
                if wide and not any(part.landscape for part in parts.values()):
                    continue
                references = _edges(package, found, context, marks, stops if wide else "")
                for first in (True, False):
                    setup = page_setup(found, references, first=first, landscape=wide, paper=properties.paper)
                    setups[first, wide] = setup
            _sections(body, helpers, sections, parts, report_view, items, setups)
            body.close_with(helpers)
            package.streamed("word/document.xml", "document", body.size, body.copy_to)
            _footnotes(package, footnotes)
            package.finish()
    finally:
        footnotes.close()
        body.close()


def _compiled(name: str, templates: TemplateFinder, found: House) -> Section:
    return compiled(templates.section(name), f"sections/{name}.docx", found.headings)


class Body:
    """The main part while it grows, kept aside until the contents list is known."""

    def __init__(self) -> None:
        self._spool = Spool()
        self._contents_at: int | None = None
        self._contents = Spool()
        self.write(f"{names.XML_HEAD}<w:document {names.DECLARED}><w:body>")

    @property
    def size(self) -> int:
        return self._spool.size + self._contents.size

    def write(self, text: str) -> None:
        if CONTENTS_MARK in text:
            before, text = text.split(CONTENTS_MARK, 1)
            self.write(before)
            self._contents_at = self._spool.size
        self._spool.write(text)

    def write_all(self, pieces: Iterator[str], longest: int) -> None:
        """Write the pieces of one rendering; `longest` is how long a piece of its template may be."""
        most = min(self._spool.size + MOST_BYTES_AT_ONCE, MOST_BYTES)
        together = max(8, min(_PIECES, 40_000_000 // max(longest, 1)))
        while block := list(islice(pieces, together)):
            self.write("".join(block))
            if self._spool.size > most:
                raise TooLargeError("the report grows beyond any report's size")

    def close_with(self, helpers: Helpers) -> None:
        """End the part and make the contents list, now that all headings are known."""
        self.write("</w:body></w:document>")
        if self._contents_at is not None:
            for paragraph in contents_list(helpers.listed(), helpers.contents_levels):
                self._contents.write(paragraph)

    def copy_to(self, target: Any) -> None:
        if self._contents_at is None:
            self._spool.copy_to(target)
            return
        self._spool.copy_to(target, 0, self._contents_at)
        self._contents.copy_to(target)
        self._spool.copy_to(target, self._contents_at)

    def close(self) -> None:
        self._spool.close()
        self._contents.close()


def _sections(
    body: Body,
    helpers: Helpers,
    sections: Sequence[SectionUse],
    parts: dict[str, Section],
    report_view: object,
    items: Iterable[object],
    setups: dict[tuple[bool, bool], str],
) -> None:
    """Write every section, with a change of page setup wherever the pages turn."""
    context = {"r": report_view, **helpers.context()}
    state = (True, parts[sections[0].name].landscape if sections else False)

    def one(use: SectionUse, names_given: dict[str, Any]) -> None:
        nonlocal state
        section = parts[use.name]
        if section.landscape != state[1]:
            body.write(f"<w:p><w:pPr>{_TINY}{setups[state]}</w:pPr></w:p>")
            state = (False, section.landscape)
        helpers.begin(section)
        template = section.template
        body.write_all(template.root_render_func(template.new_context(names_given)), len(section.source))

    for repeated, group in groupby(sections, lambda use: use.per_item):
        uses = tuple(group)
        for item in items if repeated else (None,):
            given = {**context, "item": item} if repeated else context
            for use in uses:
                one(use, given)
    body.write(setups[state])


_TINY = '<w:spacing w:before="0" w:after="0" w:line="20" w:lineRule="exact"/>'


def _house_parts(package: Package, found: House, properties: Properties) -> None:
    """Write what comes from the house document, but for headers and footers."""
    package.relations_of(
        "",
        [
            ("rId1", names.OFFICE_DOCUMENT, "word/document.xml", False),
            ("rId2", names.CORE_PROPERTIES, "docProps/core.xml", False),
            ("rId3", names.EXTENDED_PROPERTIES, "docProps/app.xml", False),
        ],
    )
    package.part("docProps/core.xml", core_part(properties), "core")
    package.part("docProps/app.xml", app_part(), "app")
    for name, relation, content in (
        ("styles", names.STYLES, styles_in(found, properties.language)),
        ("settings", names.SETTINGS, settings_part(found, properties.language)),
        ("numbering", names.NUMBERING, found.numbering),
        ("fontTable", names.FONT_TABLE, found.fonts),
    ):
        if content is not None:
            package.part(f"word/{name}.xml", content, name)
            package.relation(relation, f"{name}.xml")
    if found.theme is not None:
        package.part("word/theme/theme1.xml", found.theme, "theme")
        package.relation(names.THEME, "theme/theme1.xml")
    package.relation(names.FOOTNOTES, "footnotes.xml")


def _edges(package: Package, found: House, context: dict[str, Any], mark: str, stops: str) -> str:
    """Write the headers and footers; return the references to them.

    mark   words across every page of a draft, "" for none
    stops  tab stops for pages that lie on their side, "" for upright ones
    """
    first = 1 + len(found.edges) if stops else 1
    return "".join(
        _edge(package, number, edge, context, watermark(mark, number) if mark else "", stops)
        for number, edge in enumerate(found.edges, first)
    )


def _edge(package: Package, number: int, edge: Edge, context: dict[str, Any], mark: str, stops: str) -> str:
    """Write one header or footer and return the reference to it."""
    part = f"word/{edge.kind}{number}.xml"
    lines: list[tuple[str, str, str, bool]] = []
    for index, (relation, content) in enumerate(edge.section.resources):
        if content is None:
            lines.append((f"rId{index}", names.HYPERLINK, relation.target, True))
        else:
            kind = "png" if relation.target.endswith(".png") else "jpeg"
            lines.append((f"rId{index}", names.IMAGE, f"media/{package.media(kind, content)}", False))
    given = {**context, "_link_id": _LinkIds().of}
    tag = "w:hdr" if edge.kind == "header" else "w:ftr"
    text = "".join(edge.section.template.generate(given))
    if stops:
        # What stands at the right end of an upright page stands at the right end of a wide one.
        text = _EDGE_STYLE.sub(rf"\1{stops}", text)
    if edge.kind == "header":
        text = f"{mark}{text}"
    finished = f"{names.XML_HEAD}<{tag} {names.DECLARED}>{text}</{tag}>".encode()
    expat.ParserCreate().Parse(finished, True)
    package.part(part, finished, edge.kind)
    package.relations_of(part, lines)
    relation_id = package.relation(names.HEADER if edge.kind == "header" else names.FOOTER, f"{edge.kind}{number}.xml")
    return f'<w:{edge.kind}Reference w:type="{edge.pages}" r:id="{relation_id}"/>'


#: A paragraph of a header or footer that has no tab stops of its own.
_EDGE_STYLE = re.compile(r'(<w:pStyle w:val="(?:Header|Footer)"/>)(?!<w:tabs>)')


class _LinkIds:
    """Links of a header or footer keep the numbers they have in it."""

    def of(self, number: int) -> Markup:
        return Markup(f"rId{number}")  # noqa: S704 - a number only

    of.template_helper = True  # type: ignore[attr-defined]


def _footnotes(package: Package, footnotes: Spool) -> None:
    """Write the footnotes, with the two that stand for the separating lines."""
    head = (
        f"{names.XML_HEAD}<w:footnotes {names.DECLARED}>"
        '<w:footnote w:type="separator" w:id="-1"><w:p><w:r><w:separator/></w:r></w:p></w:footnote>'
        '<w:footnote w:type="continuationSeparator" w:id="0"><w:p><w:r><w:continuationSeparator/></w:r></w:p>'
        "</w:footnote>"
    ).encode()
    tail = b"</w:footnotes>"

    def write(target: Any) -> None:
        target(head)
        footnotes.copy_to(target)
        target(tail)

    package.streamed("word/footnotes.xml", "footnotes", footnotes.size + len(head) + len(tail), write)
