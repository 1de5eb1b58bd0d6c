"""Workbooks put together from XML by hand, for what no writer would write."""

from pathlib import Path

from appraise.files.atomic import write_whole
from appraise.files.zips import write_package

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_TYPES = "application/vnd.openxmlformats-officedocument.spreadsheetml"


def package(
    path: Path,
    sheet: str,
    *,
    name: str = "Sheet",
    book: str = "",
    styles: str = "",
    texts: str = "",
    before: str = "",
    main: str = MAIN,
) -> Path:
    """Write a workbook of one sheet: `sheet` stands inside `worksheet`, `before` in front of it; return its path."""
    parts = {
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPES}.sheet.main+xml"/>'
        f'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="{_TYPES}.worksheet+xml"/>'
        f'<Override PartName="/xl/styles.xml" ContentType="{_TYPES}.styles+xml"/>'
        f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_TYPES}.sharedStrings+xml"/></Types>',
        "_rels/.rels": f'<Relationships xmlns="{_LINKS}">'
        f'<Relationship Id="rId1" Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{_OFFICE}">{book}'
        f'<sheets><sheet name="{name}" sheetId="1" r:id="rId1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_LINKS}">'
        f'<Relationship Id="rId1" Type="{_OFFICE}/worksheet" Target="worksheets/sheet1.xml"/>'
        f'<Relationship Id="rId2" Type="{_OFFICE}/styles" Target="styles.xml"/>'
        f'<Relationship Id="rId3" Type="{_OFFICE}/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>',
        "xl/worksheets/sheet1.xml": f'<?xml version="1.0"?>{before}<worksheet xmlns="{main}">{sheet}</worksheet>',
        "xl/styles.xml": f'<styleSheet xmlns="{main}">{styles}</styleSheet>',
        "xl/sharedStrings.xml": f'<sst xmlns="{main}">{texts}</sst>',
    }
    encoded = [(part, content.encode()) for part, content in parts.items()]
    write_whole(path, lambda stream: write_package(stream, encoded))
    return path
