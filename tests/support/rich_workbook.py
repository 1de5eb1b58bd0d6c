"""A workbook full of what a library that rewrites files would drop: text box, pictures, sparklines, conversations."""

import io
import zipfile
from pathlib import Path
from typing import Any

from PIL import Image
from support.workbooks import raw_job

from appraise.files.zips import write_package

#: Content of the part that stands for macros; nothing reads it.
MACROS = b"\xd0\xcf\x11\xe0 no real macros"
THREADS = "http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"
_LINKS = "http://schemas.microsoft.com/office/2017/10/relationships"
_FIRST = "{11111111-2222-4333-8444-555555555555}"
_PERSON = "{99999999-2222-4333-8444-555555555555}"
#: A list of allowed values kept where only newer programs look.
LIST_RULE = (
    '<ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}" '
    'xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main">'
    '<x14:dataValidations count="1" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main">'
    '<x14:dataValidation type="list" allowBlank="1"><x14:formula1><xm:f>Start!$A$1:$A$3</xm:f></x14:formula1>'
    "<xm:sqref>D2:D9</xm:sqref></x14:dataValidation></x14:dataValidations></ext>"
)


def rich_workbook(folder: Path, *, macros: bool = False) -> Path:
    """Write the workbook and return its path. Items holds the rows 2 to 4; the others stand in no row yet."""

    def fill(book: Any, page: Any, columns: dict[str, int]) -> None:
        money = book.add_format({"num_format": "#,##0.00", "bold": True})
        if macros:
            book.add_vba_project(io.BytesIO(MACROS), is_stream=True)
        for row, name in enumerate(("G01", "G02", "G03"), 1):
            page.write_string(row, columns["id"], name)
            page.write_string(row, columns["maker"], "Voltigern")
        page.write_number(1, 40, 12.5, money)
        page.write_formula(2, 40, "=AO2*2", money, 25)
        page.write_comment(1, columns["id"], "Seen by hand.", {"author": "M. T."})
        page.write_comment(
            3, columns["id"], "[Threaded comment]\n\nComment:\n    Which one?", {"author": f"tc={_FIRST}"}
        )
        page.insert_textbox(6, 2, "A note in a text box")
        picture = io.BytesIO()
        Image.new("RGB", (8, 8), "red").save(picture, "PNG")
        page.embed_image(5, 41, "dot.png", {"image_data": picture})
        page.add_sparkline(1, 42, {"range": "Items!AO2:AO3"})
        page.data_validation(1, 3, 5, 3, {"validate": "list", "source": ["a", "b"]})
        page.conditional_format(1, 40, 5, 40, {"type": "data_bar"})
        page.merge_range("C12:E13", "all of these")
        page.set_column(43, 43, 12, money)
        page.autofilter(0, 0, 4, 3)

    path = raw_job(folder, "items", fill, "rich.xlsm" if macros else "rich.xlsx")
    _with_conversation(path)
    return path


def parts_of(path: Path) -> dict[str, bytes]:
    """Return the parts of a package by name, in their order."""
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


def write_parts(path: Path, parts: dict[str, bytes]) -> Path:
    """Write a package of these parts."""
    with path.open("wb") as stream:
        write_package(stream, parts.items())
    return path


def _with_conversation(path: Path) -> None:
    """Turn the comment of row 4 into a conversation, and add the list rule of newer programs."""
    parts = parts_of(path)
    sheet = "xl/worksheets/sheet3.xml"
    before = b"<extLst>"
    assert before in parts[sheet]
    parts[sheet] = parts[sheet].replace(before, before + LIST_RULE.encode(), 1)
    parts["xl/threadedComments/threadedComment1.xml"] = (
        f'<ThreadedComments xmlns="{THREADS}"><threadedComment ref="A4" dT="2025-01-02T03:04:05.00" '
        f'personId="{_PERSON}" id="{_FIRST}"><text>Which one?</text></threadedComment></ThreadedComments>'
    ).encode()
    parts["xl/persons/person.xml"] = (
        f'<personList xmlns="{THREADS}"><person displayName="M. T." id="{_PERSON}" userId="1" providerId="None"/>'
        "</personList>"
    ).encode()
    for name, kind, target in (
        ("xl/worksheets/_rels/sheet3.xml.rels", "threadedComment", "../threadedComments/threadedComment1.xml"),
        ("xl/_rels/workbook.xml.rels", "person", "persons/person.xml"),
    ):
        link = f'<Relationship Id="rId90" Type="{_LINKS}/{kind}" Target="{target}"/></Relationships>'
        parts[name] = parts[name].replace(b"</Relationships>", link.encode())
    office = "application/vnd.ms-excel"
    parts["[Content_Types].xml"] = parts["[Content_Types].xml"].replace(
        b"</Types>",
        f'<Override PartName="/xl/threadedComments/threadedComment1.xml" ContentType="{office}.threadedcomments+xml"/>'
        f'<Override PartName="/xl/persons/person.xml" ContentType="{office}.person+xml"/></Types>'.encode(),
    )
    write_parts(path, parts)
