"""What a report does for those who cannot see it, or not well: `docs/accessibility.md` says what was checked.

Heading rows of the templates' tables and the description of each drawing are checked in `test_house` and
`test_inspect`; here it is the finished report of a demonstration job, and every pair of colours in the charts.
"""

import re
import shutil
import zipfile
from collections.abc import Iterator
from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest
from lxml import etree
from support.contrast import LEAST, contrast, laid_over
from support.demo import REPOSITORY
from support.report_samples import HISTORY, PRICE, TIME

from appraise.jobs.report import write_report
from appraise.report.engine.charts import chart_part
from appraise.report.engine.names import WP, A, C, W
from appraise.report.engine.pdf import Pdf, find_office, make_pdf
from appraise.report.engine.views import Chart

PAPER = "FFFFFF"
JOB = REPOSITORY / "workbooks_demo" / "claim" / "claim.xlsx"


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("accessible")
    done = write_report(JOB, out, draft=False, overwrite=False, today=date(2025, 3, 1), pdf=False)
    return next(one.path for one in done.written if one.what == "Report")


def part(report: Path, name: str) -> etree._Element:
    with zipfile.ZipFile(report) as package:
        return etree.fromstring(package.read(name))


def test_headings_go_down_one_level_at_a_time(report: Path) -> None:
    styles = part(report, "word/styles.xml")
    levels = {
        style.get(f"{W}styleId"): int(found.get(f"{W}val")) + 1
        for style in styles.iter(f"{W}style")
        if (found := style.find(f"{W}pPr/{W}outlineLvl")) is not None
    }
    levels["HeadingFront"] = levels["Heading1"]
    used = [
        levels[style.get(f"{W}val")]
        for style in part(report, "word/document.xml").iter(f"{W}pStyle")
        if style.get(f"{W}val") in levels
    ]
    assert used[0] == 1 and set(used) == {1, 2, 3}
    assert [pair for pair in pairwise(used) if pair[1] > pair[0] + 1] == []


def test_every_picture_and_chart_is_described_in_words(report: Path) -> None:
    drawings = list(part(report, "word/document.xml").iter(f"{WP}docPr"))
    assert len(drawings) >= 8
    described = [one.get("descr") or "" for one in drawings]
    assert [text for text in described if len(text.split()) < 3] == []
    assert not [text for text in described if re.search(r"\.(jpe?g|png)\b", text)], "a file's name is no description"


def test_every_table_of_columns_marks_its_heading_row_and_every_table_says_what_it_is(report: Path) -> None:
    tables = list(part(report, "word/document.xml").iter(f"{W}tbl"))
    assert len(tables) > 20
    for table in tables:
        look = table.find(f"{W}tblPr/{W}tblStyle").get(f"{W}val")
        first = table.find(f"{W}tr")
        if look == "Schedule":
            assert first.find(f"{W}trPr/{W}tblHeader") is not None
            assert all("".join(cell.itertext()).strip() for cell in first.findall(f"{W}tc")), "a column without a name"


def test_the_language_is_said_for_the_text_and_the_file(report: Path) -> None:
    said = part(report, "word/styles.xml").find(f"{W}docDefaults/{W}rPrDefault/{W}rPr/{W}lang")
    assert said.get(f"{W}val") == "en-US"
    core = part(report, "docProps/core.xml")
    assert core.findtext("{http://purl.org/dc/elements/1.1/}language") == "en-US"
    assert core.findtext("{http://purl.org/dc/elements/1.1/}title")


def _colours(element: etree._Element) -> set[str]:
    return {one.get("val") for one in element.iter(f"{A}srgbClr")}


def _grounds(root: etree._Element) -> Iterator[str]:
    """Yield what lies under labels of bars: the bars, the paper beside them, and both below each half-clear band."""
    labelled = [one for one in root.iter(f"{C}ser") if one.find(f"{C}dLbls/{C}dLbl") is not None]
    plain = {PAPER, *(one.find(f"{C}spPr/{A}solidFill/{A}srgbClr").get("val") for one in labelled)}
    yield from plain
    for alpha in root.iter(f"{A}alpha"):
        for ground in plain:
            yield laid_over(alpha.getparent().get("val"), ground, int(alpha.get("val")) / 100_000)


@pytest.mark.parametrize("chart", [PRICE, TIME, HISTORY], ids=lambda one: type(one).__name__)
def test_every_text_of_a_chart_stands_out(chart: Chart) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text."""
    root = etree.fromstring(chart_part(chart).encode())
    texts = [*root.iter(f"{C}txPr"), *root.iter(f"{C}rich")]
    assert texts
    for text in texts:
        on_bars = any(one.tag == f"{C}dLbls" for one in text.iterancestors())
        for colour in _colours(text):
            for ground in _grounds(root) if on_bars else (PAPER,):
                assert contrast(colour, ground) >= LEAST, (colour, ground)


def test_no_series_of_a_chart_is_told_by_colour_alone() -> None:
    """WCAG 2.2, success criterion 1.4.1: each line has a marker, each bar a named row, each piece a pattern."""
    lines = etree.fromstring(chart_part(HISTORY).encode())
    shapes = [one.get("val") for one in lines.iter(f"{C}symbol")]
    assert len(shapes) > 1 and len(set(shapes)) == len(shapes)
    prices = etree.fromstring(chart_part(PRICE).encode())
    rows = [one.findtext(f"{C}v") for one in prices.find(f".//{C}cat").iter(f"{C}pt")]
    assert all(rows) and len(set(rows)) == len(rows)
    patterns = [one.get("prst") for one in etree.fromstring(chart_part(TIME).encode()).iter(f"{A}pattFill")]
    assert len(patterns) > 1 and len(set(patterns)) == len(patterns), "open ends, and what was set aside"


@pytest.mark.office
@pytest.mark.skipif(find_office() is None, reason="needs LibreOffice")
def test_the_pdf_is_tagged_and_its_pictures_keep_their_descriptions(report: Path, tmp_path: Path) -> None:
    """ISO 32000-1, 14.7 (structure) and 14.8 (tagged PDF); the PDF/UA mark is the office program's own claim."""
    made = make_pdf(shutil.copy(report, tmp_path / "report.docx"), created=date(2025, 2, 14))
    assert isinstance(made, Pdf)
    content = made.content
    assert re.search(rb"/MarkInfo\s*<<\s*/Marked\s+true", content)
    assert b"/StructTreeRoot" in content and b"/Lang(en-US)" in content
    assert re.search(rb"/DisplayDocTitle\s+true", content)
    described = [one.get("descr") for one in part(report, "word/document.xml").iter(f"{WP}docPr")]
    told = [bytes.fromhex(one.decode()).decode("utf-16") for one in re.findall(rb"/Alt\s*<([0-9A-F]+)>", content)]
    assert told == described, "in the order of the report, charts among them"
    for tag in (b"H1", b"H2", b"H3", b"TH", b"TD", b"Figure"):
        assert re.search(rb"/S\s*/" + tag + rb"\b", content), tag
