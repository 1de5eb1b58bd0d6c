"""The hidden sheet the drop-downs look at: every closed list, and ids gathered from more than one place.

A list that closes nothing (an id of the appraiser's own, a code) is offered all the same: the rule only warns.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from xlsxwriter.utility import xl_col_to_name

from appraise.findings.entries import catalogue
from appraise.records.declare import Column
from appraise.rules.published import facts
from appraise.wording.texts import originals
from appraise.workbook.layout import LISTS, MARK, MARKS

#: Own ids that a gathered list makes room for.
_OWN_IDS = 300
#: Beginnings of the keys of texts that are clauses of the report.
_CLAUSES = ("certification.", "letter.", "limiting.")
#: Name of the list of published facts and own periods and serials, and the sheets whose ids go into it.
_DATING_IDS = "Ids for dating"
_DATING_SHEETS = ("Feature periods", "Serial ranges")
#: Lists for columns that take any text: (sheet, column key) to the name of the list.
_OFFERED = {
    ("Evidence", "reference"): _DATING_IDS,
    ("Answers", "code"): "Finding codes",
    ("Clauses", "key"): "Clause keys",
}


def offered(sheet: str, key: str, lists: Mapping[str, str]) -> str | None:
    """Return the reference of the list offered in a column that takes any text, None where there is none."""
    return lists.get(_OFFERED.get((sheet, key), ""))


def write_lists(
    page: Any, look: Callable[..., Any], columns: Iterable[Column], id_ranges: Mapping[str, str]
) -> dict[str, str]:
    """Write every list into its own column and return the reference of each by its name.

    id_ranges  where the ids of each written sheet stand, by the sheet's name: `='Sales'!$B$3:$B$5003`
    """
    choices: dict[str, Sequence[str]] = {
        one.choices.__name__: [str(word) for word in one.choices] for one in columns if one.choices
    }
    choices[MARK] = MARKS
    choices |= dict(_constant_lists())
    references: dict[str, str] = {}
    for number, (name, words) in enumerate(sorted(choices.items())):
        page.write_string(0, number, name, look({"bold": True}))
        for row, word in enumerate(words, 1):
            page.write_string(row, number, word)
        letters = xl_col_to_name(number)
        references[name] = f"={LISTS}!${letters}$2:${letters}${len(words) + 1}"
        own = [id_ranges[sheet] for sheet in _DATING_SHEETS if sheet in id_ranges] if name == _DATING_IDS else []
        if own:
            last = _gather(page, number, len(words), own)
            cells = f"{LISTS}!${letters}$2:${letters}${last + 1}"
            # The list ends where the ids end: the cells below hold empty texts.
            references[name] = f'=OFFSET({LISTS}!${letters}$2,0,0,COUNTIF({cells},"?*"),1)'
    return references


def _constant_lists() -> Iterator[tuple[str, Sequence[str]]]:
    yield _DATING_IDS, list(facts())
    yield "Finding codes", sorted(catalogue())
    yield "Clause keys", [key for key in originals() if key.startswith(_CLAUSES)]


def _gather(page: Any, number: int, filled: int, ranges: Sequence[str]) -> int:
    """Write formulas below `filled` words that gather the ids of `ranges` one after another; return the last row."""
    areas = [one.removeprefix("=") for one in ranges]
    for position in range(1, _OWN_IDS + 1):
        formula, before = '""', "0"
        steps = []
        for area in areas:
            steps.append((f"{position}<={before}+COUNTA({area})", f'INDEX({area},{position}-({before}))&""'))
            before = f"{before}+COUNTA({area})"
        for test, value in reversed(steps):
            formula = f"IF({test},{value},{formula})"
        page.write_formula(filled + position, number, f"={formula}", None, "")
    return filled + _OWN_IDS
