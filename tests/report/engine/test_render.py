"""The renderer: one file from house document, sections and views."""

import io
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from docx import Document
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.shared import Twips
from lxml import etree
from PIL import Image
from support.report_samples import (
    EDGES,
    PROPERTIES,
    SECTIONS,
    finder,
    house_bytes,
    item,
    overview_template,
    report,
)

from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.inspect import inspect_docx
from appraise.report.engine.names import WP, W
from appraise.report.engine.render import render
from appraise.report.engine.views import SectionUse


def rendered(folder: Path, items: int = 2, *, draft: bool = False, paper: str = "", **given: object) -> bytes:
    target = io.BytesIO()
    render(
        target,
        SECTIONS,
        given.get("report", report()),
        [item(number) for number in range(1, items + 1)],
        templates=finder(folder),
        properties=replace(PROPERTIES, paper=paper),
        edges=EDGES,
        draft=draft,
    )
    return target.getvalue()


def part(content: bytes, name: str = "word/document.xml") -> etree._Element:
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        return etree.fromstring(file.read(name))


def texts(content: bytes) -> list[str]:
    return ["".join(t.text or "" for t in p.iter(f"{W}t")) for p in part(content).iter(f"{W}p")]


def test_opens_in_python_docx_with_headings_tables_and_pictures(tmp_path: Path) -> None:
    document = Document(io.BytesIO(rendered(tmp_path)))
    headings = [p.text for p in document.paragraphs if p.style.name.lower().startswith("heading")]
    assert headings[:4] == ["Summary", "Scope of work", "Schedule", "By number"]
    assert headings[4] == "Skarvholm Consul 17, serial 2201"
    schedule = next(t for t in document.tables if t.rows[0].cells[0].text == "No.")
    assert len(schedule.rows) == 1 + 30 + 1
    assert schedule.rows[-1].cells[2].text == "294,435.00"
    # Three different photographs per item.
    pictures = [r for r in document.part.rels.values() if r.reltype.endswith("/image")]
    assert len(pictures) == 6


def test_text_is_escaped_broken_into_lines_and_never_taken_for_a_tag(tmp_path: Path) -> None:
    content = rendered(tmp_path)
    assert "Skarvholm & Sons <Port Aldous>" in texts(content)
    assert "Text in braces stays text: {{ r.title }} and {% for %}." in texts(content)
    assert all("{{" not in (t.text or "") and "{%" not in (t.text or "") for t in part(content).iter(f"{W}t"))
    cell = next(p for p in part(content).iter(f"{W}p") if "stamp: 2217" in "".join(p.itertext()))
    assert len(list(cell.iter(f"{W}br"))) == 1


def test_control_characters_are_left_out(tmp_path: Path) -> None:
    content = rendered(tmp_path, report=replace(report(), title="Bell\a, feed\f, null\x00, half \ud800, end\r\nline"))
    assert texts(content)[0] == "Bell, feed, null, half , endline"


def test_contents_list_holds_numbered_headings_linked_to_their_bookmarks(tmp_path: Path) -> None:
    root = part(rendered(tmp_path))
    listed = [
        p
        for p in root.iter(f"{W}p")
        if (s := p.find(f"{W}pPr/{W}pStyle")) is not None and s.get(f"{W}val")[:3] == "TOC"
    ]
    shown = ["|".join(t.text for t in p.iter(f"{W}t") if t.text) for p in listed]
    assert shown[:4] == ["Summary", "1|Scope of work", "2|Schedule", "2.1|By number"]
    assert shown[4] == "3|Skarvholm Consul 17, serial 2201"
    assert not any("Photographs" in one for one in shown)  # third level, and the list shows two
    targets = [p.find(f"{W}hyperlink").get(f"{W}anchor") for p in listed]
    marks = {b.get(f"{W}name") for b in root.iter(f"{W}bookmarkStart")}
    assert set(targets) <= marks
    assert len(set(targets)) == len(targets)


def test_same_input_gives_the_same_bytes_and_no_clock(tmp_path: Path) -> None:
    first, second = rendered(tmp_path / "a"), rendered(tmp_path / "b")
    assert first == second
    with zipfile.ZipFile(io.BytesIO(first)) as file:
        assert {one.date_time for one in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"2025-03-14T00:00:00Z" in file.read("docProps/core.xml")


def test_a_draft_carries_its_mark_in_every_header_and_a_final_none(tmp_path: Path) -> None:
    for draft in (True, False):
        with zipfile.ZipFile(io.BytesIO(rendered(tmp_path, draft=draft))) as file:
            headers = [file.read(name) for name in file.namelist() if name.startswith("word/header")]
        assert len(headers) == 2
        assert all((b"DRAFT" in one) is draft for one in headers)


def test_paper_changes_the_margins_and_keeps_the_width_of_the_text(tmp_path: Path) -> None:
    widths = []
    for paper in ("A4", "letter"):
        size, margins = (
            part(rendered(tmp_path, paper=paper)).find(f".//{W}sectPr/{W}{one}") for one in ("pgSz", "pgMar")
        )
        widths.append(int(size.get(f"{W}w")) - int(margins.get(f"{W}left")) - int(margins.get(f"{W}right")))
    assert widths[0] == widths[1]


def test_footnotes_are_numbered_and_hold_their_text(tmp_path: Path) -> None:
    content = rendered(tmp_path)
    notes = part(content, "word/footnotes.xml")
    shown = ["".join(t.text for t in note.iter(f"{W}t")).strip() for note in notes if note.get(f"{W}type") is None]
    assert shown == ["Sale catalogue of the house, lot 1", "Sale catalogue of the house, lot 2"]
    assert [one.get(f"{W}id") for one in part(content).iter(f"{W}footnoteReference")] == ["1", "2"]


def test_repeated_columns_share_the_width_they_are_drawn_from(tmp_path: Path) -> None:
    target = io.BytesIO()
    render(
        target, (SectionUse("object", per_item=True),), report(), [item(1, columns=6)],
        templates=finder(tmp_path), properties=PROPERTIES, edges=EDGES,
    )  # fmt: skip
    grids = [
        [int(c.get(f"{W}w")) for c in t.findall(f"{W}tblGrid/{W}gridCol")]
        for t in part(target.getvalue()).iter(f"{W}tbl")
    ]
    grid = next(one for one in grids if len(one) == 7)
    assert len(set(grid[1:])) == 1
    assert abs(sum(grid) - round(160 * 1440 / 25.4)) < 7


def test_a_section_on_its_side_gets_pages_of_its_own(tmp_path: Path) -> None:
    from templates_source.kit import Sheet

    templates = finder(tmp_path)
    wide = Sheet(house_bytes(), landscape=True)
    wide.para("{{ r.title }} on its side")
    (tmp_path / "sections" / "wide.docx").write_bytes(wide.finished())
    target = io.BytesIO()
    render(
        target, (SectionUse("overview"), SectionUse("wide"), SectionUse("object", True)), report(2), [item(1)],
        templates=templates, properties=PROPERTIES, edges=EDGES,
    )  # fmt: skip
    setups = list(part(target.getvalue()).iter(f"{W}sectPr"))
    assert [one.find(f"{W}pgSz").get(f"{W}orient") for one in setups] == [None, "landscape", None]
    assert [one.find(f"{W}titlePg") is not None for one in setups] == [True, False, False]
    assert all(one.find(f"{W}headerReference") is not None for one in setups)
    assert inspect_docx(target) == []
    sections = Document(target).sections
    assert [section.orientation for section in sections] == [0, 1, 0]
    for section in sections:
        # What stands at the right end of header and footer stands at the end of the text, on either page.
        width = section.page_width - section.left_margin - section.right_margin
        for edge in (section.header, section.footer):
            (line,) = edge.paragraphs
            stops = [*line.paragraph_format.tab_stops] or [*line.style.paragraph_format.tab_stops]
            (right,) = [one.position for one in stops if one.alignment == WD_TAB_ALIGNMENT.RIGHT]
            assert abs(right - width) <= Twips(1)


def test_pictures_and_links_of_a_template_are_carried_over(tmp_path: Path) -> None:
    templates = finder(tmp_path)
    document = Document(io.BytesIO(overview_template(house_bytes())))
    logo = io.BytesIO()
    Image.new("RGB", (20, 10), "navy").save(logo, "PNG")
    for _ in range(2):
        document.add_picture(logo)
    for drawn in document.element.body.iter(f"{WP}docPr"):
        drawn.set("descr", "Mark of the firm")
    document.save(tmp_path / "sections" / "overview.docx")
    target = io.BytesIO()
    render(
        target, (SectionUse("overview"), SectionUse("overview2")), replace(report(2), history=None), (),
        templates=doubled(templates, tmp_path), properties=PROPERTIES, edges=EDGES,
    )  # fmt: skip
    assert inspect_docx(target) == []
    shown = list(part(target.getvalue()).iter(f"{WP}docPr"))
    assert [one.get("id") for one in shown] == ["1", "2", "3", "4"]


def doubled(templates: TemplateFinder, folder: Path) -> TemplateFinder:
    """Add a second section with a picture of its own and no contents list."""
    from templates_source.kit import Sheet

    document = Document(io.BytesIO(Sheet(house_bytes()).finished()))
    logo = io.BytesIO()
    Image.new("RGB", (10, 10), "tan").save(logo, "PNG")
    for _ in range(2):
        document.add_picture(logo)
    for drawn in document.element.body.iter(f"{WP}docPr"):
        drawn.set("descr", "Another mark")
    document.save(folder / "sections" / "overview2.docx")
    return templates


def test_links_and_anchors_meet_and_a_second_anchor_of_a_name_is_our_own_mistake(tmp_path: Path) -> None:
    from templates_source.kit import Sheet

    templates = finder(tmp_path)
    sheet = Sheet(house_bytes())
    sheet.para("See {{ link('item1', 'item 1') }}, page {{ page_of('item1') }}.")
    (tmp_path / "sections" / "pointer.docx").write_bytes(sheet.finished())
    uses = (SectionUse("pointer"), SectionUse("object", True))
    target = io.BytesIO()
    render(target, uses, report(1), [item(1)], templates=templates, properties=PROPERTIES, edges=EDGES)
    assert inspect_docx(target) == []
    assert "See item 1, page ." in texts(target.getvalue())
    with pytest.raises(ValueError, match="two anchors"):
        render(
            io.BytesIO(), uses, report(1), [item(1), item(1)], templates=templates, properties=PROPERTIES, edges=EDGES
        )


def test_an_iterator_of_items_serves_one_group_only(tmp_path: Path) -> None:
    uses = (SectionUse("object", True), SectionUse("overview"), SectionUse("object", True))
    with pytest.raises(ValueError, match="only once"):
        render(
            io.BytesIO(), uses, report(), iter([item(1)]),
            templates=finder(tmp_path), properties=PROPERTIES, edges=EDGES,
        )  # fmt: skip
