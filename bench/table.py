"""The results as a Markdown table, with the day, the machine and the versions they were measured with."""

import os
import platform
from collections.abc import Iterator, Sequence
from importlib.metadata import version
from statistics import median

from bench.child import Measured
from bench.measuring import Result

_PACKAGES = ("openpyxl", "python-calamine", "docxtpl", "jinja2", "lxml", "pillow", "XlsxWriter")


def table(results: Sequence[Result], *, day: str, rounds: int) -> Iterator[str]:
    """Yield the lines of the table."""
    versions = ", ".join(f"{name} {version(name)}" for name in _PACKAGES)
    yield (
        f"Measured {day}: {os.cpu_count()} cores {platform.machine()}, {platform.system()}, "
        f"{platform.python_implementation()} {platform.python_version()}, {versions}; {rounds} rounds. "
        "Medians, in brackets smallest and largest."
    )
    yield ""
    yield "| line | ours | base | ratio | wanted (stretch) | reached |"
    yield "|---|---|---|---|---|---|"
    for one in results:
        yield f"| {one.line.name} | {' | '.join(_cells(one))} |"


def _cells(one: Result) -> tuple[str, ...]:
    line = one.line
    sign = "≥" if line.inverse else "≤"
    stretch = f" ({line.stretch:g})" if line.stretch is not None else ""
    wanted = f"{sign} {line.wanted:g}{stretch}" if line.wanted is not None else ""
    if one.refused:
        return "", "", one.refused, wanted, "not measured" if line.wanted else ""
    reached = {True: "yes", False: "**no**", None: ""}[one.reached]
    if one.reached and line.stretch is not None:
        past = one.middle >= line.stretch if line.inverse else one.middle <= line.stretch
        reached = "yes, stretch too" if past else reached
    shown = _spread(one.ratios, "exponent " if line.grows_by else "")
    if line.base is None:
        return _measures(one, one.ours), "", "", wanted, reached
    return _measures(one, one.ours), _measures(one, one.base), shown, wanted, reached


def _measures(one: Result, measured: Sequence[Measured]) -> str:
    unit = "s" if one.line.what == "cpu" else "MB"
    return f"{_spread([getattr(each, one.line.what) for each in measured])} {unit}"


def _spread(numbers: Sequence[float], before: str = "") -> str:
    middle = median(numbers)
    form = ".0f" if middle >= 100 else ".1f" if middle >= 10 else ".2f" if middle >= 0.2 else ".3f"
    return f"{before}{middle:{form}} ({min(numbers):{form}}–{max(numbers):{form}})"
