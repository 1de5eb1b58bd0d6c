"""The structural check: a sound report passes, each kind of damage is named."""

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from support.report_samples import EDGES, PROPERTIES, SECTIONS, finder, item, report

from appraise.report.engine import inspect_text
from appraise.report.engine.inspect import BrokenReportError, inspect_docx, require_sound
from appraise.report.engine.render import render


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    target = io.BytesIO()
    render(
        target,
        SECTIONS,
        report(5),
        [item(1), item(2)],
        templates=finder(tmp_path_factory.mktemp("templates")),
        properties=PROPERTIES,
        edges=EDGES,
        draft=True,
    )
    return target.getvalue()


def changed(content: bytes, change: Callable[[str], str], part: str = "word/document.xml") -> io.BytesIO:
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(target, "w") as result:
        for name in source.namelist():
            data = source.read(name)
            if name == part:
                before = data.decode()
                data = change(before).encode()
                assert data.decode() != before
            result.writestr(name, data)
    return target


def last(text: str, old: str, new: str) -> str:
    """Return the text with the last occurrence replaced: shapes before it are known by then."""
    before, found, after = text.rpartition(old)
    return f"{before}{new if found else ''}{after}"


@pytest.mark.parametrize("size", [1, 7, 100, 4096])
def test_blocks_may_end_anywhere(sound: bytes, size: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(inspect_text, "_BLOCK", size)
    assert inspect_docx(io.BytesIO(sound)) == []
    broken = changed(sound, lambda x: last(x, "<w:r>", "loose – ü<w:r>"))
    assert len(inspect_docx(broken)) == 1


def test_every_occurrence_of_a_fault_is_named(sound: bytes) -> None:
    problems = inspect_docx(changed(sound, lambda x: x.replace("<w:r><w:t>1</w:t>", "loose<w:r><w:t>1</w:t>")))
    assert len(problems) > 1


def test_a_rendered_report_is_sound(sound: bytes) -> None:
    assert inspect_docx(io.BytesIO(sound)) == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda x: x.replace("</w:body>", "&</w:body>"), "not well-formed"),
        (lambda x: x.replace("<w:t>1</w:t>", "<w:t><w:b/></w:t>", 1), "inside a text"),
        (lambda x: x.replace("<w:r>", "loose<w:r>", 1), "outside a run"),
        (lambda x: x.replace("</w:p></w:tc>", "</w:p><w:tbl/></w:tc>", 1), "does not end with a paragraph"),
        (lambda x: x.replace("</w:pPr>", "</w:pPr><w:p/>", 1), "inside a paragraph"),
        (lambda x: x.replace('wp:docPr id="2"', 'wp:docPr id="1"', 1), "drawing 1 is there twice"),
        (lambda x: x.replace(" descr=", " title=", 1), "no description"),
        (lambda x: x.replace("Client", "{{ client }}", 1), "a tag is left"),
        (lambda x: x.replace('w:val="Subtitle"', 'w:val="Fancy"', 1), "style Fancy"),
        (lambda x: x.replace('r:embed="', 'r:embed="x', 1), "relationship x"),
        (lambda x: x.replace('w:anchor="_Toc', 'w:anchor="_Tic', 1), "which is not there"),
        (lambda x: x.replace('<w:footnoteReference w:id="1"', '<w:footnoteReference w:id="9"', 1), "footnote 9"),
        (lambda x: x.replace("<w:bookmarkEnd ", "<w:noBookmark ", 1), "not closed"),
        (lambda x: x.replace("<w:pPr>", "<w:pPr><w:jc w:val='left'/>", 1), "too late in pPr"),
        (lambda x: x.replace('w:fldCharType="end"', 'w:fldCharType="begin"', 1), "field is not closed"),
        (lambda x: x.replace("<w:r>", "<!-- kept --><w:r>", 1), "a comment"),
        (lambda x: x.replace("<w:r>", "<w:r xmlns:w='urn:other'>", 1), "declared as urn:other"),
        (lambda x: x.replace("<w:r>", "<w:r><![CDATA[loose]]>", 1), "a comment"),
        (lambda x: last(x, "<w:r>", "loose<w:r>"), "outside a run"),
        (lambda x: last(x, "</w:p></w:tc>", "</w:p><w:tbl/></w:tc>"), "does not end with a paragraph"),
        (lambda x: last(x, "<w:r>", "<w:r><w:t>{% if x %}</w:t></w:r><w:r>"), "a tag is left"),
        (
            lambda x: last(x, "<w:bookmarkEnd ", '<w:bookmarkEnd w:id="7777"/><w:bookmarkEnd '),
            "closed that is not open",
        ),
    ],
)
def test_each_kind_of_damage_is_named(sound: bytes, change: Callable[[str], str], said: str) -> None:
    problems = inspect_docx(changed(sound, change))
    assert any(said in problem for problem in problems), problems


def test_a_missing_part_is_named(sound: bytes) -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(sound)) as source, zipfile.ZipFile(target, "w") as result:
        for name in source.namelist():
            if name != "word/charts/chart1.xml":
                result.writestr(name, source.read(name))
    problems = inspect_docx(target)
    assert any("chart1.xml, which is not there" in problem for problem in problems)


def test_a_broken_report_is_our_own_fault(sound: bytes, tmp_path: Path) -> None:
    file = tmp_path / "report.docx"
    file.write_bytes(changed(sound, lambda x: x.replace(" descr=", " title=", 1)).getvalue())
    with pytest.raises(BrokenReportError, match="1 structural problem") as raised:
        require_sound(file)
    assert raised.value.problems
