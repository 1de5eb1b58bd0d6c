"""The shipped templates: what is committed is what the builder makes, and the look keeps its promises."""

import io
import re
import zipfile
from pathlib import Path

import pytest
from lxml import etree
from support.contrast import LEAST, contrast
from support.report_samples import ROOT, house_bytes

from appraise.report.engine.guard import FILTERS, HELPERS
from appraise.report.engine.house import NEEDED, house, page_setup
from appraise.report.engine.names import W


def contents(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        return {name: file.read(name) for name in file.namelist()}


def test_the_committed_templates_are_what_the_builder_makes() -> None:
    from templates_source.build import built

    made = dict(built())
    on_disk = {f"sections/{file.name}" for file in (ROOT / "templates" / "sections").glob("*.docx")} | {"house.docx"}
    assert on_disk == set(made)
    for name, content in made.items():
        assert contents((ROOT / "templates" / name).read_bytes()) == contents(content), f"build the templates: {name}"


def test_the_list_of_names_is_that_of_the_views() -> None:
    from templates_source.name_list import name_list

    assert (ROOT / "docs" / "template_names.md").read_text("utf-8") == name_list(), "python -m templates_source.build"


def test_the_guide_names_every_helper_filter_and_word() -> None:
    guide = (ROOT / "docs" / "restyle.md").read_text("utf-8")
    for name in sorted(HELPERS):
        assert f"{name}(" in guide, name
    for name in sorted(FILTERS - {"count"}):
        assert f"`{name}`" in guide, name


def test_building_twice_gives_the_same_bytes() -> None:
    from templates_source import house as source

    assert source.build() == source.build() == house_bytes()


def test_no_python_lies_among_the_templates() -> None:
    assert not list((ROOT / "templates").rglob("*.py"))


def test_styles_the_engine_and_the_sections_need_are_there() -> None:
    found = house(house_bytes())
    assert set(NEEDED) <= found.style_ids
    assert {name for name, _ in found.headings} == {"Heading1", "Heading2", "Heading3", "HeadingFront"}
    look = dict(found.headings)
    assert (look["Heading1"].level, look["Heading1"].numbered) == (1, True)
    assert (look["HeadingFront"].level, look["HeadingFront"].numbered) == (1, False)
    assert look["Heading3"].level == 3


def test_every_colour_of_text_stands_out_on_white_and_on_the_tint() -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text."""
    from templates_source.look import TINT

    assert contrast("000000", "FFFFFF") == pytest.approx(21.0)
    styles = contents(house_bytes())["word/styles.xml"].decode()
    colours = set(re.findall(r'<w:color w:val="([0-9A-F]{6})"/>', styles))
    assert colours
    for colour in sorted(colours):
        assert contrast(colour, "FFFFFF") >= LEAST, colour
        assert contrast(colour, TINT) >= LEAST, colour


def test_tables_of_all_templates_repeat_their_head_row_and_split_no_row() -> None:
    for file in sorted((ROOT / "templates" / "sections").glob("*.docx")):
        root = etree.fromstring(contents(file.read_bytes())["word/document.xml"])
        for table in root.iter(f"{W}tbl"):
            rows = table.findall(f"{W}tr")
            assert all(row.find(f"{W}trPr/{W}cantSplit") is not None for row in rows), file.name
            style = table.find(f"{W}tblPr/{W}tblStyle").get(f"{W}val")
            if style == "Schedule":
                assert rows[0].find(f"{W}trPr/{W}tblHeader") is not None, file.name


def test_a_page_on_its_side_turns_its_margins_with_it() -> None:
    found = house(house_bytes())
    upright = page_setup(found, "", first=True, landscape=False, paper="")
    wide = page_setup(found, "", first=False, landscape=True, paper="")
    assert 'w:orient="landscape"' in wide and "titlePg" in upright and "titlePg" not in wide

    def measure(text: str, name: str) -> int:
        return int(re.search(rf'w:{name}="(\d+)"', text)[1])

    assert measure(wide, "w") == measure(upright, "h")
    assert measure(wide, "right") == measure(upright, "top")


def test_a_folder_of_templates_inside_the_package_is_preferred(tmp_path: Path) -> None:
    from appraise.report.engine.find import TemplateFinder

    (tmp_path / "house.docx").write_bytes(b"own")
    assert TemplateFinder.with_own(tmp_path).house() == b"own"
    with pytest.raises(FileNotFoundError):
        TemplateFinder.with_own(tmp_path).section("../house")
