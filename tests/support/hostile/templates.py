"""Attacks on the appraiser's own templates: on the folder, on the file as a package, on its XML, on its tags."""

import os
import re
import zipfile
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

from support.hostile.case import Case, Home, zipped
from support.hostile.packages import ENTRY_ATTACKS, XML_ATTACKS

_SHIPPED = Path(__file__).parents[3] / "templates"
_DOCUMENT = "word/document.xml"
Parts = dict[str, bytes]


@cache
def _parts(name: str) -> tuple[tuple[str, bytes], ...]:
    with zipfile.ZipFile(_SHIPPED / name) as package:
        return tuple((one, package.read(one)) for one in package.namelist())


def _own(name: str, change: Callable[[Parts], Parts | bytes]) -> Callable[[Home], None]:
    """Put a changed copy of a shipped template into the job's folder `look`."""

    def build(home: Home) -> None:
        made = change(dict(_parts(name)))
        place = home.folder / "job" / "look" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(made if isinstance(made, bytes) else zipped(made))

    return build


def _part(part: str, change: Callable[[bytes], bytes]) -> Callable[[Parts], Parts]:
    return lambda parts: {**parts, part: change(parts[part])}


def _first_text(text: str) -> Callable[[Parts], Parts]:
    """Put a text, as it stands in XML, in a paragraph of its own in front of the others."""
    new = f"<w:p><w:r><w:t>{text}</w:t></w:r></w:p>"
    return _body(new)


def _body(xml: str) -> Callable[[Parts], Parts]:
    return _part(_DOCUMENT, lambda content: re.sub(rb"(<w:body[^>]*>)", rb"\1" + xml.encode().replace(b"\\", rb"\\"),
                                                   content, count=1))  # fmt: skip


def _extra(name: str, content: bytes) -> Callable[[Parts], Parts]:
    return lambda parts: {**parts, name: content}


def _related(kind: str, target: str, *, outside: bool = True) -> Callable[[Parts], Parts]:
    mode = ' TargetMode="External"' if outside else ""
    link = (
        '<Relationship Id="rId900" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/'
        f'{kind}" Target="{target}"{mode}/></Relationships>'
    )
    part = "word/_rels/document.xml.rels"

    def change(parts: Parts) -> Parts:
        content = parts.get(part, b"<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'"
                                  b"></Relationships>")  # fmt: skip
        return {**parts, part: content.replace(b"</Relationships>", link.encode())}

    return change


#: What a template may say in a tag, and may not.
TAGS = {
    "a tag that climbs": "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    "a tag that climbs from the view": "{{ r.__class__.__init__.__globals__ }}",
    "a tag that climbs by a filter": "{{ r | attr('__class__') }}",
    "a tag that formats": "{{ '{0.__class__}'.format(r) }}",
    "a tag that imports": "{% import 'os' as os %}",
    "a tag that includes": "{% include '/etc/passwd' %}",
    "a tag that extends": "{% extends '/etc/passwd' %}",
    "a tag that calls": "{{ open('/etc/passwd').read() }}",
    "a tag that calls itself": "{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}",
    "a tag that multiplies": "{{ 'a' * 999999999 }}",
    "a tag that raises to a power": "{{ 9 ** 999999999 }}",
    "a tag that repeats by number": "{% for x in range(999999999) %}x{% endfor %}",
    "a tag that repeats a text": "{% for x in r.cover.title %}{% for y in r.cover.title %}x{% endfor %}{% endfor %}",
    "a tag that prints the view": "{{ r }}",
    "a tag with an unknown name": "{{ r.nothing }}",
    "a tag that is not closed": "{{ r.cover.title",
    "a block that is not closed": "{% if r.cover.title %}",
    "a block closed twice": "{% endif %}{% endif %}",
    "tags within tags": "{{ {{ r.cover.title }} }}",
    "a tag of a hundred thousand signs": "{{ '" + "a" * 100_000 + "' }}",
    "a tag of ten thousand brackets": "{{ " + "(" * 5_000 + "1" + ")" * 5_000 + " }}",
    "a tag of ten thousand nots": "{% if " + "not " * 5_000 + "r.cover.title %}x{% endif %}",
    "ten thousand tags": "{{ r.cover.title }} " * 5_000,
    "blocks nested a thousand deep": "{% if r.cover.title %}" * 1_000 + "{% endif %}" * 1_000,
    "a remark": "{# {{ 1 }} #}",
    "a raw block": "{% raw %}{{ 1 }}{% endraw %}",
    "a set": "{% set x = 1 %}{{ x }}",
    "a picture of a file": "{{ picture('/etc/passwd', 10, 10) }}",
    "a tag for a picture of the network": "{{ picture('http://192.0.2.1/a.png', 10, 10) }}",
    "a link that runs": "{{ link('javascript:alert(1)', 'x') }}",
    "a paragraph tag within a line": "before {%p if r.cover.title %} after {%p endif %}",
    "a row tag outside a table": "{%tr for x in r.cover.people %}",
    "a statement of lines": "# for x in r",
    "safe text": "{{ '&lt;w:p/&gt;' | safe }}",
}
#: What else may stand in the body of a template.
BODIES = {
    "a field that includes": '<w:p><w:fldSimple w:instr="INCLUDETEXT &quot;/etc/passwd&quot;"/></w:p>',
    "a field that includes a picture": '<w:p><w:fldSimple w:instr="INCLUDEPICTURE http://192.0.2.1/a.png"/></w:p>',
    "a field that runs": '<w:p><w:fldSimple w:instr="DDEAUTO c:\\\\cmd.exe &quot;/k calc&quot;"/></w:p>',
    "a field that links": '<w:p><w:r><w:instrText>HYPERLINK "file:///etc/passwd"</w:instrText></w:r></w:p>',
    "an embedded object": "<w:p><w:r><w:object/></w:r></w:p>",
    "an alternative chunk": '<w:altChunk xmlns:r="urn:r" r:id="rId900"/>',
    "a document within": '<w:p><w:subDoc xmlns:r="urn:r" r:id="rId900"/></w:p>',
    "an inserted text": '<w:p><w:ins w:id="1" w:author="x"><w:r><w:t>new</w:t></w:r></w:ins></w:p>',
    "a deleted text": '<w:p><w:del w:id="1" w:author="x"><w:r><w:delText>{{ r.x }}</w:delText></w:r></w:del></w:p>',
    "a style that is not there": '<w:p><w:pPr><w:pStyle w:val="Nobody"/></w:pPr></w:p>',
    "an element of another kind": '<x:script xmlns:x="urn:x">alert(1)</x:script>',
    "an old picture of the network": '<w:p><w:r><w:pict><v:shape xmlns:v="urn:schemas-microsoft-com:vml">'
    '<v:imagedata src="http://192.0.2.1/a.png"/></v:shape></w:pict></w:r></w:p>',
    "paragraphs nested": "<w:p>" * 50 + "</w:p>" * 50,
    "tables nested two hundred deep": "<w:tbl><w:tr><w:tc>" * 200 + "<w:p/>" + "</w:tc></w:tr></w:tbl>" * 200,
    "twenty thousand paragraphs": "<w:p/>" * 20_000,
    "a table without rows": "<w:tbl/>",
    "a control for content": "<w:sdt><w:sdtContent><w:p/></w:sdtContent></w:sdt>",
    "text outside a run": "<w:p>loose text {{ r.cover.title }}</w:p>",
}
#: Other changes of the package.
PACKAGES: dict[str, Callable[[Parts], Parts | bytes]] = {
    "empty": lambda _: b"",
    "no Word file": lambda _: b"These are notes.",
    "an old Word file": lambda _: bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600),
    "a zip of something else": lambda _: zipped({"a": b"b"}),
    "cut short": lambda parts: zipped(parts)[:900],
    "a bomb": _part(_DOCUMENT, lambda content: content + b" " * 120_000_000),
    "larger than any template": lambda parts: zipped({**parts, "word/media/a.bin": os.urandom(9_000_000)}),
    "macros": _extra("word/vbaProject.bin", bytes.fromhex("D0CF11E0A1B11AE1")),
    "an attached template": _related("attachedTemplate", "http://192.0.2.1/evil.dotm"),
    "a picture of the network": _related("image", "http://192.0.2.1/a.png"),
    "a frame of the network": _related("frame", "http://192.0.2.1/"),
    "an object of the network": _related("oleObject", "http://192.0.2.1/a.doc"),
    "a link that climbs": _related("image", "../../../outside/secret.jpg", outside=False),
    "an entry that climbs": _extra("../../outside/secret.jpg", b"x"),
    "three thousand entries": lambda parts: {**parts, **{f"word/a{n}.xml": b"" for n in range(3_000)}},
}
_XML = ("cut in half", "binary", "document type", "entities within entities", "entity from a file", "not UTF-8",
        "a zero byte", "nested thirty thousand deep", "many attributes", "an unknown encoding", "two roots",
        "five megabytes of comment", "another root")  # fmt: skip
_ENTRIES = ("missing", "flipped bytes", "marked as encrypted", "packed in an unknown way", "a wrong checksum",
            "a size of four gigabytes", "a place outside")  # fmt: skip
_OPTIONS = ("--template", "look")


def template_cases() -> Iterator[Case]:
    """Yield the cases, for a section and for the house document."""
    for part, name in (("section template", "sections/cover.docx"), ("house document", "house.docx")):
        for attack, change in PACKAGES.items():
            yield _case(attack, part, _own(name, change))
        for attack in _XML:
            yield _case(attack, part, _own(name, _part(_DOCUMENT, XML_ATTACKS[attack][0])))
        for attack in _ENTRIES:
            yield _case(f"{attack}, of its text", part, _entry(attack, name))
    for attack, text in TAGS.items():
        yield _case(attack, "section template", _own("sections/cover.docx", _first_text(text)))
    for attack, xml in BODIES.items():
        yield _case(attack, "section template", _own("sections/cover.docx", _body(xml)))
    for attack in ("cut in half", "document type", "another root", "entities within entities"):
        styles = _part("word/styles.xml", XML_ATTACKS[attack][0])
        yield _case(attack, "styles of the house document", _own("house.docx", styles))
    for attack, made in _FOLDERS.items():
        yield _case(attack, "templates folder", _done(made))


def _done(make: Callable[[Home], object]) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        make(home)

    return build


def _case(attack: str, part: str, build: Callable[[Home], None]) -> Case:
    return Case(attack, part, build, "any", runs=("report",), options=_OPTIONS)


def _entry(attack: str, name: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        before = home.job.read_bytes()
        home.parts = dict(_parts(name))
        ENTRY_ATTACKS[attack][0](_DOCUMENT)(home)
        place = home.folder / "job" / "look" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(home.job.read_bytes())
        home.job.write_bytes(before)

    return build


def _look(home: Home) -> Path:
    return home.folder / "job" / "look"


def _sections(home: Home) -> Path:
    (_look(home) / "sections").mkdir(parents=True)
    return _look(home) / "sections"


_FOLDERS: dict[str, Callable[[Home], object]] = {
    "a file": lambda home: _look(home).write_text("notes"),
    "empty": lambda home: _look(home).mkdir(),
    "a link to nothing": lambda home: _look(home).symlink_to("nowhere"),
    "a link in a ring": lambda home: _look(home).symlink_to("look"),
    "a section nobody knows": lambda home: (_sections(home) / "covr.docx").write_bytes(b"x"),
    "a section with an odd name": lambda home: (_sections(home) / "..&#x202E; {{ 1 }}.docx").write_bytes(b"x"),
    "a folder for a section": lambda home: (_sections(home) / "cover.docx").mkdir(),
    "a pipe for a section": lambda home: os.mkfifo(_sections(home) / "cover.docx"),
    "a link to nothing for a section": lambda home: (_sections(home) / "cover.docx").symlink_to("nowhere"),
    "a device for a section": lambda home: (_sections(home) / "cover.docx").symlink_to("/dev/zero"),
    "other files": lambda home: (_sections(home) / "cover.docm").write_bytes(b"x"),
}
