"""A cited, dated statement, and how the folders of rule data are read."""

import tomllib
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any

from appraise.files.packaged import packaged
from appraise.model.frozen import frozen

#: The edition of what has none: practice of the trade, terms of a contract.
NO_EDITION = "none"


class Seen(StrEnum):
    """How the rule came to us."""

    TEXT = "read in the text itself"
    REPORTED = "read in a page that quotes or reports it"
    MEMORY = "from memory, to be checked against the text"
    PRACTICE = "common practice, no source"


@frozen
class Citation:
    """Where a rule stands.

    source      law, standard or author with title, and the section
    edition     edition or state of the text
    valid_from  the day from which it holds; None: not established, which is printed
    valid_to    the last day, None while it holds
    """

    source: str
    edition: str
    seen: Seen
    valid_from: date | None
    valid_to: date | None

    def holds_on(self, day: date) -> bool:
        """Whether the rule holds on `day`. An unknown first day counts as held."""
        return (self.valid_from is None or self.valid_from <= day) and (self.valid_to is None or day <= self.valid_to)


def citation_from(fields: dict[str, Any]) -> Citation:
    """Take the citation's fields out of a table of rule data and return them as a citation."""
    return Citation(
        source=fields.pop("source"),
        edition=fields.pop("edition"),
        seen=Seen(fields.pop("seen")),
        valid_from=fields.pop("valid_from", None),
        valid_to=fields.pop("valid_to", None),
    )


def tables_in(folder: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield name and content of each TOML file in `appraise/rules/<folder>`, in order of their names."""
    for file in sorted(packaged("rules", folder).glob("*.toml")):
        yield file.stem, table_in(folder, file.stem)


def table_in(folder: str, name: str) -> dict[str, Any]:
    """Return the content of the TOML file `appraise/rules/<folder>/<name>.toml`."""
    return tomllib.loads(packaged("rules", folder, f"{name}.toml").read_text("utf-8"), parse_float=Decimal)
