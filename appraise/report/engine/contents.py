"""The contents list: the headings as links, inside the field by which Word makes it anew with page numbers."""

from collections.abc import Iterable, Iterator

from appraise.report.engine.drawing import page_reference
from appraise.report.engine.environment import marked_up
from appraise.report.engine.helpers import Heading


def contents_list(headings: Iterable[Heading], levels: int) -> Iterator[str]:
    """Yield the paragraphs of the list; without any heading one empty paragraph, so that a cell keeps one."""
    opening = (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> TOC \\o "1-{levels}" \\h \\z \\u </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
    )
    for heading in headings:
        number = f"<w:r><w:t>{heading.number}</w:t></w:r><w:r><w:tab/></w:r>" if heading.number else ""
        yield (
            f'<w:p><w:pPr><w:pStyle w:val="TOC{heading.level}"/></w:pPr>{opening}'
            f'<w:hyperlink w:anchor="{heading.bookmark}" w:history="1">{number}'
            f'<w:r><w:t xml:space="preserve">{marked_up(heading.text)}</w:t></w:r><w:r><w:tab/></w:r>'
            f"{page_reference(heading.bookmark)}</w:hyperlink></w:p>"
        )
        opening = ""
    if opening:
        yield "<w:p/>"
    else:
        yield '<w:p><w:r><w:fldChar w:fldCharType="end"/></w:r></w:p>'
