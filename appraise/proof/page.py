"""One sheet of the proof while it is written, from top to bottom, and what its cells look like."""

from collections.abc import Iterable
from typing import Any

from appraise.model.figure import Figure
from appraise.model.kinds import TYPED, Kind
from appraise.proof.line import compared_to, constant, unit
from appraise.proof.rows import RowSheet, blank_cell, formula_cell, number_cell, style_of, text_cell

#: Columns: id, what it is, live formula, our figure, difference, unit, cell it comes from.
HEADINGS = ("Figure", "What it is", "Live", "Ours", "Difference", "Unit", "Comes from")
_WIDTHS = (44, 60, 16, 16, 11, 10, 40)
_NUMBERS, _UNIT = (2, 3, 4), 5
#: Letters of the columns that formulas name.
LIVE, OURS, DIFFERENCE = "C", "D", "E"

#: Signs of the second column that fit on a line of it, and the height of a line [points].
_SIGNS_IN_A_LINE = 64
_LINE_HEIGHT = 15

_INK = "#1F2933"
_TYPED = "#EEF5EC"
_DARK = {"bg_color": "#1F3A5F", "font_color": "#FFFFFF", "bold": True}
_LIGHT = {"bg_color": "#DCE3EA", "font_color": _INK, "bold": True}


class Looks:
    """The formats of a workbook; of those used in rows of finished XML the numbers.

    Typed figures stand on a tinted ground: they may be changed to see what moves.
    """

    def __init__(self, book: Any) -> None:
        self._book = book
        self._numbers: dict[tuple[int | None, bool, bool], int] = {}
        self.title = book.add_format({"font_color": _INK, "bold": True, "font_size": 16})
        self.heading = book.add_format({**_DARK, "valign": "vcenter"})
        self.block = style_of(book.add_format(_LIGHT))
        self.heading_right = book.add_format({**_DARK, "valign": "vcenter", "align": "right"})
        self.heading_unit = book.add_format({**_DARK, "valign": "vcenter", "indent": 1})
        self.text = book.add_format({"font_color": _INK, "valign": "top"})
        self.text_style = style_of(self.text)
        self.unit = style_of(book.add_format({"font_color": _INK, "valign": "top", "indent": 1}))
        self.wrapped = book.add_format({"font_color": _INK, "valign": "top", "text_wrap": True})
        self.wrapped_style = style_of(self.wrapped)
        self.typed_text = style_of(book.add_format({"font_color": _INK, "bg_color": _TYPED, "align": "right"}))
        self.count = book.add_format({"font_color": _INK, "num_format": "#,##0", "valign": "top"})
        self.strong = book.add_format({"font_color": _INK, "bold": True, "num_format": "#,##0", "top": 1})
        self.alarm = book.add_format({"bg_color": "#8B1E1E", "font_color": "#FFFFFF", "bold": True})
        self.link = book.add_format({"font_color": "#1F3A5F", "underline": 1, "valign": "top"})

    def number(self, kind: Kind, typed: bool = False) -> int:
        """Return the style of a figure: with the decimals of its kind, or as many as it has."""
        key = (kind.places, bool(kind.currency), typed)
        if key not in self._numbers:
            unrounded = "#,##0.00##" if kind.currency else "General"
            pattern = unrounded if kind.places is None else f"{0:,.{kind.places}f}".replace("0", "#,##0", 1)
            ground = {"bg_color": _TYPED} if typed else {}
            look = self._book.add_format({"font_color": _INK, "num_format": pattern, "valign": "top", **ground})
            self._numbers[key] = style_of(look)
        return self._numbers[key]


class Page:
    """A sheet with its title and headings; `row` is the last row written, as a spreadsheet counts.

    compared  number of lines with a live formula
    """

    __slots__ = ("_looks", "_sheet", "compared", "name", "owner", "row", "title")

    def __init__(self, book: Any, name: str, title: str, looks: Looks) -> None:
        self.name, self.title = name, title
        self.row = 3
        self.compared = 0
        self.owner: object = None
        self._looks = looks
        self._sheet = book.add_worksheet(name, worksheet_class=RowSheet)
        for column, width in enumerate(_WIDTHS):
            self._sheet.set_column(column, column, width)
        self._sheet.write_string(0, 0, title, looks.title)
        for column, heading in enumerate(HEADINGS):
            look = looks.heading_right if column in _NUMBERS else looks.heading
            self._sheet.write_string(2, column, heading, looks.heading_unit if column == _UNIT else look)
        self._sheet.freeze_panes(3, 1)
        self._sheet.set_landscape()
        self._sheet.repeat_rows(2)
        self._sheet.fit_to_pages(1, 0)

    def head(self, owner: object, name: str, title: str) -> None:
        """Begin the block of `owner`, if it has none on this sheet yet."""
        if self.owner is owner:
            return
        self.owner = owner
        self.row += 1
        row, style = self.row, self._looks.block
        rest = (blank_cell(f"{letter}{row}", style) for letter in "CDEFG")
        self._sheet.put_row(row, (text_cell(f"A{row}", name, style), text_cell(f"B{row}", title, style), *rest))

    def constant(self, figure: Figure, sentence: str, source: str, *, months: bool) -> None:
        """Write a line of a figure that no formula makes."""
        value, place = constant(figure), f"{LIVE}{self.row + 1}"
        if isinstance(value, str):
            cell = text_cell(place, value, self._looks.typed_text)
        else:
            cell = number_cell(place, value, self._looks.number(figure.kind, True))
        self._line(figure.id, sentence, (cell,), unit(figure, months=months), source)

    def live(self, figure: Figure, sentence: str, formula: str, *, months: bool) -> None:
        """Write a line with a live formula, our figure beside it, and their difference."""
        row, value, style = self.row + 1, float(figure.number), self._looks.number(figure.kind)
        check = f"ROUND({LIVE}{row}-{OURS}{row},{compared_to(figure.kind)})"
        cells = (
            formula_cell(f"{LIVE}{row}", formula, value, style),
            number_cell(f"{OURS}{row}", value, style),
            formula_cell(f"{DIFFERENCE}{row}", check, 0, self._looks.number(TYPED)),
        )
        self.compared += 1
        self._line(figure.id, sentence, cells, unit(figure, months=months), "")

    def carried(self, figure_id: str, cell: str, value: float | str) -> None:
        """Write a line that shows a figure of another sheet as it stands there."""
        shown = formula_cell(f"{LIVE}{self.row + 1}", cell, value, self._looks.number(TYPED))
        self._line(figure_id, "as it stands", (shown,), "", "")

    def close(self) -> None:
        """Let a difference that is not zero stand out."""
        area = f"{DIFFERENCE}4:{DIFFERENCE}{max(self.row, 4)}"
        rule = {"type": "cell", "criteria": "!=", "value": 0, "format": self._looks.alarm}
        self._sheet.conditional_format(area, rule)

    def _line(self, figure_id: str, sentence: str, numbers: Iterable[str], unit_text: str, source: str) -> None:
        self.row += 1
        row, looks = self.row, self._looks
        lines = -(-len(sentence) // _SIGNS_IN_A_LINE)
        cells = [
            text_cell(f"A{row}", figure_id, looks.text_style),
            text_cell(f"B{row}", sentence, looks.wrapped_style if lines > 1 else looks.text_style),
            *numbers,
        ]
        if unit_text:
            cells.append(text_cell(f"F{row}", unit_text, looks.unit))
        if source:
            cells.append(text_cell(f"G{row}", source, looks.text_style))
        self._sheet.put_row(row, cells, _LINE_HEIGHT * lines if lines > 1 else None)
