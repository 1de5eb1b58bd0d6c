"""Pieces of which every view is made: lines, tables and passages. See `view`."""

from appraise.model.frozen import frozen


@frozen
class Line:
    """A label and what stands beside it."""

    label: str
    text: str


@frozen
class Row:
    """One row of a table: its fixed cells, then as many figures as the table has figure headings.

    strong  set off: totals, results
    key     anchor of the section the row is about, "" if none
    """

    cells: tuple[str, ...]
    figures: tuple[str, ...] = ()
    strong: bool = False
    key: str = ""


@frozen
class Table:
    """A table with its caption, heading row, rows and a note below it.

    heads         headings of the fixed cells
    figure_heads  headings of the columns whose number depends on the job: one for each type of value
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    note: str = ""
    figure_heads: tuple[str, ...] = ()


@frozen
class Passage:
    """A section that is a heading, some paragraphs and at most one table."""

    heading: str
    paragraphs: tuple[str, ...]
    table: Table | None = None
