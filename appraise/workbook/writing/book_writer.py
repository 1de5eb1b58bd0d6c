"""Puts a workbook together: sheets, tables, forms, lists, hints and print setup, from the declarations."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from datetime import date, datetime
from decimal import Decimal
from typing import Any, BinaryIO

import xlsxwriter

from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.records.declare import Column, ColumnKind, Sheet
from appraise.records.job import SHEETS
from appraise.workbook.cells import Value
from appraise.workbook.layout import EXAMPLE, FAMILY_LISTS, LISTS, MARK, ON_PAPER, PUBLISHED_FACTS, START
from appraise.workbook.reading.references import id_key
from appraise.workbook.rows import OWN
from appraise.workbook.writing import looks
from appraise.workbook.writing.aside import set_aside
from appraise.workbook.writing.cell_rules import HEADING_RULE, cell_rule, mark_rule
from appraise.workbook.writing.facts_sheet import write_facts
from appraise.workbook.writing.lists import write_lists
from appraise.workbook.writing.paper_form import write_paper_form
from appraise.workbook.writing.start_sheet import write_family_lists, write_start

#: One row: column key to value; under `OWN` values of the user's own columns by heading.
Row = Mapping[str, Any]
#: Field of the job to its rows; a form may be one row.
Rows = Mapping[str, Sequence[Row] | Row]

#: Blank rows inside a table for the next entries; below it the lists and hints go on all the same.
_SPARE_ROWS = 15
_LAST_ROW = 1_048_575
#: Rows of a sheet another sheet's drop-down looks at.
_LISTED_ROWS = 5000
#: Days before this are written as text: a spreadsheet knows none before 1900, and takes bare years for such days.
_FIRST_DAY_CELL = date(1910, 1, 1)
_LONGEST_TEXT = 32_767
_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
_HEADING_ROW = 1
_FORM_WIDTHS = (30, 46, 70)
_FORM_GROUPS = {
    "assignment": {
        "use": "The report",
        "client": "Client, users and use",
        "engaged_on": "Dates",
        "currency": "Currency, language and place",
        "report_option": "Terms of the engagement",
        "combine_deductions": "How figures are worked out",
        "issue_number": "Issue and files",
    }
}


@frozen
class Content:
    """What goes into a workbook.

    use        the use it is for; decides which sheets and columns are written
    rows       typed values by field of the job
    examples   rows marked "example, replace", written above them
    sheets     fields of the job whose sheets are written, in order
    extra      sheets of the user's own: name and cells (row, column, value)
    library    whether it is the appraiser's library rather than a job
    paper      whether the inspection form on paper is added for the items
    """

    use: str
    rows: Rows = field(default_factory=dict)
    examples: Rows = field(default_factory=dict)
    sheets: tuple[str, ...] = ()
    extra: tuple[tuple[str, tuple[tuple[int, int, Value], ...]], ...] = ()
    library: bool = False
    paper: bool = False


def columns_of(sheet: Sheet, use: str, rows: Iterable[Row]) -> tuple[Column, ...]:
    """Return the columns that are written: those the use needs, and those that hold something.

    What is needed for this very use ("use gift or donation") is always needed in its workbook, and shown so.
    """
    filled = {key for row in rows for key, value in row.items() if value is not None}
    shown = (one for one in sheet.columns if not one.uses or not use or use in one.uses or one.key in filled)
    return tuple(replace(one, required="always") if use and use in _needed_for(one) else one for one in shown)


def _needed_for(column: Column) -> tuple[str, ...]:
    uses = column.required.removeprefix("use ")
    return tuple(uses.split(" or ")) if uses != column.required else ()


def form_row(rows: Sequence[Row] | Row) -> Row:
    """Return the one row of a form, empty where nothing was given."""
    if isinstance(rows, Mapping):
        return rows
    return rows[0] if rows else {}


def table_rows(rows: Sequence[Row] | Row | None) -> list[Row]:
    """Return the rows of a table as a list."""
    if rows is None:
        return []
    return [rows] if isinstance(rows, Mapping) else list(rows)


class BookWriter:
    """Writes one workbook to a stream."""

    def __init__(self, stream: BinaryIO, content: Content) -> None:
        self.content = content
        self.book = xlsxwriter.Workbook(
            stream,
            {
                "in_memory": True,
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
                "nan_inf_to_errors": False,
            },
        )
        self.formats: dict[tuple[tuple[str, Any], ...], Any] = {}
        self.lists: dict[str, str] = {}
        #: Where the ids of each written sheet stand, as a reference for drop-downs.
        self.id_ranges: dict[str, str] = {}
        #: Width of the columns with long texts on the table being written.
        self.long_width = looks.LONG

    def look(self, *parts: Mapping[str, Any]) -> Any:
        """Return the format made of `parts`, later ones winning."""
        whole: dict[str, Any] = {}
        for part in parts:
            whole.update(part)
        key = tuple(sorted(whole.items()))
        if key not in self.formats:
            self.formats[key] = self.book.add_format(whole)
        return self.formats[key]

    def write(self) -> None:
        content = self.content
        title = "Library of the appraiser" if content.library else "Workbook for an appraisal report"
        self.book.set_properties({"title": title, "subject": content.use, "created": _FIXED_TIME})
        self.book.set_custom_property("Language", "en", "text")
        start = self.book.add_worksheet(START)
        pages = {name: self.book.add_worksheet(SHEETS[name].name) for name in content.sheets}
        for name in content.sheets:
            self.note_ids(name)
        lists = self.book.add_worksheet(LISTS)
        used = [column for name in content.sheets for column in self.columns(name)]
        self.lists = write_lists(lists, self.look, used, self.id_ranges)
        aside = {name for name in set_aside("" if content.library else content.use) if not content.rows.get(name)}
        for name, page in pages.items():
            sheet = SHEETS[name]
            if sheet.form:
                self.write_form(page, name, sheet)
            else:
                self.write_table(page, name, sheet)
            if name in aside:
                page.hide()
        if content.paper:
            write_paper_form(self.book.add_worksheet(ON_PAPER), self.look, table_rows(content.rows.get("items")))
        if not content.library:
            write_family_lists(self.book.add_worksheet(FAMILY_LISTS), self.look)
            write_facts(self.book.add_worksheet(PUBLISHED_FACTS), self.look)
        self.write_extra()
        shown = [SHEETS[name] for name in content.sheets if name not in aside]
        hidden = [SHEETS[name] for name in content.sheets if name in aside]
        write_start(start, self.look, content.use, shown, hidden, library=content.library)
        lists.hide()
        start.activate()
        self.book.close()

    def columns(self, name: str) -> tuple[Column, ...]:
        return columns_of(SHEETS[name], self.content.use, table_rows(self.content.rows.get(name)))

    def note_ids(self, name: str) -> None:
        sheet = SHEETS[name]
        key = id_key(sheet)
        if key is None or sheet.form:
            return
        number = 1 + [column.key for column in self.columns(name)].index(key)
        letters = xlsxwriter.utility.xl_col_to_name(number)
        quoted = sheet.name.replace("'", "''")
        first = _HEADING_ROW + 2
        self.id_ranges[sheet.name] = f"='{quoted}'!${letters}${first}:${letters}${first + _LISTED_ROWS}"

    def write_table(self, page: Any, name: str, sheet: Sheet) -> None:
        columns = self.columns(name)
        rows = table_rows(self.content.rows.get(name))
        shown = {column.key for column in columns}
        examples = [
            {key: value for key, value in row.items() if key in shown}
            for row in table_rows(self.content.examples.get(name))
        ]
        own = list(dict.fromkeys(heading for row in rows for heading in row.get(OWN, {})))
        self.table_frame(page, name, sheet, columns, own, len(rows) + len(examples))
        self.long_width = looks.long_width(columns)
        longest: dict[str, int] = {}
        row_number = _HEADING_ROW + 1
        for example in examples:
            page.write_string(row_number, 0, EXAMPLE, self.look(looks.EXAMPLE, {"valign": "top"}))
            self.write_row(page, row_number, columns, example, longest, looks.EXAMPLE)
            row_number += 1
        for row in rows:
            self.write_row(page, row_number, columns, row, longest, {})
            for number, heading in enumerate(own, len(columns) + 1):
                self.write_value(page, row_number, number, row.get(OWN, {}).get(heading), {})
            row_number += 1
        for number, column in enumerate(columns, 1):
            fitting = looks.width(column, longest.get(column.key, 0), self.long_width)
            page.set_column(number, number, fitting, self.look(looks.PLAIN, looks.cell_format(column)))
        page.set_column(0, 0, 15 if examples else 9, self.look(looks.PLAIN, {"valign": "top"}))
        if own:
            page.set_column(len(columns) + 1, len(columns) + len(own), 20)

    def table_frame(
        self, page: Any, name: str, sheet: Sheet, columns: Sequence[Column], own: Sequence[str], count: int
    ) -> None:
        """Write purpose, headings, lists, hints and print setup of a table sheet."""
        page.write_string(0, 0, f"{sheet.name}: {sheet.purpose}", self.look(looks.TITLE, {"font_size": 12}))
        mark_look = self.look(looks.OPTIONAL, {"text_wrap": True, "valign": "vcenter"})
        headings = [
            {"header": MARK, "header_format": mark_look},
            *(
                {"header": looks.heading_text(one), "header_format": self.look(looks.heading_format(one))}
                for one in columns
            ),
            *({"header": heading, "header_format": mark_look} for heading in own),
        ]
        last = _HEADING_ROW + count + _SPARE_ROWS
        page.add_table(
            _HEADING_ROW,
            0,
            last,
            len(headings) - 1,
            {"name": name, "columns": headings, "style": "Table Style Light 1", "banded_rows": False},
        )
        page.set_row(_HEADING_ROW, 32)
        page.data_validation(_HEADING_ROW, 0, _HEADING_ROW, len(headings) - 1, HEADING_RULE)
        page.data_validation(_HEADING_ROW + 1, 0, _LAST_ROW, 0, mark_rule(self.lists))
        for number, column in enumerate(columns, 1):
            page.data_validation(
                _HEADING_ROW + 1, number, _LAST_ROW, number, cell_rule(sheet.name, column, self.lists, self.id_ranges)
            )
        held = 1 + next((n for n, c in enumerate(columns) if c.kind in (ColumnKind.IDENTITY, ColumnKind.REFERENCE)), 0)
        page.freeze_panes(_HEADING_ROW + 1, held + 1)
        self.print_setup(page, sheet.name)
        page.repeat_rows(0, _HEADING_ROW)
        page.repeat_columns(0, held)
        # About 185 signs go onto a landscape page in a type that can still be read.
        page.fit_to_pages(1 + int(sum(looks.width(one, 0, self.long_width) for one in columns) / 185), 0)

    def print_setup(self, page: Any, name: str) -> None:
        page.set_landscape()
        page.set_paper(9)
        page.set_margins(left=0.4, right=0.4, top=0.6, bottom=0.6)
        page.set_footer(f"&L{name.replace('&', '&&')}&RPage &P of &N")
        page.hide_gridlines(0)

    def write_row(
        self,
        page: Any,
        row_number: int,
        columns: Sequence[Column],
        row: Row,
        longest: dict[str, int],
        look: Mapping[str, Any],
    ) -> None:
        unknown = set(row) - {column.key for column in columns} - {OWN}
        if unknown:
            raise TypeError(f"no column {', '.join(sorted(unknown))}")
        height = looks.row_height(
            *(
                (str(row[one.key]), looks.width(one, 0, self.long_width))
                for one in columns
                if one.kind is ColumnKind.LONG_TEXT and isinstance(row.get(one.key), str)
            )
        )
        if height > looks.LINE_HEIGHT:
            page.set_row(row_number, height)
        for number, column in enumerate(columns, 1):
            value = row.get(column.key)
            if value is None or value is Missing.BLANK:
                if look:
                    page.write_blank(row_number, number, None, self.look(looks.cell_format(column), look))
                continue
            style = {**looks.cell_format(column), **look}
            if column.kind is ColumnKind.PERCENT and isinstance(value, Decimal) and 0 < abs(value) < 1:
                # With its sign a percent below one has one reading.
                value, style = value / 100, {**style, "num_format": "0.########%"}
            shown = self.write_value(page, row_number, number, value, style)
            longest[column.key] = max(longest.get(column.key, 0), shown)

    def write_value(self, page: Any, row: int, column: int, value: Any, look: Mapping[str, Any]) -> int:
        """Write one value as what it is and return how many signs it shows."""
        style = self.look(look) if look else None
        if value is None or value is Missing.BLANK:
            return 0
        if isinstance(value, bool):
            text = "yes" if value else "no"
        elif isinstance(value, int | Decimal) and look.get("num_format") != "@":
            page.write_number(row, column, float(value), style)
            return len(f"{value:,}") + 2
        elif isinstance(value, date) and value >= _FIRST_DAY_CELL:
            page.write_datetime(row, column, value, self.look({**look, "num_format": "yyyy-mm-dd"}))
            return 10
        elif isinstance(value, Missing):
            text = value.value
        else:
            text = value.isoformat() if isinstance(value, date) else str(value)
        if len(text) > _LONGEST_TEXT:
            raise ValueError(f"a cell holds at most {_LONGEST_TEXT} characters")
        if text:
            page.write_string(row, column, text, style)
        return max((len(line) for line in text.split("\n")), default=0)

    def write_form(self, page: Any, name: str, sheet: Sheet) -> None:
        """Write a form sheet: label, value, hint, in groups."""
        values = form_row(self.content.rows.get(name, {}))
        columns = self.columns(name)
        unknown = set(values) - {column.key for column in columns} - {OWN}
        if unknown:
            raise TypeError(f"no column {', '.join(sorted(unknown))}")
        groups = _FORM_GROUPS.get(name, {})
        page.write_string(0, 0, f"{sheet.name}: {sheet.purpose}", self.look(looks.TITLE, {"font_size": 12}))
        row = 1
        for column in columns:
            if column.key in groups:
                row += 1
                page.write_string(row, 0, groups[column.key], self.look(looks.GROUP))
                for number in (1, 2):
                    page.write_blank(row, number, None, self.look(looks.GROUP))
                row += 1
            self.write_form_line(page, sheet.name, row, column, values.get(column.key))
            row += 1
        for heading, value in values.get(OWN, {}).items():
            page.write_string(row, 0, heading, self.look(looks.PLAIN))
            self.write_value(page, row, 1, value, {})
            row += 1
        for number, shown in enumerate(_FORM_WIDTHS):
            page.set_column(number, number, shown)
        page.freeze_panes(1, 1)
        self.print_setup(page, sheet.name)
        page.fit_to_pages(1, 0)
        page.repeat_rows(0)

    def write_form_line(self, page: Any, sheet: str, row: int, column: Column, value: Any) -> None:
        label = looks.NEEDED if column.required == "always" else looks.OPTIONAL
        page.write_string(row, 0, looks.heading_text(column), self.look(label, {"valign": "top", "text_wrap": True}))
        look = {**looks.TO_FILL, **looks.cell_format(column), "text_wrap": True, "align": "left"}
        page.write_blank(row, 1, None, self.look(look))
        self.write_value(page, row, 1, value, look)
        words = [
            looks.need_in_words(column),
            column.hint,
            f"One of: {'; '.join(column.choices)}." if column.choices else "",
            f"Example: {column.example}" if column.example else "",
        ]
        hint = " ".join(word for word in words if word)
        page.write_string(row, 2, hint, self.look(looks.NOTE))
        shown = "" if value is None else str(value)
        page.set_row(row, 3 + looks.row_height((shown, _FORM_WIDTHS[1]), (hint, _FORM_WIDTHS[2])))
        page.data_validation(row, 1, row, 1, cell_rule(sheet, column, self.lists, self.id_ranges))

    def write_extra(self) -> None:
        for name, cells in self.content.extra:
            page = self.book.add_worksheet(name)
            for row, column, value in cells:
                self.write_value(page, row - 1, column - 1, value, {})
