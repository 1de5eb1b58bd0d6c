"""One interleaved run: every line once a round, ours and base one after the other, so that noise meets both alike."""

import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from math import isnan
from statistics import median

from bench.child import FailedRunError, Measured, python, run
from bench.lines import Line, ratio

Say = Callable[[str], None]


@dataclass(slots=True)
class Result:
    """What a line came to: the measures of each round, ratios of those rounds in which the answers agreed."""

    line: Line
    ours: list[Measured] = field(default_factory=list)
    base: list[Measured] = field(default_factory=list)
    ratios: list[float] = field(default_factory=list)
    refused: str = ""

    @property
    def middle(self) -> float:
        """The median of the ratios."""
        return median(self.ratios)

    @property
    def reached(self) -> bool | None:
        """Whether the wanted ratio is reached; None where none is wanted or nothing could be measured."""
        if self.line.wanted is None or not self.ratios:
            return None
        return self.middle >= self.line.wanted if self.line.inverse else self.middle <= self.line.wanted


def measure(lines: Sequence[Line], rounds: int, say: Say) -> Iterator[list[Result]]:
    """Yield the results of all lines after each round, the same list every time."""
    run(python("-m", "compileall", "-q", "appraise", "bench"))
    results = [Result(line) for line in lines]
    for number in range(1, rounds + 1):
        known: dict[tuple[str, ...], Measured] = {}
        for result in results:
            if result.refused:
                continue
            try:
                _once(result, known)
            except FailedRunError as failed:
                result.refused = str(failed)
            last = f"{result.ratios[-1]:.2f}" if result.ratios else result.refused
            say(f"  round {number}: {result.line.name}: {last}")
        yield results


def _once(result: Result, known: dict[tuple[str, ...], Measured]) -> None:
    """Measure a line once; a command that stands in several lines runs once a round."""
    line = result.line
    if line.first is not None:
        shutil.rmtree(line.first, ignore_errors=True)
        base, ours = run(line.base or line.ours), run(line.ours)
    else:
        for command in (line.ours, *([line.base] if line.base else [])):
            if command not in known:
                known[command] = run(command)
        ours, base = known[line.ours], known[line.base or line.ours]
    if line.same is not None and not line.same(ours.answer, base.answer):
        result.refused = f"the answers differ: {ours.answer} and {base.answer}"
        return
    if line.what == "memory" and isnan(ours.memory + base.memory):
        result.refused = "the process that starts the measured one is larger than it"
        return
    result.ours.append(ours)
    result.base.append(base)
    result.ratios.append(ratio(line, ours, base))
