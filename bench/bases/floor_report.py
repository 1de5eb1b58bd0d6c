"""The floor of a report: the same document put together from strings, straight into the zip.

Templates become plain Python beforehand (`translate`). Pictures and charts take the same string functions as ours;
styles and the like are copied from the house document. No checks, nothing refused, everything in memory.
"""

import re
import sys
import time
from pathlib import Path
from typing import Any
from xml.sax.saxutils import unescape
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

from appraise.report.engine import charts, drawing, names
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.house import house
from appraise.report.engine.section import compiled
from bench.bases.translate import translated
from bench.say import say
from bench.texts import texts_of
from bench.views import read_view

_OUT = '</w:t></w:r>{}<w:r><w:t xml:space="preserve">'
_TEXTS = re.compile(r"<w:t(?: [^>]*)?>([^<]*)</w:t>|<w:(?:br|tab)/>")
_KEEP = ("styles", "numbering", "settings", "fontTable", "theme/theme1")


def escaped(text: str) -> str:
    """Return a text as it stands inside `w:t`."""
    if "&" in text or "<" in text or ">" in text:
        text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    if "\n" in text:
        text = text.replace("\n", '</w:t><w:br/><w:t xml:space="preserve">')
    return text


class Help:
    """What templates call, as short as it can be."""

    def __init__(self, package: ZipFile) -> None:
        self.package = package
        self.relations: list[str] = []
        self.charts: list[str] = []
        self.headings: list[tuple[int, str, str, int]] = []
        self.pictures: dict[str, str] = {}
        self.drawings = self.marks = self.tables = 0
        self.numbers = [0, 0, 0]
        self.counts: dict[str, int] = {}
        self.notes: list[str] = []

    def relation(self, kind: str, target: str) -> str:
        self.relations.append(f'<Relationship Id="r{len(self.relations)}" Type="{kind}" Target="{target}"/>')
        return f"r{len(self.relations) - 1}"

    def drawing_id(self) -> int:
        self.drawings += 1
        return self.drawings

    def picture(self, one: Any, width: int = 75, height: int = 100) -> str:
        if one is None:
            return ""
        relation = self.pictures.get(one.sha256)
        if relation is None:
            name = f"media/image{len(self.pictures)}.{one.kind}"
            self.package.writestr(f"word/{name}", one.source.read_bytes(), ZIP_STORED)
            relation = self.pictures[one.sha256] = self.relation(names.IMAGE, name)
        size = drawing.fitted(one.width, one.height, width_mm=width, height_mm=height)
        return _OUT.format(drawing.picture(relation, self.drawing_id(), size, one.alt))

    def chart(self, one: Any, width: int = 160, height: int = 0) -> str:
        if one is None:
            return ""
        self.charts.append(f"charts/chart{len(self.charts)}.xml")
        self.package.writestr(f"word/{self.charts[-1]}", charts.chart_part(one))
        relation = self.relation(names.CHART, self.charts[-1])
        size = drawing.size(width, height or charts.natural_height(one))
        return _OUT.format(drawing.chart(relation, self.drawing_id(), size, one.alt))

    def footnote(self, text: str) -> str:
        self.notes.append(text)
        return _OUT.format(f'<w:r><w:footnoteReference w:id="{len(self.notes)}"/></w:r>')

    def anchor(self, key: str) -> str:
        self.marks += 1
        name = "a_" + key.replace("-", "_").replace(".", "_")
        return _OUT.format(
            f'<w:bookmarkStart w:id="{self.marks}" w:name="{name}"/><w:bookmarkEnd w:id="{self.marks}"/>'
        )

    def link(self, key: str, text: str) -> str:
        name = "a_" + key.replace("-", "_").replace(".", "_")
        run = f'<w:r><w:t xml:space="preserve">{escaped(text)}</w:t></w:r>'
        return _OUT.format(f'<w:hyperlink w:anchor="{name}" w:history="1">{run}</w:hyperlink>')

    def seq(self, kind: str) -> str:
        count = self.counts[kind] = self.counts.get(kind, 0) + 1
        return _OUT.format(drawing.simple_field(f" SEQ {kind} \\* ARABIC ", str(count)))

    def contents(self, levels: int = 2) -> str:
        return "\0"

    def heading(self, content: str, level: int, numbered: int) -> str:
        number = ""
        if numbered:
            self.numbers[level - 1] += 1
            self.numbers[level:] = [0] * (3 - level)
            number = ".".join(map(str, self.numbers[:level]))
        if level > 2:
            return content
        self.marks += 1
        text = " ".join("".join(found[1] or " " for found in _TEXTS.finditer(content)).split())
        self.headings.append((level, number, text, self.marks))
        mark = f'w:id="{self.marks}"'
        return f'<w:bookmarkStart {mark} w:name="_Toc{self.marks:07d}"/>{content}<w:bookmarkEnd {mark}/>'

    def contents_list(self) -> str:
        lines = []
        for level, number, text, mark in self.headings:
            counted = f"<w:r><w:t>{number}</w:t></w:r><w:r><w:tab/></w:r>" if number else ""
            lines.append(
                f'<w:p><w:pPr><w:pStyle w:val="TOC{level}"/></w:pPr><w:hyperlink w:anchor="_Toc{mark:07d}">{counted}'
                f'<w:r><w:t xml:space="preserve">{escaped(unescape(text))}</w:t></w:r><w:r><w:tab/></w:r>'
                f"{drawing.page_reference(f'_Toc{mark:07d}')}</w:hyperlink></w:p>"
            )
        return "".join(lines)


def sections(composed: Any, templates: TemplateFinder) -> list[tuple[Any, bool]]:
    """Return the function of each section and whether it is repeated."""
    headings = house(templates.house()).headings
    made = []
    for use in composed.sections:
        source = compiled(templates.section(use.name), use.name, headings).source
        names_made: dict[str, Any] = {}
        exec(translated(source, "section"), names_made)
        made.append((names_made["section"], use.per_item))
    return made


def write(target: Path, composed: Any, made: list[tuple[Any, bool]], house_file: Path) -> None:
    """Write the document."""
    with ZipFile(target, "w", ZIP_DEFLATED, compresslevel=6) as package:
        helper = Help(package)
        pieces: list[str] = [f"{names.XML_HEAD}<w:document {names.DECLARED}><w:body>"]
        for section, repeated in made:
            for item in composed.items if repeated else (None,):
                section(composed.report, item, pieces.append, helper, escaped)
        pieces.append("</w:body></w:document>")
        package.writestr("word/document.xml", "".join(pieces).replace("\0", helper.contents_list()))
        with ZipFile(house_file) as old:
            for name in _KEEP:
                if f"word/{name}.xml" in old.namelist():
                    package.writestr(f"word/{name}.xml", old.read(f"word/{name}.xml"))
        package.writestr("word/_rels/document.xml.rels", f"<Relationships>{''.join(helper.relations)}</Relationships>")
        kind = names.TYPES["chart"]
        types = "".join(f'<Override PartName="/word/{one}" ContentType="{kind}"/>' for one in helper.charts)
        package.writestr("[Content_Types].xml", f"<Types>{types}</Types>")


def main(view: str, target: str) -> None:
    """Say the mark of the text and what it took."""
    composed = read_view(Path(view))
    templates = TemplateFinder.with_own()
    made = sections(composed, templates)
    house_file = next(Path(str(folder)) / "house.docx" for folder in templates.folders)
    begun = time.process_time()
    write(Path(target), composed, made, house_file)
    took = time.process_time() - begun
    say(texts_of(Path(target)), took)


if __name__ == "__main__":
    main(*sys.argv[1:])
