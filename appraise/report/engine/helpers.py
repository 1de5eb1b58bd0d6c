"""What a template may call, and what the engine calls from inside a template: one object per report."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any, TypeVar
from xml.sax.saxutils import unescape

from markupsafe import Markup

from appraise.model.frozen import frozen
from appraise.report.engine import charts, drawing
from appraise.report.engine.environment import marked_up
from appraise.report.engine.names import CHART, HYPERLINK, IMAGE
from appraise.report.engine.package import Package, Spool
from appraise.report.engine.section import Section
from appraise.report.engine.views import Chart, Picture

#: Stands in the stream where the contents list belongs; no text can contain it.
CONTENTS_MARK = "\x00contents\x00"
#: Steps that the loops of one rendering may take together; a schedule of 10,000 lines needs some 100,000.
MOST_STEPS = 3_000_000

F = TypeVar("F", bound=Callable[..., Any])
_OUT_OF_RUN = '</w:t></w:r>{}<w:r><w:t xml:space="preserve">'
_TEXTS = re.compile(r"<w:t(?: [^>]*)?>([^<]*)</w:t>|<w:(?:br|tab)/>")
_KEY = re.compile(r"[A-Za-z][A-Za-z0-9_.-]{0,38}")


class TooLargeError(Exception):
    """A template repeats more than any report needs."""


def _helper(function: F) -> F:
    function.template_helper = True  # type: ignore[attr-defined]
    return function


@frozen
class Heading:
    """A heading as the contents list shows it."""

    level: int
    number: str
    text: str
    bookmark: str


@dataclass
class Helpers:
    """The state of one report: numbers given out, headings met, footnotes written."""

    package: Package
    footnotes: Spool
    section: Section | None = None
    contents_levels: int = 0
    headings: list[Heading] = field(default_factory=list)
    _drawings: int = 0
    _bookmarks: int = 0
    _notes: int = 0
    _steps: int = 0
    _counts: dict[str, int] = field(default_factory=dict)
    _numbers: list[int] = field(default_factory=lambda: [0, 0, 0])
    _links: dict[tuple[int, int], str] = field(default_factory=dict)
    _anchors: dict[str, int] = field(default_factory=dict)

    def context(self) -> dict[str, Any]:
        """Return the names every template is given."""
        return {
            "picture": self.picture,
            "chart": self.chart,
            "footnote": self.footnote,
            "anchor": self.anchor,
            "link": self.link,
            "page_of": self.page_of,
            "seq": self.seq,
            "contents": self.contents,
            "_drawing_id": self.drawing_id,
            "_link_id": self.link_id,
            "_spend": self.spend,
            "_mark_heading": self.mark_heading,
        }

    @_helper
    def picture(self, picture: Picture | None, width_mm: int = 75, height_mm: int = 100) -> Markup:
        """Return a picture that fits into the box given [mm], its sides in proportion; nothing for none."""
        if picture is None:
            return Markup("")
        relation = self.package.picture(picture.sha256, picture.kind, picture.source, IMAGE)
        size = drawing.fitted(picture.width, picture.height, width_mm=width_mm, height_mm=height_mm)
        shape = drawing.picture(relation, self._next_drawing(), size, picture.alt)
        return Markup(_OUT_OF_RUN.format(shape))  # noqa: S704 - built from escaped parts

    @_helper
    def chart(self, chart: Chart | None, width_mm: int = 160, height_mm: int = 0) -> Markup:
        """Return a native chart, without a height as high as its rows need; nothing for none."""
        if chart is None:
            return Markup("")
        height = height_mm or charts.natural_height(chart)
        relation = self.package.chart(charts.chart_part(chart), CHART)
        shape = drawing.chart(relation, self._next_drawing(), drawing.size(width_mm, height), chart.alt)
        return Markup(_OUT_OF_RUN.format(shape))  # noqa: S704 - built from escaped parts

    @_helper
    def footnote(self, text: str) -> Markup:
        """Return the mark of a new footnote that holds the text; nothing for an empty text."""
        if not text:
            return Markup("")
        self._notes += 1
        self.footnotes.write(
            f'<w:footnote w:id="{self._notes}"><w:p><w:pPr><w:pStyle w:val="FootnoteText"/></w:pPr>'
            '<w:r><w:rPr><w:rStyle w:val="FootnoteReference"/></w:rPr><w:footnoteRef/></w:r>'
            f'<w:r><w:t xml:space="preserve"> {marked_up(text)}</w:t></w:r></w:p></w:footnote>'
        )
        mark = (
            '<w:r><w:rPr><w:rStyle w:val="FootnoteReference"/></w:rPr>'
            f'<w:footnoteReference w:id="{self._notes}"/></w:r>'
        )
        return Markup(_OUT_OF_RUN.format(mark))  # noqa: S704 - a number only

    @_helper
    def anchor(self, key: str) -> Markup:
        """Return a place that `link` and `page_of` can point at."""
        name = _bookmark_name(key)
        self._anchors[name] = self._anchors.get(name, 0) + 1
        if self._anchors[name] > 1:
            raise ValueError(f"two anchors are called {key!r}")
        self._bookmarks += 1
        mark = f'<w:bookmarkStart w:id="{self._bookmarks}" w:name="{name}"/><w:bookmarkEnd w:id="{self._bookmarks}"/>'
        return Markup(_OUT_OF_RUN.format(mark))  # noqa: S704 - checked name

    @_helper
    def link(self, key: str, text: str) -> Markup:
        """Return the text as a link to an anchor of this report."""
        shown = f'<w:r><w:t xml:space="preserve">{marked_up(text)}</w:t></w:r>'
        return Markup(  # noqa: S704 - built from escaped parts
            _OUT_OF_RUN.format(f'<w:hyperlink w:anchor="{_bookmark_name(key)}" w:history="1">{shown}</w:hyperlink>')
        )

    @_helper
    def page_of(self, key: str) -> Markup:
        """Return the field that shows an anchor's page once the document has been laid out."""
        return Markup(_OUT_OF_RUN.format(drawing.page_reference(_bookmark_name(key))))  # noqa: S704 - checked name

    @_helper
    def seq(self, kind: str) -> Markup:
        """Return the next number of a kind of caption, as a field."""
        if not _KEY.fullmatch(kind):
            raise ValueError(f"{kind!r} cannot name a kind of caption")
        self._counts[kind] = self._counts.get(kind, 0) + 1
        counted = drawing.simple_field(f" SEQ {kind} \\* ARABIC ", str(self._counts[kind]))
        return Markup(_OUT_OF_RUN.format(counted))  # noqa: S704 - checked name

    @_helper
    def contents(self, levels: int = 2) -> Markup:
        """Return the place of the contents list; it is filled when all headings are known. Once, ahead of them."""
        if self.contents_levels:
            raise ValueError("a report has one contents list")
        self.contents_levels = levels
        return Markup(CONTENTS_MARK)  # noqa: S704 - a constant

    @_helper
    def drawing_id(self) -> int:
        return self._next_drawing()

    @_helper
    def link_id(self, number: int) -> str:
        """Return the relationship of a picture or link that stands in the template itself."""
        assert self.section is not None
        key = (id(self.section), number)
        if key not in self._links:
            relation, content = self.section.resources[number]
            if content is None:
                self._links[key] = self.package.relation(HYPERLINK, relation.target, external=True)
            else:
                kind = "png" if relation.target.endswith(".png") else "jpeg"
                self._links[key] = self.package.picture(f"template {key}", kind, content, IMAGE)
        return self._links[key]

    def spend(self, steps: int) -> None:
        """Count the steps of a loop that is about to run."""
        self._steps += steps
        if self._steps > MOST_STEPS:
            raise TooLargeError("the loops of a template take more steps than any report needs")

    def begin(self, section: Section) -> None:
        """Turn to a section; its loops start with a full allowance."""
        self.section = section
        self._steps = 0

    def mark_heading(self, content: str, level: int, numbered: int) -> Markup:
        """Return a heading's content between bookmarks and remember it for the contents list."""
        number = self._numbered(level) if numbered else ""
        if level > (self.contents_levels or 3):
            return Markup(content)  # noqa: S704 - the template's own rendered content
        self._bookmarks += 1
        name = f"_Toc{self._bookmarks:07d}"
        text = " ".join("".join(match[1] or " " for match in _TEXTS.finditer(content)).split())
        self.headings.append(Heading(level, number, unescape(text, {"&#34;": '"', "&#39;": "'"}), name))
        return Markup(  # noqa: S704 - the template's own rendered content
            f'<w:bookmarkStart w:id="{self._bookmarks}" w:name="{name}"/>{content}'
            f'<w:bookmarkEnd w:id="{self._bookmarks}"/>'
        )

    def _numbered(self, level: int) -> str:
        self._numbers[level - 1] += 1
        self._numbers[level:] = [0] * (len(self._numbers) - level)
        return ".".join(str(one) for one in self._numbers[:level])

    def _next_drawing(self) -> int:
        self._drawings += 1
        return self._drawings

    def listed(self) -> Iterator[Heading]:
        """Yield the headings the contents list shows."""
        return (one for one in self.headings if one.level <= self.contents_levels)


def _bookmark_name(key: str) -> str:
    if not _KEY.fullmatch(key):
        raise ValueError(f"{key!r} cannot name a place in the report")
    return "a_" + re.sub(r"[.-]", "_", key)
