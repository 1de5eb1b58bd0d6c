"""The inspection form on paper: for each begun item what to look at, to be printed and taken along.

One page or two an item, on paper of the size A4, the second with parts and photographs. What is written by hand is
typed afterwards on Items, Inspection, Parts and Photos, whose lines are the same.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from appraise.records.vocabulary import Family, PartState
from appraise.rules.families import FamilyLists, family_lists
from appraise.workbook.writing import looks

Look = Callable[..., Any]

_WIDTHS = (37, 47, 30)
_LINE = 21
#: About so many lines of a form stand on one page.
_LINES_OF_A_PAGE = 48
_BOX = "\u2610"
_STATES = "  ".join(f"{_BOX} {state.value.split()[0]}" for state in PartState)
#: What the sheet Items asks of every object and only the visit can tell.
_WHOLE = (
    "Dimensions, with units",
    "Markings, word for word",
    "What tells the maker and model",
    "Finish: original or how changed",
    "Grade, by your scale",
    "Listed woods, ivory, shell",
    "Permits and papers",
    "Acquired: when, how, price",
    "History before; title",
    "Owner's own words",
    "What speaks for the date",
)
#: Families whose objects are plugged into the mains.
_PLUGGED_IN = (Family.TUBE_AMPLIFIER,)
_MAINS = "Plugged into the mains: have it opened and switched on by a qualified person only."
_SILENCE = "Leave no line empty: what was not inspected is said, with the reason. A blank never counts as sound."


def write_paper_form(page: Any, look: Look, items: Sequence[Mapping[str, Any]]) -> None:
    """Write a form for each item that has a family, each beginning on a new page."""
    row = 0
    breaks = []
    for item in items:
        if isinstance(item.get("family"), Family):
            if row:
                breaks.append(row)
            row = _write_item(page, look, row, item, breaks)
    for number, shown in enumerate(_WIDTHS):
        page.set_column(number, number, shown)
    page.set_h_pagebreaks(breaks)
    page.set_paper(9)
    page.set_portrait()
    page.set_margins(left=0.5, right=0.5, top=0.5, bottom=0.6)
    page.fit_to_pages(1, 0)
    page.hide_gridlines(2)
    page.set_footer("&LOn paper&RPage &P of &N")


def _write_item(page: Any, look: Look, row: int, item: Mapping[str, Any], breaks: list[int]) -> int:
    """Write the form of one item; where it takes a second page, that begins with the parts."""
    first = row
    family: Family = item["family"]
    lists: FamilyLists = family_lists(family)
    page.write_string(row, 0, f"Inspection of {item.get('id', '')}: {family}", look(looks.TITLE))
    page.set_row(row, 26)
    row += 1
    for labels in (("Maker:", "Model:", "Serial no.:"), ("Where:", "Day:", "Inspected by:")):
        row = _write_cells(page, look, row, labels)
    for sentence in (_SILENCE, *([_MAINS] if family in _PLUGGED_IN else [])):
        page.write_string(row, 0, sentence, look(looks.PLAIN, {"italic": True}))
        row += 1
    row = _write_block(page, look, row, ("For the sheet Items", "As seen, or as told", "Proof, or why not"), _WHOLE)
    row = _write_block(page, look, row, ("Look at", "Found", "Not inspected, because"), lists.inspection)
    if row - first + len(lists.parts) + len(lists.photos) + 3 > _LINES_OF_A_PAGE:
        breaks.append(row)
    row = _write_block(page, look, row, ("Part", "State: tick one", "Seen by; changed about"), lists.parts, _STATES)
    wanted = [f"{_BOX} {photo.of}" for photo in lists.photos]
    return _write_block(page, look, row, ("Photograph", "File or number", "Remark"), wanted)


def _write_block(
    page: Any, look: Look, row: int, headings: Sequence[str], lines: Sequence[str], middle: str = ""
) -> int:
    heading = look(looks.OPTIONAL, {"border": 1})
    for number, text in enumerate(headings):
        page.write_string(row, number, text, heading)
    row += 1
    for line in lines:
        row = _write_cells(page, look, row, (line, middle, ""))
    return row + 1


def _write_cells(page: Any, look: Look, row: int, texts: Sequence[str]) -> int:
    plain = look(looks.PLAIN, {"border": 1, "text_wrap": True, "valign": "vcenter"})
    small = look(looks.PLAIN, {"border": 1, "text_wrap": True, "valign": "vcenter", "font_size": 9})
    for number, text in enumerate(texts):
        page.write_string(row, number, text, small if _BOX in text and number == 1 else plain)
    page.set_row(row, _LINE * (2 if len(texts[0]) > 40 else 1))
    return row + 1
