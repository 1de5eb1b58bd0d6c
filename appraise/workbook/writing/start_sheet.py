"""The sheet Start, which says how to fill the workbook, and the sheet with the lists of every family."""

from collections.abc import Callable, Sequence
from typing import Any

from appraise.records.declare import Sheet
from appraise.records.job import FORMAT
from appraise.records.vocabulary import Use
from appraise.rules.families import families
from appraise.rules.uses import use_rules
from appraise.workbook.layout import EXAMPLE, FORMAT_LABEL, LEFT_OUT, MARK
from appraise.workbook.writing import looks

Look = Callable[..., Any]
#: Of the column with the sentences [signs].
_WIDTH = 96

_JOB_STEPS = (
    ("Fill in Assignment", "Line by line. Every label with * is always needed. The hint beside it says what is meant."),
    (
        "Say the type of value",
        "One line on Value types for each type of value; on People whoever appraises and signs.{fitting}",
    ),
    ("List the objects", "One line on Items for each object. Its Item id is given once and joins all other sheets."),
    (
        "Go over each object",
        "Inspection (what was looked at), Parts (what is original), Photos. The sheet On paper is to be printed and "
        "taken along; it is there if the workbook was begun with --family. The lines of further families stand on "
        "Family lists, to copy.",
    ),
    ("Date it", "On Evidence, one line for each thing that speaks for a date."),
    (
        "Value it",
        "On Sales, one line for each price; on Comparisons, which sale serves which object, with each adjustment and "
        "its reason; on Opinions, why the value stands where it does.",
    ),
    ("Say what this use asks", "{sheets}"),
    (
        "Fill in your tables",
        "Market notes, Scales, Premiums: here, or in your library workbook. Further tables are hidden: see below.",
    ),
    ("Save and check", "Run: appraise check NAME-OF-THIS-FILE.xlsx. It names every fault with its cell."),
    (
        "Answer what stays",
        "A stop or a warning that is right as it is: on Answers, what the check prints under 'To answer', with your "
        "reason, initials and the day.",
    ),
    ("Make the report", "Run: appraise report NAME-OF-THIS-FILE.xlsx. Open stops: only a draft, with --draft."),
)
_LIBRARY_STEPS = (
    ("Replace the examples", f"Type your own figures over them and clear their cells under {MARK}."),
    ("Name this file in a job", "Type its name beside 'Library workbook' on the job's sheet Assignment."),
    ("Keep it", "What a job says itself wins; a difference is reported."),
)
_RULES = (
    f"Every table begins with examples, marked '{EXAMPLE}'. Type over them and clear the cell under {MARK}, or delete "
    "them. A marked row is not read.",
    "Leave a cell blank if there is nothing to say. Type 'unknown' or 'not inspected' if that is the answer: a blank "
    "is never read as sound or original.",
    "Days: year-month-day (2026-03-14). Dates of manufacture and serial numbers are text, in words if need be "
    "(early 1936, 1957 or 1963).",
    "Percents: type 15 or 15 %. Several percents in one cell: 50; 10.",
    "Prepared items are called N01, N02 ...: keep these ids, or replace them on every sheet before you go on. What is "
    "alike on many lines: type it once and fill it down.",
    "Formulas are welcome; save the file after they are calculated. Do not merge cells.",
    "You may sort, hide and add columns and sheets of your own. Do not rename headings or sheets.",
    "An appraisal is an opinion for one use on one date. Nothing here is legal, tax or insurance advice; local rules "
    "and licensed practice come first.",
    "Objects that are plugged into the mains: have them opened and switched on by a qualified person only.",
)


def write_start(
    page: Any, look: Look, use: str, sheets: Sequence[Sheet], hidden: Sequence[Sheet], *, library: bool
) -> None:
    """Write the steps, the legend, the sheets with what each is for, those set aside, and the number of the format."""
    what = "Library of your own tables" if library else f"Workbook for an appraisal report: {use or 'any use'}"
    page.write_string(0, 0, what, look(looks.TITLE))
    page.write_string(1, 0, FORMAT_LABEL, look(looks.PLAIN))
    page.write_number(1, 2, FORMAT, look(looks.PLAIN, {"align": "left"}))
    fitting, own = _fitting(use), ", ".join(sheet.name for sheet in sheets if sheet.uses)
    asked = f"One by one, as far as they apply: {own}." if own else ""
    steps = [
        (what, how.replace("{fitting}", fitting).replace("{sheets}", asked))
        for what, how in (_LIBRARY_STEPS if library else _JOB_STEPS)
        if asked or how != "{sheets}"
    ]
    row = _write_steps(page, look, 3, steps)
    row = _write_legend(page, look, row + 1)
    row = _write_rules(page, look, row + 1)
    row = _write_sheets(page, look, row + 1, sheets, use)
    if hidden:
        _write_hidden(page, look, row + 1, hidden)
    page.set_column(0, 0, 4)
    page.set_column(1, 1, 26)
    page.set_column(2, 2, _WIDTH)
    page.hide_gridlines(2)
    page.set_landscape()
    page.set_paper(9)
    page.fit_to_pages(1, 2)
    page.set_footer("&LStart&RPage &P of &N")


def _fitting(use: str) -> str:
    """Return a sentence that names the types of value that fit a use, empty for a library."""
    if use not in set(Use):
        return ""
    fitting = [str(one) for one in use_rules(Use(use)).fits]
    both = " A damage claim takes two: that of the value before, and diminution in value." if use == Use.CLAIM else ""
    return f" Such a report states, as the case may be: {', '.join(fitting)}.{both}"


def _group(page: Any, look: Look, row: int, text: str) -> int:
    page.write_string(row, 0, text, look(looks.GROUP))
    for column in (1, 2):
        page.write_blank(row, column, None, look(looks.GROUP))
    return row + 1


def _write_steps(page: Any, look: Look, row: int, steps: Sequence[tuple[str, str]]) -> int:
    row = _group(page, look, row, "Step by step")
    for number, (what, how) in enumerate(steps, 1):
        page.write_number(row, 0, number, look(looks.PLAIN, {"valign": "top", "align": "left"}))
        page.write_string(row, 1, what, look(looks.PLAIN, {"bold": True, "valign": "top", "text_wrap": True}))
        page.write_string(row, 2, how, look(looks.NOTE))
        page.set_row(row, 2 + looks.row_height((how, _WIDTH)))
        row += 1
    return row


def _write_rules(page: Any, look: Look, row: int) -> int:
    row = _group(page, look, row, "Good to know")
    for rule in _RULES:
        page.write_string(row, 1, "·", look(looks.PLAIN, {"align": "right", "valign": "top"}))
        page.write_string(row, 2, rule, look(looks.NOTE))
        page.set_row(row, 2 + looks.row_height((rule, _WIDTH)))
        row += 1
    return row


def _write_legend(page: Any, look: Look, row: int) -> int:
    row = _group(page, look, row, "What the colours mean")
    for sample, style, meaning in (
        ("Heading *", looks.NEEDED, "dark, with *: always needed"),
        ("Heading", looks.OPTIONAL, "light, without *: blank unless it applies; the hint says when"),
        ("value", looks.TO_FILL, "framed and green: a value of a form, to be filled in here"),
        (EXAMPLE, looks.EXAMPLE, f"yellow and slanted, with '{EXAMPLE}' under {MARK}: an example, not read"),
    ):
        page.write_string(row, 1, sample, look(style))
        page.write_string(row, 2, meaning, look(looks.NOTE))
        row += 1
    page.write_string(row, 1, LEFT_OUT, look(looks.PLAIN))
    page.write_string(row, 2, f"typed under {MARK}: the row stays in the file and is not read", look(looks.NOTE))
    return row + 1


def _write_sheets(page: Any, look: Look, row: int, sheets: Sequence[Sheet], use: str) -> int:
    row = _group(page, look, row, "The sheets")
    for sheet in sheets:
        target = sheet.name.replace("'", "''")
        page.write_url(row, 1, f"internal:'{target}'!A1", look(looks.LINK), sheet.name)
        why = f" Shown because the use is {use}." if sheet.uses else ""
        page.write_string(row, 2, sheet.purpose + why, look(looks.NOTE))
        row += 1
    return row


def _write_hidden(page: Any, look: Look, row: int, hidden: Sequence[Sheet]) -> int:
    row = _group(page, look, row, "Sheets set aside, seldom needed")
    how = (
        "They are in this file, hidden. To see one: click any tab with the right mouse button (or Shift+F10) and "
        "choose Unhide, in LibreOffice Show Sheet. Typed rows are read whether a sheet is seen or not."
    )
    page.write_string(row, 2, how, look(looks.NOTE))
    page.set_row(row, 2 + looks.row_height((how, _WIDTH)))
    row += 1
    for sheet in hidden:
        page.write_string(row, 1, sheet.name, look(looks.PLAIN, {"valign": "top"}))
        page.write_string(row, 2, sheet.purpose, look(looks.NOTE))
        row += 1
    return row


def write_family_lists(page: Any, look: Look) -> None:
    """Write parts, inspection lines and photographs of every family, one line each, to filter and copy."""
    page.write_string(0, 0, "Family lists: what to look at, by family. Filter by family, and copy.", look(looks.TITLE))
    rows = [
        (str(family), where, line)
        for family, lists in families().items()
        for where, lines in (
            ("Parts", lists.parts),
            ("Inspection", lists.inspection),
            ("Photos", tuple(f"{one.kind}: {one.of}" for one in lists.photos)),
        )
        for line in lines
    ]
    heading = look(looks.OPTIONAL)
    page.add_table(
        1,
        0,
        1 + len(rows),
        2,
        {
            "name": "family_lists",
            "style": "Table Style Light 1",
            "banded_rows": False,
            "columns": [{"header": text, "header_format": heading} for text in ("Family", "Sheet", "Line")],
        },
    )
    for number, row in enumerate(rows, 2):
        for column, text in enumerate(row):
            page.write_string(number, column, text, look(looks.PLAIN))
    page.set_column(0, 1, 22)
    page.set_column(2, 2, 70)
    page.freeze_panes(2, 0)
    page.set_paper(9)
    page.fit_to_pages(1, 0)
    page.repeat_rows(1)
    page.set_footer("&LFamily lists&RPage &P of &N")
