"""The section templates: those committed are those built, and they render the report of the small job."""

import io
from pathlib import Path

import docx
import pytest
from support.report_job import inputs

from appraise.records.vocabulary import Use
from appraise.report.compose.inputs import PreparedPhoto
from appraise.report.compose.report import compose
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.house import house
from appraise.report.engine.inspect import require_sound
from appraise.report.engine.lint import lint_template
from appraise.report.engine.render import render
from appraise.report.item_view import ItemView
from appraise.report.view import ReportView
from appraise.rules.uses import use_rules
from templates_source.build import built

TEMPLATES = Path(__file__).parents[3] / "templates"


def rendered(*, draft: bool = False) -> bytes:
    from PIL import Image

    photos = []
    for name, size in (("a.jpg", (30, 40)), ("b.jpg", (40, 30))):
        picture = io.BytesIO()
        Image.new("RGB", size, "tan").save(picture, "JPEG")
        photos.append(PreparedPhoto(name, picture.getvalue(), name, *size))
    composed = compose(inputs(draft=draft, photos={"G01": tuple(photos)}))
    target = io.BytesIO()
    render(
        target,
        composed.sections,
        composed.report,
        composed.items,
        templates=TemplateFinder.with_own(),
        properties=composed.properties,
        edges=composed.edges,
        draft=draft,
    )
    return target.getvalue()


@pytest.fixture(scope="module")
def document():
    return docx.Document(io.BytesIO(rendered(draft=True)))


def test_the_committed_templates_are_the_built_ones():
    for name, content in built():
        assert (TEMPLATES / name).read_bytes() == content, f"{name}: run python -m templates_source.build"


@pytest.mark.parametrize("use", [Use.ESTATE, Use.INSURANCE])
def test_every_section_of_a_use_has_a_template(use):
    names = {*use_rules(use).sections, "answered", "open_points"}
    assert {f"{name}.docx" for name in names} <= {file.name for file in (TEMPLATES / "sections").iterdir()}


def test_the_report_has_its_headings_in_order(document):
    headings = [one.text for one in document.paragraphs if one.style.name in ("heading 1", "Heading 1")]
    assert headings == [
        "Assignment and definitions of value",
        "Assumptions and conditions",
        "Scope of work and methods",
        "Market notes",
        "The items",
        "Schedule and totals",
        "Figures for the return",
        "Misstatements of value in the law",
        "Points answered in writing",
        "Certification",
        "Limiting conditions",
        "Qualifications",
        "Terms used",
        "Sources",
        "Required elements and where they stand",
    ]


def test_each_item_begins_a_section(document):
    headings = [one.text for one in document.paragraphs if one.style.name in ("heading 2", "Heading 2")]
    assert "Item 1: Skarvholm Consul 17, serial 2217" in headings
    assert "Item 2: Voltigern Tidewater 22" in headings


def test_what_a_user_typed_is_text_and_nothing_else(document):
    cells = [cell.text for table in document.tables for row in table.rows for cell in row.cells]
    assert "label: 'Skarvholm, Port Aldous' <R&D>" in cells


def test_no_page_break_stands_in_a_paragraph_of_its_own(document):
    """A paragraph that only breaks the page can fall on the next one and leave it blank."""
    breaks = [one for one in document.element.body.iter() if one.tag.endswith("}br") and one.values() == ["page"]]
    assert breaks == []


def test_every_table_of_figures_repeats_its_heading_row(document):
    schedules = [table for table in document.tables if table.style.name == "Schedule"]
    assert len(schedules) > 25
    for table in schedules:
        assert table.rows[0]._tr.xpath("w:trPr/w:tblHeader")


def test_the_opinion_stands_in_the_document(document):
    opinions = [one.text for one in document.paragraphs if one.style.name == "Opinion"]
    assert opinions[0].replace("\N{NO-BREAK SPACE}", " ") == (
        "Opinion of fair market value: USD 22,100, within a range of USD 20,300 to USD 24,300"
    )
    assert opinions[2] == "Opinion of fair market value: not concluded"


def test_same_input_same_bytes():
    assert rendered() == rendered()


def test_the_finished_file_is_sound():
    require_sound(io.BytesIO(rendered(draft=True)))


def test_templates_name_only_what_the_view_has():
    schema = {"r": ReportView, "item": ItemView}
    look = house(TemplateFinder.with_own().house())
    for file in sorted((TEMPLATES / "sections").iterdir()):
        assert lint_template(file.read_bytes(), file.name, schema, look) == [], file.name
