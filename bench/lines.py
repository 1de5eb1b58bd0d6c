"""The lines of the table: what of ours is measured against which base, and which ratio is wanted."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise, zip_longest
from math import log
from pathlib import Path
from typing import Any, Literal

from bench.child import Measured, python, run
from bench.inputs import PHOTOS, Inputs
from bench.written import written

Command = tuple[str, ...]
Gate = Callable[[Any, Any], bool]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table.

    ours, base  commands run one after the other in every round; without a base the line only tells what it takes
    what        which measure is compared
    wanted      the ratio must not be above it; below it, where the ratio is inverse
    stretch     what would be better still
    grows_by    growth from base to ours: how many times as large ours is; the "ratio" is then the exponent
    same        says whether the two answers agree; the line does not count where they do not
    first       folder removed before the base, which here is the first of two runs
    inverse     base divided by ours
    """

    name: str
    ours: Command
    base: Command | None = None
    what: Literal["cpu", "memory"] = "cpu"
    wanted: float | None = None
    stretch: float | None = None
    grows_by: float = 0
    same: Gate | None = None
    first: Path | None = None
    inverse: bool = False


def lines(inputs: Inputs, sizes: tuple[int, ...]) -> list[Line]:
    """Return the lines for these sizes in percent of 10,000 items; reports of 1,000 and more need 10 or 100."""
    large = max(sizes)
    made = [*_starting(inputs)]
    for size in sizes:
        made += _checking(inputs, size, wanted=size == large)
    for smaller, larger in pairwise(sizes):
        made += _growth(inputs, smaller, larger)
    made += _rendering(inputs, large)
    made += _photographs(inputs)
    made += _beside(inputs)
    return made


def appraise(*arguments: object) -> Command:
    """Return a command of the program."""
    return python("-m", "appraise", *arguments)


def _starting(inputs: Inputs) -> list[Line]:
    nothing = python("-c", "pass")
    three = inputs.workbook(3)
    return [
        Line("appraise --version / python -c pass", appraise("--version"), nothing, wanted=4, stretch=3),
        Line("check of 3 items / python -c pass", appraise("check", three), nothing, wanted=25, stretch=12),
    ]


def _checking(inputs: Inputs, size: int, *, wanted: bool) -> list[Line]:
    book = inputs.workbook(size * 100)
    rows = "bench.bases.openpyxl_rows"
    check, calamine = appraise("check", book), python("-m", "bench.bases.calamine_rows", book)
    cells = Cells(book)
    limits: dict[str, Any] = {"wanted": 1.0, "stretch": 0.7} if wanted else {}
    memory: dict[str, Any] = {"wanted": 0.35, "stretch": 0.25} if wanted else {}
    dating: dict[str, Any] = {"wanted": 0.25} if wanted else {}
    return [
        Line(
            f"{size} %: check / openpyxl read-only",
            check,
            python("-m", rows, book),
            same=cells.gate("values"),
            **limits,
        ),
        Line(
            f"{size} %: check's memory / openpyxl normal",
            check,
            python("-m", "bench.bases.openpyxl_whole", book),
            what="memory",
            same=cells.gate("typed"),
            **memory,
        ),
        Line(f"{size} %: check / calamine", check, calamine, same=cells.gate("not empty")),
        Line(
            f"{size} %: dating / openpyxl read-only, sheet Evidence",
            python("-m", "bench.ours.dating", book),
            python("-m", rows, book, "Evidence"),
            same=lambda ours, base: ours[0] == ours[1] == size * 100 and base > 0,
            **dating,
        ),
    ]


class Cells:
    """The gate of reading: our cells equal openpyxl's one by one, and the base met as many. Looked at once."""

    def __init__(self, book: Path) -> None:
        self._book = book
        self._counts: dict[str, int] = {}

    def gate(self, which: str) -> Gate:
        """Return the gate for a base that counts values, what is typed, or what is not empty."""

        def same(_: Any, base: Any) -> bool:
            if not self._counts:
                self._counts.update(run(python("-m", "bench.ours.cells", self._book)).answer)
            return bool(self._counts[which] == base)

        return same


def _growth(inputs: Inputs, smaller: int, larger: int) -> list[Line]:
    commands = (appraise("check", inputs.workbook(size * 100)) for size in (larger, smaller))
    wanted = 1.05 if larger == 100 else None
    return [Line(f"check, growth {smaller} % to {larger} %", *commands, wanted=wanted, grows_by=larger / smaller)]


def _rendering(inputs: Inputs, large: int) -> list[Line]:
    counts = [10, 100, *([1000] if large >= 10 else []), *([5000] if large >= 100 else [])]
    views = {count: inputs.view(count) for count in counts}

    def rendered(count: int, *how: str) -> Command:
        return python("-m", "bench.ours.render", views[count], inputs.scratch(f"ours-{count}.docx"), *how)

    def based(module: str, count: int, view: Path | None = None) -> Command:
        target = inputs.scratch(f"{module}-{count}.docx")
        return python("-m", f"bench.bases.{module}", view or views[count], target)

    made = []
    for count in counts:
        limits: dict[str, Any] = {"wanted": 2.5, "stretch": 1.6} if count == 1000 else {}
        name = f"rendering {count:,} items / floor"
        made.append(Line(name, rendered(count), based("floor_report", count), same=_equal, **limits))
        with_check = f"rendering and structural check, {count:,} items / floor"
        made.append(Line(with_check, rendered(count, "checked"), based("floor_report", count), same=_equal))
        book, out = inputs.workbook(count, photos=PHOTOS), inputs.scratch(f"whole-{count}")
        whole = appraise("report", book, "--draft", "--out", out)
        made.append(Line(f"whole report with its proof, {count:,} items, small photographs", whole))
    for count in (10, 100):
        name = f"docxtpl / rendering, {count} items, small photographs"
        made.append(Line(name, rendered(count), based("docxtpl_report", count), same=_equal, inverse=True))
    anew = rendered(100, "anew")
    name = "rendering 100 items, templates compiled anew / floor"
    made.append(Line(name, anew, based("floor_report", 100), same=_equal))
    name = "docxtpl / rendering, 100 items, small photographs, templates compiled anew"
    made.append(Line(name, anew, based("docxtpl_report", 100), same=_equal, inverse=True))
    camera = inputs.view(100, camera=True)
    name = "docxtpl / rendering, 100 items, photographs as a camera makes them"
    ours = python("-m", "bench.ours.render", camera, inputs.scratch("camera.docx"))
    base = based("docxtpl_report", 100, camera)
    made.append(Line(name, ours, base, same=_equal, inverse=True, wanted=10, stretch=15))
    name += ", templates compiled anew"
    made.append(Line(name, (*ours, "anew"), base, same=_equal, inverse=True))
    for smaller, larger in pairwise(counts[1:]):
        name = f"rendering, growth {smaller:,} to {larger:,} items"
        made.append(Line(name, rendered(larger), rendered(smaller), wanted=1.08, grows_by=larger / smaller))
    if large >= 100:
        name = "rendering, memory at 5,000 items / at 100"
        streamed = [rendered(count, "streamed") for count in (5000, 100)]
        made.append(Line(name, *streamed, what="memory", wanted=2))
    return made


def _photographs(inputs: Inputs) -> list[Line]:
    book = inputs.workbook(100, photos=PHOTOS, camera=True)
    kept, out = inputs.scratch("kept"), inputs.scratch("report")
    copies = python("-m", "bench.ours.photographs", book, kept)
    whole = appraise("report", book, "--draft", "--out", out)
    name = "100 items, photographs of a camera"
    return [
        Line(f"copies of photographs, second run / first, {name}", copies, copies, same=_equal, first=kept),
        Line(f"whole report, second run / first, {name}", whole, whole, wanted=1 / 8, first=out),
    ]


def _beside(inputs: Inputs) -> list[Line]:
    book, marked = inputs.workbook(1000), inputs.scratch("marked.xlsx")
    copy = python("-m", "bench.ours.annotated", book, marked, 1000)
    repacked = python("-m", "bench.bases.repack", book, inputs.scratch("repacked.xlsx"))
    job, made, floor = inputs.workbook(100), inputs.scratch("proof.xlsx"), inputs.scratch("floor-proof.xlsx")
    proof = python("-m", "bench.ours.proof", job, made)
    strings = python("-m", "bench.bases.floor_proof", inputs.proof(100), floor)
    return [
        Line("annotated copy, 1,000 findings / repack", copy, repacked, wanted=1.2, same=_marked_gate(book, marked)),
        Line("proof, 100 items / floor", proof, strings, wanted=4.5, same=_equal),
    ]


def _marked_gate(book: Path, marked: Path) -> Gate:
    """Return the gate of the annotated copy: all findings are told and every cell is as it was."""

    def same(ours: Any, _: Any) -> bool:
        return ours == 1000 and all(one == other for one, other in zip_longest(written(book), written(marked)))

    return same


def _equal(ours: Any, base: Any) -> bool:
    return bool(ours == base)


def ratio(line: Line, ours: Measured, base: Measured) -> float:
    """Return the ratio of one round, or the exponent of growth."""
    one, other = (getattr(measured, line.what) for measured in (ours, base))
    if line.grows_by:
        return log(one / other) / log(line.grows_by)
    return float(other / one if line.inverse else one / other)
