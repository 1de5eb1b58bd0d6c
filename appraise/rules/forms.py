"""Forms of tax returns that the reports feed with figures, each with the edition whose layout is followed."""

from datetime import date
from functools import cache

from appraise.model.frozen import frozen
from appraise.records.vocabulary import Use
from appraise.rules.cited import Citation, citation_from, tables_in


@frozen
class Form:
    """One form.

    day       first day of the edition whose layout we follow; later editions may ask for more
    citation  where it stands, and how it came to us
    """

    name: str
    printed: str
    day: date
    citation: Citation


def form_of(use: Use) -> Form | None:
    """Return the form that a report of this use feeds; None where it feeds none that we follow."""
    return _forms().get(use)


@cache
def _forms() -> dict[Use, Form]:
    found = {}
    for _file, content in tables_in("forms"):
        for name, fields in content.items():
            citation = citation_from(dict(fields))
            assert citation.valid_from is not None
            found[Use(fields["use"])] = Form(name, fields["printed"], citation.valid_from, citation)
    return found
