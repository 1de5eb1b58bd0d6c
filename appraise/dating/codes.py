"""Source-date codes of US electronic components: who made the part, and in which week.

Rule of the registered code (EIA source codes, ecianow.org/eia-source-codes; wording quoted by several public
pages): number of the source, then two figures of the year and two of the week; where four figures do not fit, the
last figure of the year and two of the week. The list of sources is not needed to read the date and is left out.
"""

import re

from appraise.model.frozen import frozen

#: Year of the oldest published list; one-figure years are not looked for before it.
OLDEST_LIST = 1946
#: Edition with which registration ended.
LAST_LIST = 2001
#: First year of a two-figure year that is not below the association's foundation.
_ASSOCIATION = 1924
#: Two figures of the year were usual by the end of this year's decade; later one-figure years are unlikely.
_ONE_FIGURE_USUAL = 1969


@frozen
class CodeReading:
    """One way to read a code: source, year and week; `unlikely` is against what is usual, not excluded."""

    source: str
    year: int
    week: int
    unlikely: bool


@frozen
class Code:
    """A stamped code with all its readings, usual ones first, and what to say about them.

    one_figure  its year has one figure: the decade is open until other evidence settles it
    notes       keys: `week 53`, `after the last list`, `older than the oldest list`, `date only`
    """

    stamped: str
    readings: tuple[CodeReading, ...]
    one_figure: bool
    notes: tuple[str, ...]


def read_code(stamped: str, examined_year: int) -> Code | str:
    """Return a code with its readings, or why it is not one.

    Groups with letters are dropped. A hyphen, space, point or line break settles the split; six and seven figures
    in one run may be split in two ways, of which the second is unlikely.
    """
    groups = [one for one in re.split(r"[\s.\-/]+", stamped.strip()) if one]
    figures = [one for one in groups if one.isdecimal() and one.isascii()]
    if not figures:
        return "it has no figures"
    splits = _grouped(figures) if len(figures) > 1 else _in_one_run(figures[0])
    if isinstance(splits, str):
        return splits
    readings: list[CodeReading] = []
    for source, year, week, unlikely in splits:
        if not 1 <= int(week) <= 53:
            continue
        for full, against in _years(year, examined_year):
            readings.append(CodeReading(source, full, int(week), unlikely or against))
    if not readings:
        weeks = ", ".join(dict.fromkeys(week for _, _, week, _ in splits))
        return f"there is no week {weeks}, or its year is not yet reached"
    readings.sort(key=lambda one: one.unlikely)
    usual = [one for one in readings if not one.unlikely] or readings
    one_figure = any(len(year) == 1 and not unlikely for _, year, _, unlikely in splits)
    return Code(stamped.strip(), tuple(readings), one_figure, _notes(usual, one_figure, not splits[0][0]))


Split = tuple[str, str, str, bool]


def _grouped(groups: list[str]) -> list[Split] | str:
    """Return the split a grouping settles: source, then year and week in one group or two."""
    source = groups[0]
    if not 2 <= len(source) <= 4:
        return "the number of the source has two to four figures"
    if len(groups) == 2 and len(groups[1]) in (3, 4):
        return [(source, groups[1][:-2], groups[1][-2:], False)]
    if len(groups) == 3 and len(groups[1]) in (1, 2) and len(groups[2]) == 2:
        return [(source, groups[1], groups[2], False)]
    return "the groups are not source, year and week"


def _in_one_run(figures: str) -> list[Split] | str:
    """Return every split of a run of figures, the usual one first."""
    splits: dict[int, list[tuple[int, int]]] = {
        8: [(4, 2)],
        7: [(3, 2), (4, 1)],
        6: [(3, 1), (2, 2)],
        3: [(0, 1)],
    }
    if len(figures) == 4:  # the date alone, year first or week first
        return [("", figures[:2], figures[2:], True), ("", figures[2:], figures[:2], True)]
    if len(figures) == 5:
        return "five figures are too short unless the source is set apart, as in 99-642"
    if len(figures) not in splits:
        return f"{len(figures)} figures are not a source, a year and a week"
    return [
        (figures[:source], figures[source : source + year], figures[source + year :], place > 0 or source == 0)
        for place, (source, year) in enumerate(splits[len(figures)])
    ]


def _years(figures: str, examined_year: int) -> list[tuple[int, bool]]:
    """Return the years the figures may mean, each with whether it is unlikely."""
    if len(figures) == 1:
        first = OLDEST_LIST + (int(figures) - OLDEST_LIST) % 10
        return [(year, year > _ONE_FIGURE_USUAL) for year in range(first, examined_year + 1, 10)]
    years = (1900 + int(figures), 2000 + int(figures))
    return [
        (year, False)
        for year in years
        if _ASSOCIATION <= year <= examined_year and not (year >= 2000 and int(figures) >= OLDEST_LIST - 1900)
    ]


def _notes(readings: list[CodeReading], one_figure: bool, date_only: bool) -> tuple[str, ...]:
    notes = []
    if any(one.week == 53 for one in readings):
        notes.append("week 53")
    if not one_figure and any(one.year > LAST_LIST for one in readings):
        notes.append("after the last list")
    if any(one.year < OLDEST_LIST for one in readings):
        notes.append("older than the oldest list")
    if date_only:
        notes.append("date only")
    return tuple(notes)
