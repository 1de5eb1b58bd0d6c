"""Which column is which: headings matched by their words, now and formerly."""

from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.records.declare import Column, Sheet
from appraise.workbook.cells import Cell, Row, column_letters
from appraise.workbook.layout import MARK
from appraise.workbook.reading.clean import clean_word
from appraise.workbook.reading.values import as_text
from appraise.workbook.renewing.renewal import shown_headings

#: How far down the headings of a table may begin.
LOOKED_AT = 30


@frozen
class Matched:
    """The columns found.

    row       number of the heading row, 0 where there is none
    columns   declared column by its number in the sheet
    extra     heading by number, of columns that are not ours
    mark      number of the column Mark, 0 where there is none
    missing   keys of columns that should stand there and do not: they are unreadable, not blank
    """

    row: int
    columns: Mapping[int, Column]
    extra: Mapping[int, str]
    mark: int
    missing: frozenset[str]
    findings: tuple[Finding, ...]


def folded(heading: str) -> str:
    """Return a heading as it is compared: without the sign for "always needed", case and line breaks."""
    return clean_word(heading).removesuffix("*").rstrip().casefold()


def names_of(sheet: Sheet, former: Mapping[str, str]) -> dict[str, Column]:
    """Return every column of `sheet` by the folded headings it may stand under.

    `former` maps headings of an older format to keys.
    """
    names: dict[str, Column] = {folded(heading): sheet.column(key) for heading, key in former.items()}
    for column in sheet.columns:
        for heading in (*column.former, column.heading):
            names[folded(heading)] = column
    return names


def find_heading_row(rows: Iterable[Row], names: Mapping[str, Column]) -> Row | None:
    """Return the row that holds the most headings (at least two, or the only one there is), None if none does."""
    best, most = None, 0
    for row in rows:
        count = sum(folded(as_text(cell)) in names for cell in row.cells)
        if count > most:
            best, most = row, count
    return best if most >= min(2, len({column.key for column in names.values()})) else None


def match(sheet: Sheet, row: Row, names: Mapping[str, Column], use: str) -> Matched:
    """Return which column each heading of `row` stands for, with a finding for each that is doubtful."""
    columns: dict[int, Column] = {}
    extra: dict[int, str] = {}
    mark = 0
    findings = []
    seen: dict[str, Cell] = {}
    for cell in row.cells:
        heading = clean_word(as_text(cell))
        column = names.get(folded(heading))
        if column is None:
            if folded(heading) == folded(MARK):
                mark = cell.column
            elif heading:
                extra[cell.column] = heading
        elif column.key in seen:
            first = _column(seen[column.key].column)
            second = _column(cell.column)
            place = Place(sheet.name, row.number, column.key)
            findings.append(finding("FIL-05", place, found=heading, sheet=sheet.name, first=first, second=second))
        else:
            seen[column.key] = cell
            columns[cell.column] = column
    missing = [column for column in sheet.columns if column.key not in seen and (not column.uses or use in column.uses)]
    place = Place(sheet.name, row.number)
    renamed, more = missing_columns(place, missing, extra, _column)
    kept = [
        finding("FIL-07", place, found=heading, sheet=sheet.name, where=_column(number))
        for number, heading in extra.items()
        if number not in renamed.values() and heading not in shown_headings(sheet.name)
    ]
    unreadable = frozenset(column.key for column in missing if column.required == "always" or column.key in renamed)
    return Matched(row.number, columns, extra, mark, unreadable, (*findings, *more, *kept))


def _column(number: int) -> str:
    return f"column {column_letters(number)}"


def missing_columns(
    place: Place, missing: Iterable[Column], extra: Mapping[int, str], where: Callable[[int], str]
) -> tuple[dict[str, int], list[Finding]]:
    """Return the numbers of the headings that missing columns were probably renamed to, by key, and the findings.

    `where` puts such a number (of a column, or of a line of a form) into words.
    """
    free = {folded(heading): number for number, heading in extra.items()}
    renamed: dict[str, int] = {}
    findings = []
    for column in missing:
        near = get_close_matches(folded(column.heading), free, 1, 0.7)
        if near:
            number = free.pop(near[0])
            renamed[column.key] = number
            findings.append(
                finding(
                    "FIL-04",
                    place,
                    found=extra[number],
                    sheet=place.sheet,
                    heading=column.heading,
                    where=where(number),
                )
            )
        elif column.required == "always":
            findings.append(finding("FIL-03", place, sheet=place.sheet, heading=column.heading))
    return renamed, findings
