"""docxtpl's own rendering is the oracle: the same templates and views give the same text, section by section."""

import io
from pathlib import Path
from typing import Any

import pytest
from docx import Document
from docxtpl import DocxTemplate, RichText
from jinja2 import Environment
from markupsafe import Markup
from support.report_samples import (
    EDGES,
    PROPERTIES,
    finder,
    house_bytes,
    item,
    item_template,
    overview_template,
    report,
)

from appraise.report.engine.find import TemplateFinder, shipped
from appraise.report.engine.names import W
from appraise.report.engine.render import render
from appraise.report.engine.views import Rich, SectionUse


def by_docxtpl(content: bytes, context: dict[str, Any]) -> list[str]:
    """Return the paragraphs' texts as docxtpl renders them, with the simplest stand-ins for the helpers."""
    counts: dict[str, int] = {}

    def seq(kind: str) -> str:
        counts[kind] = counts.get(kind, 0) + 1
        return str(counts[kind])

    def shown(value: Any) -> Any:
        if isinstance(value, Rich):
            rich = RichText()
            for span in value.spans:
                rich.add(span.text, bold=span.bold, italic=span.italic)
            return rich
        return value

    environment = Environment(autoescape=True, finalize=shown)
    helpers = {
        "picture": lambda *_: "", "chart": lambda *_: "", "footnote": lambda _: "", "anchor": lambda _: "",
        "link": lambda _, text: text, "page_of": lambda _: "", "seq": seq, "contents": lambda _: Markup("<w:p/>"),
    }  # fmt: skip
    made = DocxTemplate(io.BytesIO(content))
    made.render({**context, **helpers}, jinja_env=environment)
    target = io.BytesIO()
    made.save(target)
    return texts(target.getvalue())


def texts(content: bytes) -> list[str]:
    """Return the text of every paragraph but those of the contents list; a tab or a line break counts."""
    found = []
    for paragraph in Document(io.BytesIO(content)).element.body.iter(f"{W}p"):
        style = paragraph.find(f"{W}pPr/{W}pStyle")
        if style is not None and str(style.get(f"{W}val")).startswith("TOC"):
            continue
        marks = {f"{W}tab": "\t", f"{W}br": "\n"}
        found.append(
            "".join(
                one.text or "" if one.tag == f"{W}t" else marks.get(one.tag, "")
                for one in paragraph.iter(f"{W}t", f"{W}tab", f"{W}br")
                if one.getparent().tag == f"{W}r"
            )
        )
    return [one for one in found if one]


@pytest.mark.parametrize(("name", "per_item"), [("overview", False), ("object", True)])
def test_the_same_text_as_docxtpl(name: str, per_item: bool, tmp_path: Path) -> None:
    target = io.BytesIO()
    view, thing = report(), item(1, photos=4, columns=4)
    render(
        target, (SectionUse(name, per_item),), view, [thing],
        templates=finder(tmp_path), properties=PROPERTIES, edges=EDGES,
    )  # fmt: skip
    content = (item_template if per_item else overview_template)(house_bytes())
    context = {"r": view, "item": thing} if per_item else {"r": view}
    expected = by_docxtpl(content, context)
    assert texts(target.getvalue()) == expected
    assert len(expected) > 25


def shipped_uses() -> list[SectionUse]:
    folder = Path(str(shipped())) / "sections"
    return [SectionUse(file.stem, file.stem == "item") for file in sorted(folder.glob("*.docx"))]


@pytest.fixture(scope="module")
def composed() -> tuple[Any, Any]:
    from support.report_job import inputs

    from appraise.report.compose.report import compose

    made = compose(inputs(draft=True))
    return made.report, next(iter(made.items))


@pytest.mark.parametrize("use", shipped_uses(), ids=lambda use: use.name)
def test_every_shipped_section_gives_the_same_text_as_docxtpl(use: SectionUse, composed: tuple[Any, Any]) -> None:
    view, thing = composed
    target = io.BytesIO()
    templates = TemplateFinder.with_own()
    render(target, (use,), view, [thing], templates=templates, properties=PROPERTIES, edges=EDGES)
    context = {"r": view, "item": thing} if use.per_item else {"r": view}
    assert texts(target.getvalue()) == by_docxtpl(templates.section(use.name), context)
