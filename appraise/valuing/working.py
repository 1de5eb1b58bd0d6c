"""The working of one method: a ledger, the outcomes made so far by name, and what was found on the way.

A cell that is needed and not given makes one finding at its place; whatever is worked out from it says so.
"""

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from appraise.model.figure import Figure, NoFigure, Outcome, Value
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.kinds import TEXT, TYPED, Kind
from appraise.model.ledger import Ledger, no_figure
from appraise.model.missing import BLANK, Missing, given
from appraise.model.operations import Operation
from appraise.model.place import Place
from appraise.records.declare import Sheet, place_of


@frozen
class Worked:
    """What a method gives: outcome by name in the order made, and its findings."""

    figures: Mapping[str, Outcome]
    findings: tuple[Finding, ...] = ()

    def __getitem__(self, name: str) -> Outcome:
        return self.figures[name]


class Working:
    """Makes the figures of one method through its ledger and remembers them by name.

    code  catalogue code of the finding "a needed cell is not given"; its details are `sheet` and `heading`
    """

    __slots__ = ("_code", "_subjects", "figures", "findings", "ledger")

    def __init__(self, ledger: Ledger, code: str, *subjects: str | Missing) -> None:
        self.ledger = ledger
        self.figures: dict[str, Outcome] = {}
        self.findings: list[Finding] = []
        self._code = code
        self._subjects = tuple(one for one in subjects if given(one))

    def cell(
        self,
        sheet: Sheet,
        record: Any,
        key: str,
        *,
        name: str = "",
        blank: Decimal | None = None,
        kind: Kind = TYPED,
    ) -> Outcome:
        """Return what was typed in a cell; `blank` stands for a blank one where the heading's hint says so."""
        value = getattr(record, key)
        if value is BLANK and blank is not None:
            value = blank
        if not given(value):
            return self.keep(name or key, self.lacking(sheet, record, key))
        return self.keep(name or key, self.ledger.typed(name or key, value, place_of(sheet, record, key), kind=kind))

    def lacking(self, sheet: Sheet, record: Any, key: str) -> NoFigure:
        """Return "no figure" for a needed cell that was not given, with its finding."""
        value = getattr(record, key)
        why = value.value if isinstance(value, Missing) else ""
        reason = finding(
            self._code,
            place_of(sheet, record, key),
            *self._subjects,
            found="" if value is BLANK else why,
            sheet=sheet.name,
            heading=sheet.column(key).heading,
        )
        return NoFigure((reason,))

    def figure(self, name: str, kind: Kind, operation: Operation, *arguments: Outcome) -> Outcome:
        """Return and remember `operation` of `arguments`."""
        return self.keep(name, self.ledger.figure(name, kind, operation, *arguments))

    def note(self, name: str, value: Value, *places: Place, kind: Kind = TEXT) -> Figure:
        """Return and remember a figure that is looked up or decided: a day, a count, a yes or no."""
        noted = self.ledger.note(name, value, kind=kind, places=places)
        self.figures[name] = noted
        return noted

    def answer(self, name: str, yes: bool | None, *because: Outcome) -> Outcome:
        """Return and remember a yes or no; None: it cannot be told, for what `because` lacks."""
        if yes is None:
            return self.keep(name, lacking_of(because))
        return self.note(name, "yes" if yes else "no")

    def refuse(self, name: str, code: str, place: Place, *, found: str = "", **details: object) -> NoFigure:
        """Return and remember "no figure" under a name, for a reason of its own."""
        refusal = NoFigure((finding(code, place, *self._subjects, found=found, **details),))
        self.figures[name] = refusal
        return refusal

    def find(self, code: str, place: Place, *, found: str = "", **details: object) -> None:
        """Take note of a finding about this working's subjects."""
        self.findings.append(finding(code, place, *self._subjects, found=found, **details))

    def keep(self, name: str, outcome: Outcome) -> Outcome:
        """Remember an outcome under a name."""
        self.figures[name] = outcome
        return outcome

    def done(self) -> Worked:
        """Return what was worked out; reasons of missing figures come first among the findings, each once."""
        reasons = [one for outcome in self.figures.values() if isinstance(outcome, NoFigure) for one in outcome.because]
        return Worked(dict(self.figures), tuple(dict.fromkeys((*reasons, *self.findings))))


def lacking_of(outcomes: Iterable[Outcome]) -> NoFigure:
    """Return "no figure" with the reasons of all outcomes that are none; at least one must be."""
    return no_figure(reason for one in outcomes if isinstance(one, NoFigure) for reason in one.because)


def compared(a: Outcome, b: Outcome) -> int | None:
    """Return -1, 0 or 1 as the first is smaller, equal or larger; None if one of them is no figure."""
    if isinstance(a, NoFigure) or isinstance(b, NoFigure):
        return None
    return (a.number > b.number) - (a.number < b.number)


def positive(outcome: Outcome) -> bool:
    """Say whether there is a figure and it is above zero."""
    return isinstance(outcome, Figure) and outcome.number > 0


def dividable(outcome: Outcome) -> bool:
    """Say whether an outcome may be divided by: above zero, or no figure, which passes its reasons on."""
    return isinstance(outcome, NoFigure) or positive(outcome)


def number_text(outcome: Outcome) -> str:
    """Return the number of an outcome as text, for a finding; empty where there is no figure."""
    return f"{outcome.number:f}" if isinstance(outcome, Figure) else ""


_SERVES = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")


def names_of(rows: Iterable[Any], key: str, *, taken: Iterable[str] = ()) -> list[str]:
    """Return a name for each row in the ids of figures: its id, or `row` and its number where the id cannot serve.

    An id cannot serve if it is not given, holds other than letters, digits, `_` and `-`, stands on an earlier row, or
    is `taken` by a figure.
    """
    names: list[str] = []
    used = set(taken)
    for row in rows:
        value = getattr(row, key)
        serves = isinstance(value, str) and _SERVES.fullmatch(value) is not None and value not in used
        name = value if serves else f"row{row.row}"
        used.add(name)
        names.append(name)
    return names
