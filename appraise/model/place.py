"""Where a value was typed. Findings and figures point here, never to a place worked out later."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """One cell: sheet, row number as the spreadsheet counts it (from 1; 0 = the sheet as a whole), column key.

    `column` is the permanent key of the column, not its letter: `F12` is made when the place is printed,
    from the layout of the file that was read. An empty `column` means the row as a whole.
    """

    sheet: str
    row: int = 0
    column: str = ""
