"""Builds the house document: the look of every report, its page, its headers and footers."""

import io

from docx import Document
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Mm

from templates_source.kit import packed, paragraph
from templates_source.look import CHARACTER_STYLES, DEFAULTS, NUMBERING, PARAGRAPH_STYLES, TABLE_STYLES, TEXT_WIDTH

_EXPLAINED = (
    "This is the house document: its styles, page setup, headers and footers are those of every report.",
    "Change a style here (not in a section), save as .docx, and give the folder to the program.",
    "What stands in the body of this document is not printed.",
)


def build() -> bytes:
    """Return the house document's bytes; the same each time."""
    document = Document()
    _styles(document)
    _numbering(document)
    page = document.sections[0]
    page.page_width, page.page_height = Mm(210), Mm(297)
    page.left_margin = page.right_margin = Mm((210 - TEXT_WIDTH) / 2)
    page.top_margin, page.bottom_margin = Mm(26), Mm(22)
    page.header_distance, page.footer_distance = Mm(13), Mm(10)
    page.different_first_page_header_footer = True
    _fill(page.header, paragraph("{{ edges.header_left }}\t{{ edges.header_right }}", "Header"))
    _fill(page.first_page_header, '<w:p><w:pPr><w:pStyle w:val="Normal"/></w:pPr></w:p>')
    _fill(page.footer, _footer())
    _fill(page.first_page_footer, _footer())
    body = document.element.body
    for text in _EXPLAINED:
        body.insert(len(body) - 1, parse_xml(paragraph(text).replace("<w:p>", f"<w:p {nsdecls('w')}>", 1)))
    return packed(document)


def _styles(document: "Document") -> None:  # type: ignore[valid-type]
    root = document.styles.element  # type: ignore[attr-defined]
    for child in list(root):
        if child.tag in (qn("w:style"), qn("w:docDefaults"), qn("w:latentStyles")):
            root.remove(child)
    listed = parse_xml(
        f"<w:styles {nsdecls('w')}>{DEFAULTS}{PARAGRAPH_STYLES}{CHARACTER_STYLES}{TABLE_STYLES}</w:styles>"
    )
    for child in list(listed):
        root.append(child)


def _numbering(document: "Document") -> None:  # type: ignore[valid-type]
    root = document.part.numbering_part.element  # type: ignore[attr-defined]
    for child in list(root):
        root.remove(child)
    for child in list(parse_xml(f"<w:numbering {nsdecls('w')}>{NUMBERING}</w:numbering>")):
        root.append(child)


def _fill(edge: object, xml: str) -> None:
    edge.is_linked_to_previous = False  # type: ignore[attr-defined]
    element = edge._element  # type: ignore[attr-defined]
    for child in list(element):
        element.remove(child)
    for child in list(parse_xml(f"<w:hdr {nsdecls('w')}>{xml}</w:hdr>")):
        element.append(child)


def _counted(code: str) -> str:
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> {code} </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r><w:r><w:t>1</w:t></w:r>'
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )


def _footer() -> str:
    def run(text: str) -> str:
        return f'<w:r><w:t xml:space="preserve">{text}</w:t></w:r>'

    return (
        '<w:p><w:pPr><w:pStyle w:val="Footer"/></w:pPr>'
        f"{run('{{ edges.footer_left }}')}<w:r><w:tab/></w:r>{run('{{ edges.page }} ')}{_counted('PAGE')}"
        f"{run(' {{ edges.of }} ')}{_counted('NUMPAGES')}</w:p>"
    )


def read(content: bytes) -> "Document":  # type: ignore[valid-type]
    """Return the document opened by python-docx."""
    return Document(io.BytesIO(content))
