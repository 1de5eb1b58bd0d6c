"""Numbers of patents and registered designs, read from what is stamped, and the months of their grant."""

import re
from collections.abc import Callable

from appraise.model.frozen import frozen
from appraise.model.months import Months, month_number
from appraise.rules.published import NumberedYears, gb_diamond, gb_registered_design, us_design_patent, us_patent

#: The accepted ways to type a number, for the finding.
ACCEPTED = "US 2,524,035; US D 156,686; GB Rd 821265; GB diamond 1 X R (type, letter of the year, letter of the month)"


@frozen
class Grant:
    """One number with the months in which it was given; the last open where the table ends.

    seen  its table entry was seen, not from memory; `disputed` copies of the table disagree near it
    """

    number: str
    months: Months
    seen: bool
    disputed: bool
    source: str


_NUMBER = r"(?P<number>\d{1,3}(?:[,.' ]\d{3})+|\d+)"
_PAT = r"(?:pat(?:ent)?\.?(?: no\.?)?|no\.?)"
_SERIES: tuple[tuple[re.Pattern[str], Callable[[int], NumberedYears | None], str], ...] = (
    (
        re.compile(rf"u\.?s\.?a?\.? ?(?:design|des\.?|d) ?-?{_PAT}? ?{_NUMBER}", re.IGNORECASE),
        us_design_patent,
        "US Patent Office, first design patent number of selected years",
    ),
    (
        re.compile(rf"u\.?s\.?a?\.? ?{_PAT}? ?{_NUMBER}", re.IGNORECASE),
        us_patent,
        "US Patent Office, table of issue years and patent numbers",
    ),
    (
        re.compile(rf"(?:gb|uk)? ?(?:rd\.?|regd?\.?|registered)(?: design)?(?: no\.?)? ?{_NUMBER}", re.IGNORECASE),
        gb_registered_design,
        "list of British registered design numbers, from memory",
    ),
)
_DIAMOND = re.compile(r"(?:gb )?diamond (?P<kind>[12]) (?P<year>[a-z]) (?P<month>[a-z])", re.IGNORECASE)
_REISSUE = re.compile(r"(?:u\.?s\.? ?)?re\.? ?\d", re.IGNORECASE)


def read_grants(text: str) -> tuple[Grant, ...] | str:
    """Return the grants of one number, or of several separated by semicolons; else why one cannot be read."""
    found = []
    for one in filter(None, (part.strip() for part in text.split(";"))):
        grant = _read_grant(" ".join(one.split()))
        if isinstance(grant, str):
            return grant
        found.append(grant)
    return tuple(found) if found else f"write one of: {ACCEPTED}"


def _read_grant(text: str) -> Grant | str:
    diamond = _DIAMOND.fullmatch(text)
    if diamond:
        return _read_diamond(text, diamond)
    if _REISSUE.match(text):
        return "reissues have a series of their own and date the reissue; type its date"
    for pattern, look_up, source in _SERIES:
        match = pattern.fullmatch(text)
        if match:
            years = look_up(int(re.sub(r"\D", "", match["number"])))
            if years is None:
                return "numbers begin with 1"
            last = None if years.last is None else month_number(years.last, 12)
            months = Months.between(month_number(years.first, 1), last)
            return Grant(text, months, years.seen, years.disputed, source)
    return f"the country and series must be named; write one of: {ACCEPTED}"


def _read_diamond(text: str, match: re.Match[str]) -> Grant | str:
    given = gb_diamond(int(match["kind"]), match["year"], match["month"])
    if not given:
        return "these letters stand for no year and month of that type"
    months = Months.of(run for year, month in given for run in _month(year, month).runs)
    return Grant(text, months, True, False, "letters of the British registration diamond (oldcopper.org)")


def _month(year: int, month: int) -> Months:
    number = month_number(year, month)
    return Months.between(number, number)
