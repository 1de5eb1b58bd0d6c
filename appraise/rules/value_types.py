"""What each type of value means, by use and jurisdiction, with its citation."""

from datetime import date
from functools import cache

from appraise.model.frozen import frozen
from appraise.records.vocabulary import Use, ValueType
from appraise.rules.cited import Citation, citation_from, tables_in


@frozen
class Definition:
    """One definition of a type of value.

    jurisdictions  codes it holds in (`US`, `GB`); empty: wherever nothing more special is found
    uses           uses it holds for; empty: any
    statement      our summary; it never stands in for wording a law prescribes
    slot           key of the official wording on the library's sheet Clauses
    treatment      how premium, taxes and costs of sale are treated, in a sentence
    """

    value_type: ValueType
    jurisdictions: tuple[str, ...]
    uses: tuple[Use, ...]
    statement: str
    treatment: str
    slot: str
    citation: Citation


@frozen
class Allowed:
    """Whether a type of value may serve a use: `fits`, `warn` or `refuse`, with the reason."""

    verdict: str
    reason: str


@cache
def definitions() -> tuple[Definition, ...]:
    """Return all definitions in the order of the files, special ones before general ones within a file."""
    found = []
    for _name, content in tables_in("value_types"):
        value_type = ValueType(content["value_type"])
        for fields in content["definition"]:
            citation = citation_from(fields)
            found.append(
                Definition(
                    value_type=value_type,
                    jurisdictions=tuple(fields["jurisdictions"]),
                    uses=tuple(Use(use) for use in fields["uses"]),
                    statement=fields["statement"],
                    treatment=fields["treatment"],
                    slot=fields["slot"],
                    citation=citation,
                )
            )
    return tuple(found)


def definition_for(value_type: ValueType, use: Use, jurisdiction: str, day: date) -> Definition | None:
    """Return the most special definition that holds; None if none does (then the report says so).

    A definition for the jurisdiction and the use comes before one for the jurisdiction, and that before a general one.
    `jurisdiction` is a country code, with or without a subdivision: `US`, `US-NY`.
    """
    country = jurisdiction.split("-")[0].strip().upper()
    fitting = [
        one
        for one in definitions()
        if one.value_type is value_type
        and (not one.jurisdictions or country in one.jurisdictions)
        and (not one.uses or use in one.uses)
        and one.citation.holds_on(day)
    ]
    return max(fitting, key=lambda one: (bool(one.jurisdictions), bool(one.uses)), default=None)
