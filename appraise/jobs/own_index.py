"""Indexes from the appraiser's own repeat sales: rows for the library's sheet Indexes, and what they rest on.

The library is never changed: the rows are written to a workbook of their own, laid out like the library's, to be copied
there. Nothing is drawn on before the first or after the last period sold in.
"""

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from appraise.files.atomic import write_whole
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.answers import Judged, counted, judge
from appraise.findings.terminal import all_lines, count_line
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.missing import BLANK, given
from appraise.records.declare import place_of
from appraise.records.learning import REPEAT_SALES, RepeatSale
from appraise.records.tables import IndexPoint
from appraise.valuing.repeat_sales import (
    FEW_PAIRS,
    RepeatSalesIndex,
    Unconnected,
    geometric_index,
    index_rows,
    period_text,
    resale_pairs,
    unconnected_finding,
)
from appraise.workbook.layout import Layout
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.page_file import PageBlock, PageCell, PageTable, write_page
from appraise.workbook.writing.write import write_tables

_HEADS = ("Period", "Index", "Standard error", "Sales in the period", "Remark")
_MEANING = (
    "Geometric repeat-sales index: least squares of the logarithms of the price relatives (Bailey, Muth and Nourse, "
    "Journal of the American Statistical Association 58, 1963). The first period sold in is the base, 100.",
    "Objects that changed between their two sales are not used. The index moves with the objects that came up twice; "
    "what never comes up again is not in it.",
    "Nothing is said of a period before the first or after the last: type 'carry last figure' yourself if you mean it.",
)


@frozen
class OwnIndexes:
    """What was made: the workbook with the rows, the page beside it, and what was found about the pairs."""

    written: Path
    page: Path
    indexes: dict[str, RepeatSalesIndex]
    judged: tuple[Judged, ...]
    layout: Layout

    @property
    def open_stops(self) -> int:
        """Number of faults that keep a pair or an index out."""
        return sum(one.stops for one in self.judged)

    def lines(self) -> Iterator[str]:
        """Yield what was found, the count, what each index rests on and where all stands."""
        yield from all_lines(self.judged, self.layout.cell)
        yield count_line(counted(self.judged))
        for name, index in self.indexes.items():
            yield f"{name}: {index.pairs} pairs, {len(index.periods)} periods, {len(index.gaps)} without a sale."
        yield f"Rows for the sheet Indexes: {self.written}"
        yield f"What they rest on: {self.page}"


def write_own_indexes(path: Path, target: Path, *, months: int, overwrite: bool) -> OwnIndexes:
    """Write an index for each index id on Repeat sales of a job or library.

    months  length of a period: 12, 6, 3 or 1
    target  workbook with the rows; the page stands beside it, its name ending in `-basis.xlsx`
    Raises UnusableFile where a file cannot be read or may not be written.
    """
    page = target.with_name(f"{target.stem}-basis.xlsx")
    for one in (target, page):
        if one.exists() and not overwrite:
            sentence = f"{one} is already there. Choose another name, or give --overwrite to replace it."
            raise UnusableFile(Trouble.EXISTS, one, sentence)
    read = read_job(path)
    grouped: dict[str, list[RepeatSale]] = {}
    for row in read.job.repeat_sales:
        if given(row.index):
            grouped.setdefault(row.index, []).append(row)
    found: list[Finding] = [one for one in read.findings if one.place.sheet == REPEAT_SALES.name]
    indexes: dict[str, RepeatSalesIndex] = {}
    for name, rows in grouped.items():
        pairs, about = resale_pairs(rows, months=months)
        found += about
        index = geometric_index(pairs)
        if isinstance(index, Unconnected):
            found.append(
                unconnected_finding(place_of(REPEAT_SALES, rows[0], "index"), name, index.groups, months=months)
            )
        elif index is not None:
            indexes[name] = index
    points = [
        point for name, index in indexes.items() for point in index_rows(index, name, months=months, market=BLANK)
    ]
    written = write_tables(target, {"indexes": [_typed(one) for one in points]})
    blocks = [PageBlock("How to read it", _MEANING), *(_block(name, one, months) for name, one in indexes.items())]
    page = write_whole(page, partial(write_page, title="Own indexes", blocks=blocks))
    judged = [
        one for one in judge(dict.fromkeys(found), read.job.answers) if one.finding.place.sheet == REPEAT_SALES.name
    ]
    return OwnIndexes(written, page, indexes, tuple(judged), read.layout)


def _typed(point: IndexPoint) -> dict[str, object]:
    return {name: getattr(point, name) for name in IndexPoint.__dataclass_fields__ if name != "row"}


def _block(name: str, index: RepeatSalesIndex, months: int) -> PageBlock:
    """Return what one index rests on: pairs, errors, periods that rest on few sales, gaps."""
    first, last = index.periods[0].period, index.periods[-1].period
    figures = {one.period: one for one in index.periods}
    rows: list[tuple[PageCell, ...]] = []
    for period in range(first, last + 1):
        one = figures.get(period)
        label = period_text(period, months=months)
        if one is None:
            rows.append((label, None, None, 0, "no sale: no figure"))
            continue
        remark = "base" if period == first else "few sales" if one.pairs < FEW_PAIRS else ""
        rows.append((label, one.figure, one.error, one.pairs, remark))
    sentences = [f"{index.pairs} pairs, {len(index.periods)} periods with a sale, {len(index.gaps)} without."]
    if all(one.error is None for one in index.periods):
        sentences.append("There are as many figures to find as pairs: no standard error can be given.")
    sentences += list(_doubts(index))
    return PageBlock(name, tuple(sentences), PageTable(_HEADS, tuple(rows)))


def _doubts(index: RepeatSalesIndex) -> Sequence[str]:
    few = [one for one in index.periods if one.pairs < FEW_PAIRS]
    if not few:
        return ()
    return (f"{len(few)} periods rest on fewer than {FEW_PAIRS} sales (our default, no source).",)
