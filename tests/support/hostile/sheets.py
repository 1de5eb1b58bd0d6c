"""Attacks on the build of sheets and of the workbook, on the library and on the folder of templates it names."""

import re
from collections.abc import Callable, Iterator

from support.hostile.case import Case, Ends, Home

Change = Callable[[str], str]


def _sub(pattern: str, new: str, count: int = 1) -> Change:
    return lambda xml: re.sub(pattern, new, xml, count=count, flags=re.DOTALL)


def _rows(addition: str) -> Change:
    return lambda xml: xml.replace("</sheetData>", f"{addition}</sheetData>", 1)


def _behind(addition: str) -> Change:
    return lambda xml: xml.replace("</sheetData>", f"</sheetData>{addition}", 1)


def _empty_rows(xml: str) -> str:
    """Format every row down to the last one."""
    rows = "".join(f'<row r="{number}" s="1" customFormat="1"/>' for number in range(2000, 1_048_577))
    return _rows(rows)(xml)


def _empty_cells(xml: str) -> str:
    many = "".join(f'<row r="{row}"><c r="A{row}" s="1"/><c r="B{row}" s="1"/></row>' for row in range(4000, 54_000))
    return _rows(many)(xml)


def _again(xml: str) -> str:
    """Write the rows of data a second time, under the same numbers."""
    start, end = xml.index('<row r="3"'), xml.index("</sheetData>")
    return xml[:end] + xml[start:end] + xml[end:]


def _backwards(xml: str) -> str:
    start, end = xml.index("<sheetData>") + 11, xml.index("</sheetData>")
    rows = re.findall(r"<row .*?</row>", xml[start:end], re.DOTALL)
    return xml[:start] + "".join(reversed(rows)) + xml[end:]


def _headings_twice(xml: str) -> str:
    """Repeat the cells of the heading row further to the right."""
    row = re.search(r'<row r="2".*?</row>', xml, re.DOTALL)
    assert row is not None
    cells = re.findall(r'<c r="[A-Z]+2"( [^>]*)><v>([0-9]+)</v></c>', row[0])
    more = "".join(f'<c r="B{chr(65 + n)}2"{style}><v>{v}</v></c>' for n, (style, v) in enumerate(cells[:20]))
    return xml.replace(row[0], row[0].replace("</row>", f"{more}</row>"))


#: Attacks on the XML of a sheet with a table.
SHEET_ATTACKS: dict[str, tuple[Change, Ends, tuple[str, ...]]] = {
    "a million formatted empty rows": (_empty_rows, "same", ()),
    "a hundred thousand formatted empty cells": (_empty_cells, "same", ()),
    "no rows at all": (_sub(r"<sheetData>.*</sheetData>", "<sheetData/>"), "findings", ()),
    "no data element": (_sub(r"<sheetData>.*</sheetData>", ""), "any", ()),
    "two data elements": (_behind('<sheetData><row r="9"><c r="B9"><v>1</v></c></row></sheetData>'), "any", ()),
    "rows twice": (_again, "any", ()),
    "rows backwards": (_backwards, "any", ()),
    "row zero": (_rows('<row r="0"><c r="A0"><v>1</v></c></row>'), "any", ()),
    "a row before the first": (_rows('<row r="-3"><c r="A-3"><v>1</v></c></row>'), "any", ()),
    "a row beyond the last": (_rows('<row r="99999999999"><c r="B99999999999"><v>1</v></c></row>'), "any", ()),
    "a row of thirty digits": (_rows(f'<row r="{"9" * 30}"><c r="B9"><v>1</v></c></row>'), "any", ()),
    "a row of letters": (_rows('<row r="abc"><c r="B9"><v>1</v></c></row>'), "any", ()),
    "a row without a number": (_rows("<row><c><v>1</v></c></row>"), "any", ()),
    "a column beyond the last": (_rows('<row r="90"><c r="ZZZZZZZZ90"><v>1</v></c></row>'), "any", ()),
    "a column in small letters": (_rows('<row r="90"><c r="b90"><v>1</v></c></row>'), "any", ()),
    "an address that is none": (_rows('<row r="90"><c r="?"><v>1</v></c></row>'), "any", ()),
    "an empty address": (_rows('<row r="90"><c r=""><v>1</v></c></row>'), "any", ()),
    "cells out of order": (_rows('<row r="90"><c r="D90"><v>1</v></c><c r="B90"><v>2</v></c></row>'), "any", ()),
    "a cell twice": (_rows('<row r="90"><c r="B90"><v>1</v></c><c r="B90"><v>2</v></c></row>'), "any", ()),
    "a cell of another row": (_rows('<row r="90"><c r="B7"><v>1</v></c></row>'), "any", ()),
    "a row far down": (_rows('<row r="1048576"><c r="B1048576" t="str"><v>far</v></c></row>'), "findings", ()),
    "rows in rows": (_rows('<row r="90"><row r="91"><c r="B91"><v>1</v></c></row></row>'), "any", ()),
    "hidden rows": (_sub(r'<row r="3"', '<row r="3" hidden="1"'), "findings", ("CEL-37",)),
    "filtered rows": (_sub(r'<row r="3"', '<row r="3" hidden="true"'), "findings", ("CEL-37",)),
    "merged data": (_behind('<mergeCells><mergeCell ref="B3:D4"/></mergeCells>'), "findings", ("CEL-28",)),
    "merged columns": (_behind('<mergeCells><mergeCell ref="A:XFD"/></mergeCells>'), "any", ()),
    "a merge of nothing": (_behind('<mergeCells><mergeCell ref=""/><mergeCell/></mergeCells>'), "any", ()),
    "a merge that is none": (_behind('<mergeCells><mergeCell ref="?:??"/></mergeCells>'), "any", ()),
    "a merge of no rows": (_behind('<mergeCells><mergeCell ref="?9:?99"/></mergeCells>'), "any", ()),
    "a merge of endless columns": (_behind('<mergeCells><mergeCell ref="A5:ZZZZZZZZZZZZ9"/></mergeCells>'), "any", ()),
    "a merge of everything": (_behind('<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'), "any", ()),
    "a merge with huge numbers": (_behind(f'<mergeCells><mergeCell ref="A1:B{"9" * 5000}"/></mergeCells>'), "any", ()),
    "twenty thousand merges": (
        _behind("<mergeCells>" + '<mergeCell ref="AZ900:BA901"/>' * 50_000 + "</mergeCells>"), "any", ()),
    "headings twice": (_headings_twice, "any", ("FIL-05",)),
    "no headings": (_sub(r'<row r="2".*?</row>', ""), "any", ()),
    "a drawing that is not there": (_behind('<drawing xmlns:r="urn:r" r:id="rId99"/>'), "any", ()),
    "comments that are not there": (
        _behind('<legacyDrawing xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" '
                'r:id="rId99"/>'), "any", ()),
    "an embedded program": (_behind('<oleObjects><oleObject progId="Package" shapeId="1"/></oleObjects>'), "any", ()),
    "a web query": (_behind('<queryTableParts url="http://192.0.2.1/"/>'), "any", ()),
    "columns without end": (_sub(r"<cols>", '<cols><col min="1" max="4294967295" style="9"/>'), "any", ()),
    "a size that lies": (_sub(r'<dimension ref="[^"]*"', '<dimension ref="A1:XFD1048576"'), "same", ()),
}  # fmt: skip
_BOOK = "xl/workbook.xml"


def _book(change: Change) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        before = home.parts[_BOOK].decode()
        after = change(before)
        assert before != after, "the attack does not change the workbook"
        home.parts[_BOOK] = after.encode()
        home.save()

    return build


#: Attacks on the workbook part.
BOOK_ATTACKS: dict[str, tuple[Change, Ends, tuple[str, ...]]] = {
    "days counted from 1904": (_sub("<workbookPr", '<workbookPr date1904="1"'), "findings", ()),
    "no sheets": (_sub("<sheets>.*</sheets>", "<sheets/>"), "refused", ()),
    "a sheet that is not there": (_sub('r:id="rId5"', 'r:id="rId999"'), "findings", ("FIL-01",)),
    "a sheet without a link": (_sub(' r:id="rId5"', ""), "findings", ("FIL-01",)),
    "two sheets of one name": (_sub('name="Parts"', 'name="Items"'), "any", ()),
    "names that differ in case": (_sub('name="Parts"', 'name="ITEMS"'), "any", ()),
    "one part for two sheets": (_sub('r:id="rId7"', 'r:id="rId5"'), "any", ()),
    "a renamed sheet": (_sub('name="Items"', 'name="Item"'), "findings", ("FIL-17",)),
    "a sheet with a Cyrillic letter": (_sub('name="Items"', 'name="I\u0442ems"'), "any", ()),
    "a sheet named by nothing": (_sub('name="Items"', 'name=""'), "any", ()),
    "a sheet named by spaces": (_sub('name="Items"', 'name="   "'), "any", ()),
    "a sheet named by a bell": (_sub('name="Parts"', 'name="Pa_x0007_rts&#x202E;"'), "any", ()),
    "a sheet named by markup": (_sub('name="Parts"', 'name="[red]{{ 1 }}&lt;w:p/&gt;=cmd"'), "any", ()),
    "a sheet with a very long name": (_sub('name="Parts"', f'name="{"P" * 100_000}"'), "any", ()),
    "all sheets hidden": (_sub("<sheet ", '<sheet state="veryHidden" ', 99), "any", ()),
    "a thousand sheets": (
        _sub("</sheets>", "".join(f'<sheet name="A{n}" sheetId="{n}" r:id="rId6"/>' for n in range(99, 1099))
             + "</sheets>"), "any", ()),
    "a protected structure": (_sub("<sheets>", '<workbookProtection lockStructure="1"/><sheets>'), "same", ()),
    "strict Open XML": (
        _sub("http://schemas.openxmlformats.org/spreadsheetml/2006/main",
             "http://purl.oclc.org/ooxml/spreadsheetml/main"), "refused", ()),
    "names that call out": (
        _sub("<definedNames>", "<definedNames><definedName name=\"_xlnm.Auto_Open\">cmd|' /C calc'!A0</definedName>"),
        "same", ()),
}  # fmt: skip


def _links(change: Change) -> Callable[[Home], None]:
    part = "xl/_rels/workbook.xml.rels"

    def build(home: Home) -> None:
        before = home.parts[part].decode()
        after = change(before)
        assert before != after, "the attack does not change the links"
        home.parts[part] = after.encode()
        home.save()

    return build


#: Attacks on the links of the workbook to its parts.
LINK_ATTACKS: dict[str, tuple[Change, Ends, tuple[str, ...]]] = {
    "a sheet outside the package": (_sub("worksheets/sheet5.xml", "../../outside/secret.xml"), "refused", ()),
    "a sheet of the file system": (_sub('"worksheets/sheet5.xml"', '"file:///etc/passwd"'), "refused", ()),
    "a sheet of the network": (
        _sub('"worksheets/sheet5.xml"', '"http://192.0.2.1/a.xml" TargetMode="External"'), "findings", ("FIL-01",)),
    "a sheet that is the workbook": (_sub("worksheets/sheet5.xml", "workbook.xml"), "any", ()),
    "texts that are a sheet": (_sub("sharedStrings.xml", "worksheets/sheet5.xml"), "any", ()),
    "styles that are texts": (_sub("styles.xml", "sharedStrings.xml"), "any", ()),
    "texts that are not there": (_sub("sharedStrings.xml", "nowhere.xml"), "any", ()),
    "an id twice": (_sub('Id="rId6"', 'Id="rId5"'), "any", ()),
    "no target": (_sub('Target="worksheets/sheet5.xml"', ""), "any", ()),
    "a chart sheet": (_sub("relationships/worksheet(?=\" Target=\"worksheets/sheet5)", "relationships/chartsheet"),
                      "findings", ("FIL-01",)),
    "a link to another workbook": (
        _sub("</Relationships>", '<Relationship Id="rId900" Type="http://schemas.openxmlformats.org/officeDocument/2006'
             '/relationships/externalLink" Target="externalLinks/externalLink1.xml"/></Relationships>'), "same", ()),
}  # fmt: skip


def _named(key: str, text: str, *, prepare: Callable[[Home], None] = lambda _: None) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        prepare(home)
        home.put_text("assignment", key, text)

    return build


def _own_library(content: bytes | None = None) -> Callable[[Home], None]:
    def prepare(home: Home) -> None:
        target = home.job.with_name("library.xlsx")
        target.write_bytes(home.job.read_bytes() if content is None else content)

    return prepare


def _library_folder(home: Home) -> None:
    home.job.with_name("library.xlsx").mkdir()


def _library_link(home: Home) -> None:
    home.job.with_name("library.xlsx").symlink_to(home.folder / "outside" / "secret.xlsx")


def _library_cut(home: Home) -> None:
    home.job.with_name("library.xlsx").write_bytes(home.job.read_bytes()[:5000])


#: Names of a library or of a folder of templates that lead elsewhere.
ELSEWHERE = {
    "a name that climbs": "../outside/secret.xlsx",
    "a name that climbs with backslashes": "..\\outside\\secret.xlsx",
    "a name that goes down and climbs": "photos/../../outside/secret.xlsx",
    "an absolute name": "/etc/passwd",
    "a name with a drive": "C:\\secret.xlsx",
    "a name of the network": "\\\\192.0.2.1\\share\\a.xlsx",
    "a link": "http://192.0.2.1/a.xlsx",
    "a link to a file": "file:///etc/passwd",
    "a device": "/dev/zero",
    "a very long name": "a" * 5_000 + ".xlsx",
    "a name with a zero": "a_x0000_b.xlsx",
    "a home": "~/a.xlsx",
    "only points": "..",
    "a folder": "photos",
    "nothing there": "nowhere.xlsx",
    "a pattern": "*.xlsx",
    "a variable": "$HOME/a.xlsx",
}


def sheet_cases() -> Iterator[Case]:
    """Yield the cases: attacks on sheets, on the workbook and its links, on the files it names."""
    for part in ("Items", "Sales"):
        for attack, (change, ends, codes) in SHEET_ATTACKS.items():
            yield Case(attack, f"sheet {part}", _edited(part, change), ends, codes)
    for attack in ("no data element", "rows backwards", "a cell twice", "a row of letters", "no rows at all"):
        yield Case(attack, "sheet Assignment", _edited("Assignment", SHEET_ATTACKS[attack][0]))
    for attack, (change, ends, codes) in BOOK_ATTACKS.items():
        yield Case(attack, "workbook part", _book(change), ends, codes)
    for attack, (change, ends, codes) in LINK_ATTACKS.items():
        yield Case(attack, "links of the workbook", _links(change), ends, codes)
    yield Case("macros", "workbook part", _macros, "same")
    for attack, name in ELSEWHERE.items():
        yield Case(attack, "library named", _named("library", name), "findings", ("FIL-13",))
        yield Case(attack, "templates named", _named("template_folder", name), runs=("check", "report"))
    yield Case("the job itself", "library", _named("library", "job.xlsx"), "findings")
    yield Case("a copy of the job", "library", _named("library", "library.xlsx", prepare=_own_library()), "findings")
    for attack, prepare in (
        ("empty", _own_library(b"")),
        ("no workbook", _own_library(b"notes")),
        ("a folder of that name", _library_folder),
        ("a link that leads out", _library_link),
        ("cut short", _library_cut),
    ):
        yield Case(attack, "library", _named("library", "library.xlsx", prepare=prepare), "findings")


def _edited(sheet: str, change: Change) -> Callable[[Home], None]:
    return lambda home: home.edit(sheet, change)


def _macros(home: Home) -> None:
    types = "[Content_Types].xml"
    home.parts[types] = home.parts[types].replace(
        b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
        b"application/vnd.ms-excel.sheet.macroEnabled.main+xml",
    )
    home.parts["xl/vbaProject.bin"] = bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600)
    home.save()
