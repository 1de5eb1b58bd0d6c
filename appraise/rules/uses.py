"""What each use of a report asks for: types of value that fit, sections in order, required elements by citation."""

from datetime import date
from functools import cache
from typing import Any

from appraise.model.frozen import frozen
from appraise.records.vocabulary import Use, ValueType
from appraise.rules.cited import Citation, citation_from, table_in


@frozen
class Element:
    """One required element of a report.

    id             ours, permanent
    statement      what is asked, in our words
    needs          where it is taken from; every entry must hold:
                   `sheet.column` given in every record of that sheet, `a.b|a.c` one of them given in every record,
                   `signers.column` given for everyone on People who signs,
                   `sheet per item` at least one record for each item, `wording key` an official wording on Clauses,
                   `program` the program writes it itself
    section        section of the report in which it stands
    jurisdictions  country codes it is asked in; empty: everywhere
    """

    id: str
    statement: str
    needs: tuple[str, ...]
    section: str
    jurisdictions: tuple[str, ...]
    citation: Citation

    def asked(self, jurisdiction: str, day: date) -> bool:
        """Whether the element is asked for in a jurisdiction (`US`, `US-NY`) on a day."""
        country = jurisdiction.split("-")[0].strip().upper()
        return (not self.jurisdictions or country in self.jurisdictions) and self.citation.holds_on(day)


@frozen
class UseRules:
    """The rules of one use.

    fits, warns, refuses  types of value with the reason (fits: no reason needed)
    covered               country codes whose rules the elements rest on; elsewhere the report says local rules apply
    sections              names of the report's sections in order
    caution               what a reader of such a report must be told
    """

    use: Use
    fits: tuple[ValueType, ...]
    warns: dict[ValueType, str]
    refuses: dict[ValueType, str]
    covered: tuple[str, ...]
    sections: tuple[str, ...]
    caution: str
    elements: tuple[Element, ...]


@cache
def use_rules(use: Use) -> UseRules:
    """Return the rules of a use: its own elements after those asked of every report."""
    every, own = table_in("uses", "every"), table_in("uses", use.value.replace(" ", "_"))
    elements = tuple(_element(fields) for fields in (*every["element"], *own.get("element", ())))
    return UseRules(
        use=use,
        fits=tuple(ValueType(name) for name in own["fits"]),
        warns={ValueType(name): reason for name, reason in own.get("warns", {}).items()},
        refuses={ValueType(name): reason for name, reason in own.get("refuses", {}).items()},
        covered=tuple(own["covered"]),
        sections=tuple(own["sections"]),
        caution=own["caution"],
        elements=elements,
    )


def _element(fields: dict[str, Any]) -> Element:
    rest = dict(fields)
    citation = citation_from(rest)
    return Element(
        id=rest["id"],
        statement=rest["statement"],
        needs=tuple(rest["needs"]),
        section=rest["section"],
        jurisdictions=tuple(rest.get("jurisdictions", ())),
        citation=citation,
    )
