"""Published dating facts and number tables, independent of any maker: what an appraiser may use to bound a date.

Data of the folder `dating`: each fact with its id, what is seen on the object, its bounds as the source writes
them, how hard they are, the rule in our words, the citation, and whether that text was seen. A fact bounds the
part that carries it; it is no legal advice. What the numbers and marks mean in months is worked out in `dating`.
"""

from bisect import bisect_right
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from typing import Any

from appraise.model.frozen import frozen
from appraise.rules.cited import tables_in

#: Stands in place of a bound that comes from the object: a year in a notice, a number, a code.
FROM_OBJECT = "typed"


class FactSeen(StrEnum):
    """How far a fact rests on a text that was seen."""

    SEEN = "seen"
    IN_PART = "in part"
    RETOLD = "retold"
    MEMORY = "from memory"

    @property
    def strength(self) -> int:
        """Greatest strength a statement on it can have: 3 published reference, 2 for a retelling or memory."""
        return 3 if self in (FactSeen.SEEN, FactSeen.IN_PART) else 2


@frozen
class Fact:
    """One published fact.

    id       permanent: `C02`, `B24-burma`
    mark     what is seen on the object
    topic    heading of its list; `kind` the kind of evidence it usually is, in the word of the workbook
    spans    stretches in which a genuine mark is possible, as (lower, upper) in the words of the source; "" is open,
             `FROM_OBJECT` comes from the object. More than one: several readings. None: it bounds nothing.
    lower_soft, upper_soft   earlier, or later, is possible though unusual
    lingers  months by which a soft upper bound reaches further: old stock, dies, habit (our default, no source)
    """

    id: str
    mark: str
    topic: str
    kind: str
    spans: tuple[tuple[str, str], ...]
    lower_soft: bool
    upper_soft: bool
    lingers: int
    rule: str
    source: str
    seen: FactSeen
    caution: str

    @property
    def bounds(self) -> bool:
        """Whether it bounds a date at all; some are listed because the trade wrongly believes that they do."""
        return bool(self.spans)

    @property
    def asks(self) -> bool:
        """Whether a bound has to be typed from the object."""
        return any(FROM_OBJECT in span for span in self.spans)


@cache
def facts() -> Mapping[str, Fact]:
    """Return every published fact by id, in the order of the lists."""
    found: dict[str, Fact] = {}
    for name, table in tables_in("dating"):
        if name.startswith("facts-"):
            head = {key: table.pop(key) for key in ("title", "kind", "lingers")}
            for row, fields in table.items():
                for fact in _facts_of(row, fields, head):
                    if fact.id in found:
                        raise ValueError(f"{fact.id} stands twice among the published facts")
                    found[fact.id] = fact
    return dict(sorted(found.items()))


def variants_of(row: str) -> tuple[Fact, ...]:
    """Return the facts of a row that has several (`B24`: `B24-burma`, `B24-myanmar`); empty for any other text."""
    return tuple(fact for one, fact in facts().items() if one.startswith(f"{row}-"))


def _facts_of(row: str, fields: dict[str, Any], head: dict[str, Any]) -> list[Fact]:
    variants = fields.pop("variants", None)
    if variants is None:
        return [_fact(row, fields["mark"], fields, fields, head)]
    return [_fact(f"{row}-{one['id']}", f"{fields['mark']}: {one['mark']}", one, fields, head) for one in variants]


def _fact(name: str, mark: str, own: dict[str, Any], fields: dict[str, Any], head: dict[str, Any]) -> Fact:
    spans = own.get("spans") or (
        [[own.get("lower", ""), own.get("upper", "")]] if {"lower", "upper"} & set(own) else []
    )
    return Fact(
        id=name,
        mark=mark,
        topic=head["title"],
        kind=head["kind"],
        spans=tuple((lower, upper) for lower, upper in spans),
        lower_soft="l" in fields["bound"],
        upper_soft="u" in fields["bound"],
        lingers=head["lingers"],
        rule=fields["rule"],
        source=fields["source"],
        seen=FactSeen(fields["seen"]),
        caution=fields.get("caution", ""),
    )


@frozen
class NumberedYears:
    """The year or years in which a number was given, both ends included; last None: that year or any later one.

    disputed  copies of the table disagree near this number
    seen      False: the table's entry is from memory
    """

    first: int
    last: int | None
    disputed: bool
    seen: bool


@cache
def _table(name: str) -> dict[str, Any]:
    return dict(tables_in("dating"))[name]


@cache
def _starts(name: str) -> tuple[list[int], list[int], list[bool]]:
    """Return years, first numbers and whether each was seen, of a table `[first]`."""
    rows = sorted((int(year), entry) for year, entry in _table(name)["first"].items())
    entries = [entry if isinstance(entry, dict) else {"number": entry, "seen": "from memory"} for _, entry in rows]
    seen = [entry.get("copies", "") not in ("", "m") or entry.get("seen") == "seen" for entry in entries]
    return [year for year, _ in rows], [entry["number"] for entry in entries], seen


def us_patent(number: int) -> NumberedYears | None:
    """Return the year in which a US utility patent was granted, None for numbers below 1.

    The last year of the table also stands for all later ones. Between two first numbers on which copies of the
    table disagree, both years are given. No day is worked out within a year.
    Source: US Patent Office, table of issue years and patent numbers; see the data file for the copies.
    """
    years, numbers, seen = _starts("us-patents")
    if number < 1:
        return None
    place = bisect_right(numbers, number) - 1
    year = years[place]
    for disputed, other in ((int(one), first) for one, first in _table("us-patents")["disputed"].items()):
        low, high = sorted((other, numbers[years.index(disputed)]))
        if low <= number < high:
            return NumberedYears(disputed - 1, disputed, True, seen[place])
    return NumberedYears(year, None if place == len(years) - 1 else year, False, seen[place])


def us_design_patent(number: int) -> NumberedYears | None:
    """Return the years between the two nearest entries of the table of US design patents; None below 1.

    Source: as `us_patent`; entries after 1903 are from memory.
    """
    years, numbers, seen = _starts("us-design-patents")
    if number < 1:
        return None
    place = bisect_right(numbers, number) - 1
    last = years[place + 1] - 1 if place + 1 < len(years) else None
    return NumberedYears(years[place], last, False, seen[place])


def gb_registered_design(number: int) -> NumberedYears | None:
    """Return the year or years in which a British design was registered; None below 1.

    Where the table has no entry for the next year the years up to the next entry are given; near a boundary after
    1901 a year on either side, as copies differ. Source: circulating list, from memory; see the data file.
    """
    years, numbers, seen = _starts("gb-designs")
    if number < 1:
        return None
    place = bisect_right(numbers, number) - 1
    first = years[place]
    last = years[place + 1] - 1 if place + 1 < len(years) else None
    near = _table("gb-designs")["near"]
    if first >= 1901 and number - numbers[place] <= near:
        first -= 1
    if last is not None and last >= 1900 and numbers[place + 1] - number <= near:
        last += 1
    return NumberedYears(first, last, (first, last) != (years[place], last), seen[place])


def gb_diamond(kind: int, year_letter: str, month_letter: str) -> tuple[tuple[int, int], ...]:
    """Return the (year, month) pairs a British registration diamond may mean; empty if the letters stand for none.

    kind  1: letter of the year at the top (1842 to 1867); 2: at the right (1868 to 1883)

    Source: oldcopper.org, special topics, registered designs, with two irregular months on record.
    """
    table = _table("gb-diamond")
    year = table["first_type" if kind == 1 else "second_type"].get(year_letter.upper())
    if year is None:
        return ()
    months = [table["month"].get(month_letter.upper())]
    also_year, also_month = table["also"].get(month_letter.upper(), (0, 0))
    if also_year == year:
        months.append(also_month)
    return tuple((year, month) for month in months if month is not None)
