"""Reads the catalogue and puts a finding into words."""

import hashlib
import re
import tomllib
from enum import StrEnum
from functools import cache

from appraise.files.packaged import packaged
from appraise.model.finding import Finding
from appraise.model.frozen import frozen


class Severity(StrEnum):
    """How grave a finding is; defined here and nowhere else."""

    #: Arithmetic, a missing figure, a date fixed by law: never released.
    IMPOSSIBLE = "stop, impossible"
    #: Released only by a written reason with initials and date on Answers; always printed.
    CONTRARY = "stop, contrary to practice"
    #: Answered in writing; printed where fairness asks.
    WARN = "warn"
    NOTE = "note"

    @property
    def stops(self) -> bool:
        """Whether an open finding of this severity keeps a report from being final."""
        return self in (Severity.IMPOSSIBLE, Severity.CONTRARY)

    @property
    def word(self) -> str:
        """The short word of the terminal: `stop`, `warn` or `note`."""
        return self.value.partition(",")[0]


@frozen
class Entry:
    """One entry of the catalogue.

    code      permanent, never reused: topic and number, `CMP-07`
    severity  defined once for the code
    message   what was found and what was expected; `{found}` and the finding's details fill it
    action    what to do, naming sheet and column
    why       why it matters
    rule      the rule it rests on, with citation ("common practice, no source" is one)
    """

    code: str
    severity: Severity
    message: str
    action: str
    why: str
    rule: str


@cache
def catalogue() -> dict[str, Entry]:
    """Return every entry by code, in order of the files of the folder `catalogue` and of the entries in them."""
    return {code: _entry(code) for code in _pieces()}


def entry_of(finding: Finding) -> Entry:
    """Return the catalogue's entry for a finding; an unknown code is our own mistake."""
    return _entry(finding.code)


@cache
def _entry(code: str) -> Entry:
    fields = tomllib.loads(_pieces()[code])
    return Entry(code=code, severity=Severity(fields.pop("severity")), **fields)


@cache
def _pieces() -> dict[str, str]:
    """Return the text of every entry by code: to parse them all would take longer than to check a small job."""
    pieces: dict[str, str] = {}
    for file in sorted(packaged("findings", "catalogue").glob("*.toml")):
        _, *found = _HEADING.split(file.read_text("utf-8"))
        for code, piece in zip(found[::2], found[1::2], strict=True):
            if code in pieces:
                raise ValueError(f"{code} stands twice in the catalogue")
            pieces[code] = piece
    return pieces


_HEADING = re.compile(r"^\[([^\]]+)\][ \t]*$", re.MULTILINE)


def message(finding: Finding) -> str:
    """Return the finding's sentence."""
    return _fill(entry_of(finding).message, finding)


def action(finding: Finding) -> str:
    """Return what to do about it."""
    return _fill(entry_of(finding).action, finding)


def _fill(sentence: str, finding: Finding) -> str:
    # A line of a form has no id: its sheet is named instead.
    subjects = ", ".join(finding.subjects) or finding.place.sheet
    words = {"found": finding.found, "subjects": subjects, **dict(finding.details)}
    return sentence.format_map(words)


def value_mark(finding: Finding) -> str:
    """Return the short mark of the value found: an answer holds only as long as it stays the same."""
    return hashlib.sha256(finding.found.encode()).hexdigest()[:8]
