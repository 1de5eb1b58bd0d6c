"""How a check is registered and found."""

import pkgutil
from collections.abc import Callable, Iterable
from functools import cache
from importlib import import_module

import appraise.checks
from appraise.checks.context import CheckContext
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.records.vocabulary import Use

Run = Callable[[CheckContext], Iterable[Finding]]


@frozen
class Check:
    """One check: the code it alone raises, its rule as a sentence, the uses it is for (empty: all)."""

    code: str
    rule: str
    uses: tuple[Use, ...]
    run: Run

    def applies(self, context: CheckContext) -> bool:
        """Say whether the check is for the use of the report."""
        return not self.uses or context.use in self.uses


_REGISTERED: dict[str, Check] = {}


def check(code: str, *uses: Use) -> Callable[[Run], Run]:
    """Register the decorated function as the check that raises `code`; its first docstring line is the rule."""

    def register(run: Run) -> Run:
        sentence = (run.__doc__ or "").strip().partition("\n")[0]
        if not sentence.endswith("."):
            raise ValueError(f"{code}: the first docstring line is not the rule as a sentence")
        if code in _REGISTERED:
            raise ValueError(f"{code} belongs to two checks")
        _REGISTERED[code] = Check(code, sentence, uses, run)
        return run

    return register


@cache
def all_checks() -> tuple[Check, ...]:
    """Return every check of this package in order of code; a module that cannot be imported is our own mistake."""
    for module in pkgutil.iter_modules(appraise.checks.__path__):
        import_module(f"appraise.checks.{module.name}")
    return tuple(_REGISTERED[code] for code in sorted(_REGISTERED))
