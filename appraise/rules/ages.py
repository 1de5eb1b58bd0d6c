"""Age limits of laws on restricted materials, for the report's age tests. The tests themselves are in `dating.age`."""

from datetime import date
from functools import cache

from appraise.model.frozen import frozen
from appraise.rules.cited import Citation, citation_from, tables_in


@frozen
class AgeRule:
    """One age limit.

    id         ours, permanent
    statement  what is asked, in our words; age alone never fulfils the rule
    years      completed at least so many years ago; None if `before` is given
    before     completed before this day; None if `years` is given
    """

    id: str
    statement: str
    years: int | None
    before: date | None
    citation: Citation


@cache
def age_rules() -> tuple[AgeRule, ...]:
    """Return the age limits in the order in which the report prints them."""
    found = []
    for _name, content in tables_in("ages"):
        for fields in content["rule"]:
            rest = dict(fields)
            citation = citation_from(rest)
            found.append(AgeRule(rest["id"], rest["statement"], rest.get("years"), rest.get("before"), citation))
    return tuple(found)
