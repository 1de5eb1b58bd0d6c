"""One sheet of the proof while it is written, from top to bottom, and what its cells look like."""

from typing import Any

from appraise.model.figure import Figure
from appraise.proof.line import compared_to, constant, unit

#: Columns: id, what it is, live formula, our figure, difference, unit, cell it comes from.
HEADINGS = ("Figure", "What it is", "Live", "Ours", "Difference", "Unit", "Comes from")
_WIDTHS = (34, 60, 16, 16, 11, 10, 40)
_NUMBERS = (2, 3, 4)
#: Letters of the columns that formulas name.
LIVE, OURS, DIFFERENCE = "C", "D", "E"
#: A cell keeps 32,767 signs.
_LONGEST_TEXT = 32_000

#: Signs of the second column that fit on a line of it, and the height of a line [points].
_SIGNS_IN_A_LINE = 64
_LINE_HEIGHT = 15

_INK = "#1F2933"
_DARK = {"bg_color": "#1F3A5F", "font_color": "#FFFFFF", "bold": True}
_LIGHT = {"bg_color": "#DCE3EA", "font_color": _INK, "bold": True}


class Looks:
    """The formats of a workbook. Typed figures stand on a tinted ground: they may be changed to see what moves."""

    def __init__(self, book: Any) -> None:
        self._book = book
        self._numbers: dict[tuple[int | None, bool], Any] = {}
        self.title = book.add_format({"font_color": _INK, "bold": True, "font_size": 16})
        self.heading = book.add_format({**_DARK, "valign": "vcenter"})
        self.block = book.add_format(_LIGHT)
        self.heading_right = book.add_format({**_DARK, "valign": "vcenter", "align": "right"})
        self.text = book.add_format({"font_color": _INK, "valign": "top"})
        self.unit = book.add_format({"font_color": _INK, "valign": "top", "indent": 1})
        self.wrapped = book.add_format({"font_color": _INK, "valign": "top", "text_wrap": True})
        self.typed_text = book.add_format({"font_color": _INK, "bg_color": "#EEF5EC", "align": "right"})
        self.count = book.add_format({"font_color": _INK, "num_format": "#,##0", "valign": "top"})
        self.strong = book.add_format({"font_color": _INK, "bold": True, "num_format": "#,##0", "top": 1})
        self.alarm = book.add_format({"bg_color": "#8B1E1E", "font_color": "#FFFFFF", "bold": True})
        self.link = book.add_format({"font_color": "#1F3A5F", "underline": 1, "valign": "top"})

    def number(self, places: int | None, *, typed: bool = False) -> Any:
        """Return the format of a number with so many decimals; None: as many as it has."""
        key = (places, typed)
        if key not in self._numbers:
            pattern = "General" if places is None else "#,##0" + (f".{'0' * places}" if places else "")
            ground = {"bg_color": "#EEF5EC"} if typed else {}
            self._numbers[key] = self._book.add_format(
                {"font_color": _INK, "num_format": pattern, "valign": "top", **ground}
            )
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
        self._sheet = book.add_worksheet(name)
        for column, width in enumerate(_WIDTHS):
            self._sheet.set_column(column, column, width)
        self._sheet.write_string(0, 0, title, looks.title)
        for column, heading in enumerate(HEADINGS):
            self._sheet.write_string(2, column, heading, looks.heading_right if column in _NUMBERS else looks.heading)
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
        self._sheet.write_string(self.row - 1, 0, name[:_LONGEST_TEXT], self._looks.block)
        self._sheet.write_string(self.row - 1, 1, title[:_LONGEST_TEXT], self._looks.block)
        for column in range(2, len(HEADINGS)):
            self._sheet.write_blank(self.row - 1, column, None, self._looks.block)

    def constant(self, figure: Figure, sentence: str, source: str, *, months: bool) -> None:
        """Write a line of a figure that no formula makes."""
        self._begin(figure.id, sentence)
        value = constant(figure)
        if isinstance(value, str):
            self._sheet.write_string(self.row - 1, 2, value[:_LONGEST_TEXT], self._looks.typed_text)
        else:
            self._sheet.write_number(self.row - 1, 2, value, self._looks.number(figure.kind.places, typed=True))
        self._end(unit(figure, months=months), source)

    def live(self, figure: Figure, sentence: str, formula: str, *, months: bool) -> None:
        """Write a line with a live formula, our figure beside it, and their difference."""
        self._begin(figure.id, sentence)
        row, value, look = self.row, float(figure.number), self._looks.number(figure.kind.places)
        self._sheet.write_formula(row - 1, 2, f"={formula}", look, value)
        self._sheet.write_number(row - 1, 3, value, look)
        check = f"=ROUND({LIVE}{row}-{OURS}{row},{compared_to(figure.kind)})"
        self._sheet.write_formula(row - 1, 4, check, self._looks.number(None), 0)
        self.compared += 1
        self._end(unit(figure, months=months), "")

    def carried(self, figure_id: str, cell: str, value: float | str) -> None:
        """Write a line that shows a figure of another sheet as it stands there."""
        self._begin(figure_id, "as it stands")
        self._sheet.write_formula(self.row - 1, 2, f"={cell}", self._looks.number(None), value)

    def close(self) -> None:
        """Let a difference that is not zero stand out."""
        area = f"{DIFFERENCE}4:{DIFFERENCE}{max(self.row, 4)}"
        rule = {"type": "cell", "criteria": "!=", "value": 0, "format": self._looks.alarm}
        self._sheet.conditional_format(area, rule)

    def _begin(self, figure_id: str, sentence: str) -> None:
        self.row += 1
        lines = -(-len(sentence) // _SIGNS_IN_A_LINE)
        if lines > 1:
            self._sheet.set_row(self.row - 1, _LINE_HEIGHT * lines)
        self._sheet.write_string(self.row - 1, 0, figure_id[:_LONGEST_TEXT], self._looks.text)
        self._sheet.write_string(self.row - 1, 1, sentence, self._looks.wrapped if lines > 1 else self._looks.text)

    def _end(self, unit_text: str, source: str) -> None:
        if unit_text:
            self._sheet.write_string(self.row - 1, 5, unit_text, self._looks.unit)
        if source:
            self._sheet.write_string(self.row - 1, 6, source[:_LONGEST_TEXT], self._looks.text)
