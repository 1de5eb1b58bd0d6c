"""Helpers for whoever writes a section template.

    sheet = Sheet(house)                       # or Sheet(house, landscape=True)
    sheet.heading(1, "{{ r.words.scope }}")    # levels 1 to 3; front=True: no number (letter, summary)
    sheet.para("{{ r.scope.text }}")           # style "BodyText" unless named
    with sheet.each("line", "r.scope.lines"):  # {%p for line in r.scope.lines %}
        sheet.para("{{ line }}", "ListBullet")
    with sheet.when("r.scope.note"):           # {%p if r.scope.note %}; sheet.otherwise() writes {%p else %}
        sheet.para("{{ r.scope.note }}", "Notice")
    sheet.table(
        [Column(12, "{{ r.words.number }}", "{{ row.number }}"),
         Column(108, "{{ r.words.object }}", ["{{ row.title }}", "{{ row.details }}"]),
         Column(40, "{{ r.words.value }}", "{{ row.value }}", figure=True)],
        each=("row", "r.schedule.rows"),
        total=["", "{{ r.words.total }}", "{{ r.schedule.total }}"],
        caption=("table", "{{ r.words.table }}", "{{ r.schedule.caption }}"),
        description="{{ ... }} is not possible here: a plain English sentence",
    )
    sheet.facts([("{{ r.words.client }}", "{{ r.client }}")])            # two columns, label and text
    sheet.facts_of("fact", "r.assignment.facts", "{{ fact.label }}", "{{ fact.text }}")
    sheet.grid(...)                            # a table with a repeated column: comparisons side by side
    sheet.pictures("photo", "item.photos", width_mm=75, height_mm=85)    # one below the other, with captions
    sheet.picture_rows("pair", "pairs")                                     # two side by side: pair.left, pair.right
    sheet.chart("item.price_chart")            # figure, then a caption from `.caption`
    sheet.contents(levels=2)
    sheet.page_break()
    sheet.signature("{{ signer.line }}")
    content = sheet.finished()                 # bytes of the .docx

A text is a string, or a list of pieces; a piece is a string or (string, character style): "Strong", "Emphasis",
"Quiet", "Warning". `{{r x }}` prints a `Rich` with its emphasis. Where a cell takes a list, each entry is a paragraph
of its own. `\\t` is a tab (style "ListItem": `"{{ loop.index }}.\\t{{ line }}"`).

In a template: `{{ footnote(x) }}` last in its run, `{{ anchor(key) }}`, `{{ link(key, text) }}`, `{{ page_of(key) }}`,
`{{ seq("figure") }}`, `{{ picture(photo, 75, 85) }}`, `{{ chart(c, 160, 70) }}`. Nothing else can be called. Only these
filters: length, first, last, join, upper, lower, trim. No arithmetic, no `set`; conditions may use and, or, not, ==,
in, `is none`. Loops run over tuples of the view.

Styles: BodyText, Heading1-3, HeadingFront, Title, Subtitle, CoverLabel, CoverText, Caption, TableCaption, Figure,
TableText, TableFigure (right-aligned), TableHead, TableHeadFigure, GridHead, TableTotal, TableTotalFigure, FactLabel,
TableNote, Quote, QuoteSource, Notice, OpenPoint, Opinion, ListBullet, ListItem, Letter, Address, SignatureLine,
SignatureText. Tables: Schedule, Facts, Pictures. The text is 160 mm wide, 247 mm on a landscape sheet.
"""

import io
import zipfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from docx import Document
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn
from lxml import etree

from templates_source.look import TEXT_WIDTH, WIDE_WIDTH, twips

Piece = str | tuple[str, str]
Text = str | Sequence[Piece]


@dataclass(frozen=True)
class Column:
    """A column: width [mm], label of its head, text of its cells (a list: one paragraph each), figures to the right."""

    width: float
    head: Text
    cell: Text | list[str]
    figure: bool = False


def runs(text: Text) -> str:
    """Return a text as runs."""
    pieces: Sequence[Piece] = [text] if isinstance(text, str) else text
    made = []
    for piece in pieces:
        words, style = piece if isinstance(piece, tuple) else (piece, "")
        look = f'<w:rPr><w:rStyle w:val="{style}"/></w:rPr>' if style else ""
        shown = '</w:t><w:tab/><w:t xml:space="preserve">'.join(escape(part) for part in words.split("\t"))
        made.append(f'<w:r>{look}<w:t xml:space="preserve">{shown}</w:t></w:r>')
    return "".join(made)


def paragraph(text: Text, style: str = "BodyText", *, extra: str = "") -> str:
    """Return a paragraph; `extra` stands after the style in its properties."""
    return f'<w:p><w:pPr><w:pStyle w:val="{style}"/>{extra}</w:pPr>{runs(text)}</w:p>'


def _cell(width: float, content: Text | list[str], style: str, *, span: int = 1) -> str:
    many = isinstance(content, list) and all(isinstance(one, str) for one in content)
    paragraphs = content if many else [content]
    inner = "".join(paragraph(one, style) for one in paragraphs)  # type: ignore[arg-type]
    spanned = f'<w:gridSpan w:val="{span}"/>' if span > 1 else ""
    return f'<w:tc><w:tcPr><w:tcW w:w="{twips(width)}" w:type="dxa"/>{spanned}</w:tcPr>{inner}</w:tc>'


def _row(cells: str, *, head: bool = False) -> str:
    mark = "<w:tblHeader/>" if head else ""
    return f"<w:tr><w:trPr><w:cantSplit/>{mark}</w:trPr>{cells}</w:tr>"


def _tag_row(tag: str, columns: int, width: float) -> str:
    return _row(_cell(width, tag, "TableText", span=columns))


class Sheet:
    """A section template in the making."""

    def __init__(self, house: bytes, *, landscape: bool = False) -> None:
        self._document = Document(io.BytesIO(house))
        self._body = self._document.element.body
        self.width = WIDE_WIDTH if landscape else TEXT_WIDTH
        for child in list(self._body):
            if not child.tag.endswith("}sectPr"):
                self._body.remove(child)
        page = self._document.sections[0]
        section = page._sectPr
        for child in list(section):
            if child.tag.endswith(("}headerReference", "}footerReference")):
                self._document.part.rels.pop(child.get(qn("r:id")))
            if child.tag.endswith(("}headerReference", "}footerReference", "}titlePg")):
                section.remove(child)
        if landscape:
            size = section.find(section.tag.replace("sectPr", "pgSz"))
            width, height = page.page_width, page.page_height
            page.page_width, page.page_height = height, width
            size.set(size.tag.replace("pgSz", "orient"), "landscape")

    def raw(self, xml: str) -> None:
        """Add elements given as text."""
        whole = parse_xml(f"<w:body {nsdecls('w')}>{xml}</w:body>")
        for child in list(whole):
            self._body.insert(len(self._body) - 1, child)

    def heading(self, level: int, text: Text, *, front: bool = False) -> None:
        """Add a heading; `front` has no number and stands on the first level."""
        self.raw(paragraph(text, "HeadingFront" if front else f"Heading{level}"))

    def para(self, text: Text, style: str = "BodyText", *, keep_next: bool = False) -> None:
        """Add a paragraph."""
        self.raw(paragraph(text, style, extra="<w:keepNext/>" if keep_next else ""))

    def run_in(self, text: str) -> None:
        """Add a short bold line above what follows, set off from what stands before it."""
        space = '<w:keepNext/><w:spacing w:before="140" w:after="80" w:line="276" w:lineRule="auto"/>'
        self.raw(paragraph([(text, "Strong")], extra=space))

    def tag(self, words: str) -> None:
        """Add a statement that stands alone, for example `for line in r.lines`."""
        self.raw(paragraph(f"{{%p {words} %}}"))

    @contextmanager
    def each(self, name: str, sequence: str) -> Iterator[None]:
        """Repeat what is added inside."""
        self.tag(f"for {name} in {sequence}")
        yield
        self.tag("endfor")

    @contextmanager
    def when(self, condition: str) -> Iterator[None]:
        """Print what is added inside only if the condition holds."""
        self.tag(f"if {condition}")
        yield
        self.tag("endif")

    def otherwise(self) -> None:
        """Turn to what is printed if the condition does not hold."""
        self.tag("else")

    def page_break(self) -> None:
        """Begin a new page."""
        self.raw('<w:p><w:pPr><w:pStyle w:val="PageBreak"/></w:pPr><w:r><w:br w:type="page"/></w:r></w:p>')

    def contents(self, levels: int = 2) -> None:
        """Add the contents list."""
        self.raw(paragraph(f"{{{{p contents({levels}) }}}}", "Normal"))

    def caption(self, kind: str, label: str, text: str, *, style: str = "Caption") -> None:
        """Add a numbered caption: kind of count (`table`, `figure`), its printed label, its text."""
        self.para([(f'{label} {{{{ seq("{kind}") }}}}. ', "Strong"), text], style)

    def _table(self, style: str, widths: Sequence[float], rows: str, description: str, *, head: bool) -> None:
        described = f"<w:tblDescription w:val={quoteattr(description)}/>" if description else ""
        look = f'<w:tblLook w:val="0{"420" if head else "400"}" w:firstRow="{int(head)}" w:lastRow="0" w:noVBand="1"/>'
        grid = "".join(f'<w:gridCol w:w="{twips(width)}"/>' for width in widths)
        self.raw(
            f'<w:tbl><w:tblPr><w:tblStyle w:val="{style}"/><w:tblW w:w="{twips(sum(widths))}" w:type="dxa"/>'
            f'<w:tblLayout w:type="fixed"/>{look}{described}</w:tblPr><w:tblGrid>{grid}</w:tblGrid>{rows}</w:tbl>'
            '<w:p><w:pPr><w:pStyle w:val="TableEnd"/></w:pPr></w:p>'
        )

    def table(
        self,
        columns: Sequence[Column],
        *,
        each: tuple[str, str] | None = None,
        total: Sequence[Text] | None = None,
        total_when: str = "",
        caption: tuple[str, str, str] | None = None,
        description: str = "",
    ) -> None:
        """Add a table with a repeated head row; `each` is (name, list of the view), `total` the cells of a last row."""
        if caption:
            self.caption(*caption, style="TableCaption")
        count, width = len(columns), sum(one.width for one in columns)
        head = "".join(_cell(one.width, one.head, "TableHeadFigure" if one.figure else "TableHead") for one in columns)
        cells = "".join(_cell(one.width, one.cell, "TableFigure" if one.figure else "TableText") for one in columns)
        rows = _row(head, head=True)
        if each:
            rows += _tag_row(f"{{%tr for {each[0]} in {each[1]} %}}", count, width)
        rows += _row(cells)
        if each:
            rows += _tag_row("{%tr endfor %}", count, width)
        if total:
            last = "".join(
                _cell(one.width, text, "TableTotalFigure" if one.figure else "TableTotal")
                for one, text in zip(columns, total, strict=True)
            )
            if total_when:
                last = f"{_tag_row(f'{{%tr if {total_when} %}}', count, width)}{_row(last)}"
                rows += last + _tag_row("{%tr endif %}", count, width)
            else:
                rows += _row(last)
        self._table("Schedule", [one.width for one in columns], rows, description, head=True)

    def facts(self, lines: Sequence[tuple[Text, Text]], *, label_width: float = 45, description: str = "") -> None:
        """Add fixed lines of label and text."""
        rows = "".join(self._fact(label, text, label_width) for label, text in lines)
        self._table("Facts", [label_width, self.width - label_width], rows, description, head=False)

    def facts_of(
        self, name: str, sequence: str, label: Text, text: Text, *, label_width: float = 45, description: str = ""
    ) -> None:
        """Add a line of label and text for each entry of a list, inside `when` if the list may be empty."""
        rows = (
            _tag_row(f"{{%tr for {name} in {sequence} %}}", 2, self.width)
            + self._fact(label, text, label_width)
            + _tag_row("{%tr endfor %}", 2, self.width)
        )
        with self.when(sequence):
            self._table("Facts", [label_width, self.width - label_width], rows, description, head=False)

    def _fact(self, label: Text, text: Text, label_width: float) -> str:
        return _row(_cell(label_width, label, "FactLabel") + _cell(self.width - label_width, text, "TableText"))

    def grid(
        self,
        *,
        label_width: float,
        corner: Text,
        columns: tuple[str, str],
        head: Text,
        rows: tuple[str, str],
        label: Text,
        cells: tuple[str, str],
        cell: Text,
        total_if: str = "",
        caption: tuple[str, str, str] | None = None,
        description: str = "",
    ) -> None:
        """Add a table whose columns are repeated too: `columns`, `rows` and `cells` are (name, list of the view).

        The repeated columns share what the label column leaves. A row for which `total_if` holds is set bold.
        """
        if caption:
            self.caption(*caption, style="TableCaption")
        rest = self.width - label_width

        def repeated(loop: tuple[str, str], content: Text, style: str) -> str:
            opening = _cell(rest, f"{{%tc for {loop[0]} in {loop[1]} %}}", "TableText")
            return opening + _cell(rest, content, style) + _cell(rest, "{%tc endfor %}", "TableText")

        def line(bold: bool) -> str:
            styles = ("TableTotal", "TableTotalFigure") if bold else ("TableText", "TableFigure")
            return _row(_cell(label_width, label, styles[0]) + repeated(cells, cell, styles[1]))

        body = line(False)
        if total_if:
            choice = [_tag_row(f"{{%tr {words} %}}", 2, self.width) for words in (f"if {total_if}", "else", "endif")]
            body = choice[0] + line(True) + choice[1] + line(False) + choice[2]
        content = (
            _row(_cell(label_width, corner, "TableHead") + repeated(columns, head, "TableHeadFigure"), head=True)
            + _tag_row(f"{{%tr for {rows[0]} in {rows[1]} %}}", 2, self.width)
            + body
            + _tag_row("{%tr endfor %}", 2, self.width)
        )
        self._table("Schedule", [label_width, rest], content, description, head=True)

    def pictures(self, name: str, sequence: str, *, width_mm: int = 110, height_mm: int = 120, label: str = "") -> None:
        """Add pictures one below the other, each with its caption (numbered as figure if a label is given)."""
        with self.each(name, sequence):
            self.para(f"{{{{ picture({name}, {width_mm}, {height_mm}) }}}}", "Figure", keep_next=True)
            self._picture_caption(name, label)

    def _picture_caption(self, name: str, label: str) -> None:
        if label:
            self.caption("figure", label, f"{{{{ {name}.caption }}}}")
        else:
            self.para(f"{{{{ {name}.caption }}}}", "Caption")

    def picture_rows(self, name: str, sequence: str, *, height_mm: int = 85, label: str = "") -> None:
        """Add pictures two by two; each entry has `left` and `right`, and `right` may be none."""
        half = self.width / 2
        inner = int(half) - 3

        def side(which: str) -> str:
            expression = f"{name}.{which}"
            number: list[Piece] = [(f'{label} {{{{ seq("figure") }}}}. ', "Strong")] if label else []
            return paragraph(f"{{{{ picture({expression}, {inner}, {height_mm}) }}}}", "Figure") + paragraph(
                [*number, f"{{{{ {expression}.caption }}}}"], "Caption"
            )

        width = f'<w:tcPr><w:tcW w:w="{twips(half)}" w:type="dxa"/></w:tcPr>'
        right = (
            paragraph(f"{{%p if {name}.right is none %}}") + paragraph("", "TableText") + paragraph("{%p else %}")
            + side("right") + paragraph("{%p endif %}")
        )  # fmt: skip
        rows = (
            _tag_row(f"{{%tr for {name} in {sequence} %}}", 2, self.width)
            + _row(f"<w:tc>{width}{side('left')}</w:tc><w:tc>{width}{right}</w:tc>")
            + _tag_row("{%tr endfor %}", 2, self.width)
        )
        with self.when(sequence):
            self._table("Pictures", [half, half], rows, "Photographs, two in a row", head=False)

    def chart(self, expression: str, *, label: str = "", width_mm: int = 160, height_mm: int = 0) -> None:
        """Add a chart, or nothing if there is none, and its caption."""
        with self.when(f"{expression} is not none"):
            self.para(f"{{{{ chart({expression}, {width_mm}, {height_mm}) }}}}", "Figure", keep_next=True)
            self._picture_caption(expression, label)

    def signature(self, *lines: Text) -> None:
        """Add a line to sign on, and what stands below it."""
        self.raw(paragraph("", "SignatureLine"))
        for line in lines:
            self.para(line, "SignatureText")

    def finished(self) -> bytes:
        """Return the template's bytes; the same for the same calls."""
        return packed(self._document)


_LEFT_OUT = ("docProps/", "customXml/", "word/stylesWithEffects")


def packed(document: "Document") -> bytes:  # type: ignore[valid-type]
    """Return a python-docx document as a zip without dates, author and what no template needs."""
    raw = io.BytesIO()
    document.save(raw)  # type: ignore[attr-defined]
    target = io.BytesIO()
    with zipfile.ZipFile(raw) as source, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as result:
        for name in sorted(source.namelist(), key=lambda one: (one != "[Content_Types].xml", one)):
            if name.startswith(_LEFT_OUT):
                continue
            content = source.read(name)
            if name.endswith(".rels") or name == "[Content_Types].xml":
                content = _without(content)
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3
            entry.external_attr = 0o600 << 16
            result.writestr(entry, content)
    return target.getvalue()


def _without(listing: bytes) -> bytes:
    """Return a list of relationships or content types without the parts that are left out."""
    root = etree.fromstring(listing)
    for child in list(root):
        target = child.get("Target") or child.get("PartName") or ""
        if any(one.removeprefix("word/") in target for one in _LEFT_OUT):
            root.remove(child)
    made: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
    return made
