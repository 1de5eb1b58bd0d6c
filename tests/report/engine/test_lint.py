"""An appraiser's own templates: every fault is reported with its paragraph before anything is rendered."""

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from support.report_samples import SampleItem, SampleReport, finder, house_bytes, item_template, overview_template

from appraise.findings.entries import action, message
from appraise.model.finding import Finding
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.house import house
from appraise.report.engine.lint import lint_folder, lint_house, lint_template

SCHEMA = {"r": SampleReport, "item": SampleItem}


def template(fill: Callable[..., None]) -> bytes:
    from templates_source.kit import Sheet

    sheet = Sheet(house_bytes())
    sheet.para("First paragraph.")
    fill(sheet)
    return sheet.finished()


def linted(fill: Callable[..., None] | str) -> list[Finding]:
    made = (lambda sheet: sheet.para(fill)) if isinstance(fill, str) else fill
    return lint_template(template(made), "sections/own.docx", SCHEMA, house(house_bytes()))


def codes(fill: Callable[..., None] | str) -> list[str]:
    found = linted(fill)
    for one in found:
        assert message(one) and action(one)  # the catalogue's sentences can be filled
    return [one.code for one in found]


def test_the_sample_templates_and_the_house_document_are_clean() -> None:
    look = house(house_bytes())
    assert lint_template(overview_template(house_bytes()), "a", SCHEMA, look) == []
    assert lint_template(item_template(house_bytes()), "b", SCHEMA, look) == []
    assert lint_house(house_bytes(), SCHEMA) == []


def test_a_wrong_name_is_reported_with_its_paragraph_and_the_nearest_valid_one() -> None:
    (found,) = linted("{{ r.titel }}")
    assert (found.code, found.place.sheet, found.place.row, found.found) == (
        "TPL-09",
        "sections/own.docx",
        2,
        "{{ r.titel }}",
    )
    assert dict(found.details)["nearest"] == "r.title"


def test_names_inside_loops_are_followed() -> None:
    def fill(sheet: object) -> None:
        with sheet.each("row", "r.rows"):  # type: ignore[attr-defined]
            sheet.para("{{ row.titel }} {{ loop.index }} {{ loop.idx }}")  # type: ignore[attr-defined]
        sheet.para("{{ row.title }}")  # type: ignore[attr-defined]

    found = linted(fill)
    assert [(one.code, one.place.row, dict(one.details)["nearest"]) for one in found[:1]] == [
        ("TPL-09", 3, "row.title")
    ]
    assert [one.code for one in found] == ["TPL-09", "TPL-09", "TPL-09"]
    assert found[2].place.row == 5


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("{{ r.rows }}", "TPL-10"),
        ("{{ r.history }}", "TPL-10"),
        ("{{ item.description }}", "TPL-10"),
        ("{{r r.title }}", "TPL-10"),
        ("{% for x in r.title %}{{ x }}{% endfor %}", "TPL-10"),
        ("{{ r.title.upper }}", "TPL-10"),
        ("{{ item.photos.source }}", "TPL-10"),
        ("{{ picture(r.title) }}", "TPL-13"),
        ("{{ chart(r.history, 160, 70, 3) }}", "TPL-13"),
        ("{{ link(r.title) }}", "TPL-13"),
        ("{{ r.title", "TPL-04"),
        ("{% if r.title %}open", "TPL-06"),
        ("{% endif %}", "TPL-06"),
        ("{%p if r.title %} beside", "TPL-05"),
        ("{%tr for row in r.rows %}", "TPL-05"),
        ("{{ r.title |}}", "TPL-08"),
        ("{% for x r.rows %}{% endfor %}", "TPL-08"),
        ("{{- r.title }}", "TPL-04"),
        ("{{ r.title + 'x' }}", "TPL-07"),
        ("{{ r.title * 9 }}", "TPL-07"),
        ("{{ 9 ** 9 ** 9 }}", "TPL-07"),
        ("{{ 'a' ~ r.title }}", "TPL-07"),
        ("{% set x = r.title %}", "TPL-07"),
        ("{% include 'x' %}", "TPL-07"),
        ("{% import 'x' as y %}", "TPL-07"),
        ("{% macro x() %}{% endmacro %}", "TPL-07"),
        ("{% raw %}{% endraw %}", "TPL-07"),
        ("{% for x in range(10) %}{% endfor %}", "TPL-07"),
        ("{{ r.title.__class__ }}", "TPL-07"),
        ("{{ r.__class__.__mro__ }}", "TPL-07"),
        ("{{ ''['__class__'] }}", "TPL-07"),
        ("{{ picture.__globals__ }}", "TPL-07"),
        ("{{ r.title.format(r) }}", "TPL-07"),
        ("{{ cycler('a') }}", "TPL-07"),
        ("{{ lipsum(9) }}", "TPL-07"),
        ("{{ r.title | safe }}", "TPL-07"),
        ("{{ r.title | center(99999999) }}", "TPL-07"),
        ("{{ '%99999d' | format(1) }}", "TPL-07"),
        ("{{ r.rows | map(attribute='x') }}", "TPL-07"),
        ("{{ r.title is callable }}", "TPL-07"),
        ("{{ _spend(1) }}", "TPL-07"),
        ("{% filter upper %}x{% endfilter %}", "TPL-07"),
        ("{{ " + "(" * 140 + "1" + ")" * 140 + " }}", "TPL-07"),
        ("{{ r.title[1:] }}", "TPL-07"),
        ("{% hm %}", "TPL-07"),
    ],
)
def test_each_fault_has_its_code(text: str, code: str) -> None:
    assert code in codes(text)


def test_what_may_be_nothing_is_asked_about_first() -> None:
    assert codes("{{ chart(item.price) }}") == []  # none prints nothing
    assert codes("{% if item.price is not none %}{{ item.price.caption }}{% endif %}") == []


def test_a_tag_in_a_picture_description_is_reported() -> None:
    content = template(lambda sheet: sheet.para("text"))
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(target, "w") as result:
        for name in source.namelist():
            data = source.read(name).replace(b'<w:t xml:space="preserve">text', b'<w:t w:x="{{ r.title }}">text')
            result.writestr(name, data)
    found = lint_template(target.getvalue(), "own", SCHEMA, house(house_bytes()))
    assert [one.code for one in found] == ["TPL-14"]


def edited(old: bytes, new: bytes, *, part: str = "word/document.xml", extra: tuple[str, bytes] | None = None) -> bytes:
    content = template(lambda sheet: sheet.para("text"))
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(target, "w") as result:
        for name in source.namelist():
            data = source.read(name)
            if name == part:
                assert old in data
                data = data.replace(old, new, 1)
            result.writestr(name, data)
        if extra:
            result.writestr(*extra)
    return target.getvalue()


LAST = b"</w:p><w:sectPr"
RELATIONS = "word/_rels/document.xml.rels"


@pytest.mark.parametrize(
    ("xml", "code"),
    [
        (b'<w:ins w:id="1"><w:r><w:t>new</w:t></w:r></w:ins>', "TPL-03"),
        (b'<w:del w:id="1"><w:r><w:delText>old</w:delText></w:r></w:del>', "TPL-03"),
        (b"<w:r><w:object/></w:r>", "TPL-02"),
        (b'<w:fldSimple w:instr=" INCLUDETEXT C:\\\\secret.txt "/>', "TPL-12"),
        (b"<w:r><w:instrText> DDEAUTO cmd </w:instrText></w:r>", "TPL-12"),
        (b"<w:r><w:instrText> INCLUDE</w:instrText></w:r><w:r><w:instrText>PICTURE x </w:instrText></w:r>", "TPL-12"),
        (
            b'<w:hyperlink r:id="rId99" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"/>',
            "TPL-02",
        ),
        (b'<x:shape xmlns:x="urn:other"/>', "TPL-02"),
    ],
)
def test_what_a_template_may_not_carry(xml: bytes, code: str) -> None:
    found = lint_template(edited(LAST, xml + LAST), "own", SCHEMA, house(house_bytes()))
    assert code in [one.code for one in found]
    assert {one.place.row for one in found if one.code == code} == {2}
    assert all(message(one) for one in found)


def test_macros_and_unknown_styles_and_numbers_are_reported() -> None:
    look = house(house_bytes())
    macro = edited(b"text", b"text", extra=("word/vbaProject.bin", b"x"))
    assert [one.code for one in lint_template(macro, "own", SCHEMA, look)] == ["TPL-02"]
    plain = b'<w:pStyle w:val="BodyText"/></w:pPr><w:r><w:t xml:space="preserve">text'
    styled = edited(plain, b'<w:pStyle w:val="Fancy"/><w:numPr><w:numId w:val="77"/></w:numPr></w:pPr><w:r><w:t>text')
    assert [one.code for one in lint_template(styled, "own", SCHEMA, look)] == ["TPL-11", "TPL-17"]


def test_entities_and_files_that_are_no_documents_are_refused() -> None:
    look = house(house_bytes())
    bomb = edited(b"<w:document", b'<!DOCTYPE x [<!ENTITY a "aaaa">]><w:document')
    for content in (bomb, b"no zip", b""):
        assert [one.code for one in lint_template(content, "own", SCHEMA, look)] == ["TPL-01"]
    assert [one.code for one in lint_house(b"no zip", SCHEMA)] == ["TPL-01"]


def test_a_house_document_without_what_the_engine_needs_is_refused() -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(house_bytes())) as source, zipfile.ZipFile(target, "w") as result:
        for name in source.namelist():
            data = source.read(name)
            if name == "word/styles.xml":
                data = data.replace(b'w:styleId="TOC1"', b'w:styleId="Other"')
            if name == "word/document.xml":
                data = data.replace(b"<w:headerReference", b"<w:nothing", 1)
            result.writestr(name, data)
    found = lint_house(target.getvalue(), SCHEMA)
    assert [one.code for one in found] == ["TPL-16", "TPL-16"]
    assert dict(found[0].details)["what"] == "style TOC1"


def test_a_folder_is_checked_file_by_file_and_a_misspelt_section_is_noted(tmp_path: Path) -> None:
    finder(tmp_path)
    (tmp_path / "sections" / "overveiw.docx").write_bytes(overview_template(house_bytes()))
    (tmp_path / "sections" / "object.docx").write_bytes(template(lambda sheet: sheet.para("{{ item.titel }}")))
    found = lint_folder(TemplateFinder.with_own(tmp_path), SCHEMA, {"overview", "object"})
    assert [(one.code, one.place.sheet) for one in found] == [
        ("TPL-09", "sections/object.docx"),
        ("TPL-15", "sections/overveiw.docx"),
    ]
    assert dict(found[1].details)["nearest"] == "overview"
