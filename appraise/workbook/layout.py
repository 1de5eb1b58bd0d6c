"""Where things stand in a workbook: names that reader and writer share, and the layout of a file that was read."""

from collections.abc import Mapping
from dataclasses import field

from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.workbook.cells import column_letters

START = "Start"
LISTS = "Lists"
FAMILY_LISTS = "Family lists"
PUBLISHED_FACTS = "Published facts"
#: The inspection form, to be printed.
ON_PAPER = "On paper"
#: What became of last year's cells, in a workbook made from last year's.
CARRIED_OVER = "Carried over"
#: Our own sheets that hold no records.
OWN_SHEETS = (START, LISTS, FAMILY_LISTS, PUBLISHED_FACTS, ON_PAPER, CARRIED_OVER)

#: Headings over last year's words and over the age of a sale; they are to be read by people and are made anew.
AGE = "Age at the effective date, months"
LAST_YEAR = " last year"

FORMAT_LABEL = "Workbook format"
#: First column of every table: what a row is when it is not to be read.
MARK = "Mark"
EXAMPLE = "example, replace"
LEFT_OUT = "leave out"
MARKS = (EXAMPLE, LEFT_OUT)
#: Ends the heading of a column that always has to be filled; the space keeps it on one line with the last word.
NEEDED_SIGN = "\u00a0*"

#: Added to the row numbers of the library, so that a place says which of the two files it is in.
LIBRARY_ROWS = 100_000_000


@frozen
class SheetLayout:
    """Where the columns of one sheet stand.

    name         as on the tab
    heading_row  0 where none was found
    columns      number of the column, counted from 1, by key (on a form: of the values, the same for every key)
    lines        row by key, on a form; empty on a table
    """

    name: str
    heading_row: int = 0
    columns: Mapping[str, int] = field(default_factory=dict)
    lines: Mapping[str, int] = field(default_factory=dict)


@frozen
class Layout:
    """Where everything stands in the file that was read, and in its library."""

    file: str
    sheets: Mapping[str, SheetLayout]
    library: "Layout | None" = None

    def address(self, place: Place) -> tuple[str, str]:
        """Return the tab and the cell (`F12`; a row as a whole: its first cell) of a place in the job workbook."""
        sheet = self.sheets.get(place.sheet, SheetLayout(place.sheet))
        row = sheet.lines.get(place.column, place.row) or sheet.heading_row or 1
        return sheet.name, f"{column_letters(sheet.columns.get(place.column, 1))}{row}"

    def cell(self, place: Place) -> str:
        """Return a place as it is printed: `Sales!F12`, `Sales, row 12`, `Sales`, or the file's name."""
        if place.row >= LIBRARY_ROWS and self.library is not None:
            inside = Place(place.sheet, place.row - LIBRARY_ROWS, place.column)
            return f"{self.library.file}, {self.library.cell(inside)}"
        if not place.sheet:
            return self.file
        sheet = self.sheets.get(place.sheet, SheetLayout(place.sheet))
        if place.column in sheet.columns and (place.row or place.column in sheet.lines):
            return "!".join(self.address(place))
        if place.row:
            return f"{sheet.name}, row {place.row}"
        return sheet.name
