"""Short words for tests of methods: typed figures, numbers of outcomes, figures of a method by name."""

from collections.abc import Mapping
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.ledger import Ledger
from appraise.valuing.working import Worked


def typed(text: str, ledger: Ledger | None = None, name: str = "typed") -> Figure:
    """Return a figure typed by a person."""
    return (ledger or Ledger("T")).typed(name, Decimal(text))


def number(outcome: Outcome) -> Decimal:
    """Return the number of an outcome that must be a figure."""
    assert isinstance(outcome, Figure), outcome
    return outcome.number


def numbers(worked: Worked, *names: str) -> dict[str, Decimal]:
    """Return the numbers of named figures."""
    return {name: number(worked[name]) for name in names}


def decimals(**texts: str) -> Mapping[str, Decimal]:
    """Return texts as decimals by name."""
    return {name: Decimal(text) for name, text in texts.items()}


def reasons(outcome: Outcome) -> list[str]:
    """Return the codes for which an outcome is no figure."""
    assert isinstance(outcome, NoFigure), outcome
    return [one.code for one in outcome.because]


def codes(worked: Worked) -> list[str]:
    """Return the codes of a method's findings."""
    return [one.code for one in worked.findings]
