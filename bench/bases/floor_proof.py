"""The floor of a proof: a workbook with the same cells, put together from strings straight into the zip.

The cells are taken from a finished proof beforehand. No styles, no widths, every text where it stands.
"""

import sys
import time
from itertools import groupby
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

from appraise.workbook.cells import Book, column_letters
from bench.say import mark_of, say
from bench.written import written

_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def escaped(text: str) -> str:
    """Return a text as it stands in an element."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def cell(reference: str, value: object, formula: str) -> str:
    """Return one cell."""
    calculated = f"<f>{escaped(formula)}</f>" if formula else ""
    if isinstance(value, str):
        if formula:
            return f'<c r="{reference}" t="str">{calculated}<v>{escaped(value)}</v></c>'
        return f'<c r="{reference}" t="inlineStr"><is><t xml:space="preserve">{escaped(value)}</t></is></c>'
    if isinstance(value, bool):
        return f'<c r="{reference}" t="b">{calculated}<v>{int(value)}</v></c>'
    return f'<c r="{reference}">{calculated}<v>{value}</v></c>'


def write(target: Path, sheets: list[tuple[str, list[tuple[int, int, object, str]]]]) -> None:
    """Write the workbook."""
    letters = [column_letters(number) for number in range(1, 200)]
    with ZipFile(target, "w", ZIP_DEFLATED, compresslevel=6) as package:
        for number, (_, cells) in enumerate(sheets, 1):
            rows = []
            for row, held in groupby(cells, key=lambda one: one[0]):
                line = "".join([cell(f"{letters[at - 1]}{row}", value, formula) for _, at, value, formula in held])
                rows.append(f'<row r="{row}">{line}</row>')
            content = f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetData>{"".join(rows)}</sheetData></worksheet>'
            package.writestr(f"xl/worksheets/sheet{number}.xml", content)
        names = "".join(
            f'<sheet name="{escaped(name)}" sheetId="{number}" r:id="r{number}"/>'
            for number, (name, _) in enumerate(sheets, 1)
        )
        links = "".join(
            f'<Relationship Id="r{number}" Type="{_OFFICE}/worksheet" Target="worksheets/sheet{number}.xml"/>'
            for number in range(1, len(sheets) + 1)
        )
        book = f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>{names}</sheets></workbook>'
        package.writestr("xl/workbook.xml", book)
        package.writestr(
            "xl/_rels/workbook.xml.rels", f'{_HEAD}<Relationships xmlns="{_LINKS}">{links}</Relationships>'
        )
        root = f'<Relationship Id="r1" Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/>'
        package.writestr("_rels/.rels", f'{_HEAD}<Relationships xmlns="{_LINKS}">{root}</Relationships>')
        package.writestr("[Content_Types].xml", _HEAD + "<Types/>")


def main(proof: str, target: str) -> None:
    """Say the number and the mark of the cells, and what writing them took."""
    with Book(Path(proof)) as book:
        sheets = [
            (
                part.name,
                [(row.number, one.column, one.value, one.formula) for row in book.rows(part) for one in row.cells],
            )
            for part in book.sheets
        ]
    begun = time.process_time()
    write(Path(target), sheets)
    took = time.process_time() - begun
    cells = [str(one) for one in written(Path(target))]
    say([len(cells), mark_of(cells)], took)


if __name__ == "__main__":
    main(*sys.argv[1:])
