"""The appraiser's track record: how values stood to the prices later paid, as a page of its own.

For the appraiser's own eyes; nothing of it stands in a client's report.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path

from appraise.files.atomic import write_whole
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.answers import Judged, counted, judge
from appraise.findings.entries import action, message
from appraise.findings.terminal import all_lines, count_line
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.missing import value_or
from appraise.model.place import Place
from appraise.model.rounding import round_half_away
from appraise.records.learning import LATER_SALES, LaterSale
from appraise.records.vocabulary import PriceKind, ValueType
from appraise.schedule.track_record import SMALL_SAMPLE, Group, track_record
from appraise.workbook.layout import LIBRARY_ROWS, Layout
from appraise.workbook.reading.csv_sheet import read_csv
from appraise.workbook.reading.read import read_job
from appraise.workbook.writing.page_file import PageBlock, PageTable, write_page

_HEADS = (
    "Type of value",
    "Kind of price",
    "Family",
    "Sales",
    "Median ratio",
    "Interval from",
    "Interval to",
    "Mean ratio",
    "Weighted mean",
    "COD",
    "PRD",
    "PRB",
)
_MEANING = (
    "Ratio = value reported ÷ price later brought. 1 means that they were equal; above 1 the value was higher.",
    "Interval: 95 percent interval of the median by ranks, exactly (sign test); it needs six sales. Weighted mean: sum "
    "of values ÷ sum of prices.",
    "COD: mean distance of the ratios from their median, in percent of it. PRD: mean ÷ weighted mean; above 1, dear "
    "items were valued low beside cheap ones. PRB: by how much the ratio changes, as a share of the median, when the "
    "price doubles. Definitions: IAAO, Standard on Ratio Studies (2013).",
    "The standard speaks of mass appraisal of real property; its ranges of acceptance are no measure for this trade.",
)
#: Added to the row numbers of the CSV file, beyond those of a library, so that a place says which file it is in.
_CSV_ROWS = 2 * LIBRARY_ROWS
_RETAIL = (ValueType.RETAIL_REPLACEMENT, ValueType.REPLACEMENT_COST_NEW)
_AUCTION = (PriceKind.HAMMER, PriceKind.ALL_IN)


@frozen
class TrackRecord:
    """What was made: the page, the groups in it, and what was found about the rows."""

    written: Path
    groups: tuple[Group, ...]
    sales: int
    judged: tuple[Judged, ...]
    layout: Layout
    csv: str = ""

    @property
    def open_stops(self) -> int:
        """Number of rows that cannot be used for a fault."""
        return sum(one.stops for one in self.judged)

    def where(self, place: Place) -> str:
        """Return a place as it is printed; a row of the CSV file by its name."""
        return f"{self.csv}, row {place.row - _CSV_ROWS}" if place.row > _CSV_ROWS else self.layout.cell(place)

    def lines(self) -> Iterator[str]:
        """Yield what was found, the count and where the page is."""
        yield from all_lines(self.judged, self.where)
        yield count_line(counted(self.judged))
        yield f"Track record of {self.sales} later sales: {self.written}"
        yield "For your own eyes: no report contains it."


def write_track_record(path: Path, page: Path, csv_file: Path | None, *, overwrite: bool) -> TrackRecord:
    """Write the track record of a job or library (sheet Later sales), with the rows of a CSV file if one is named.

    Raises UnusableFile where a file cannot be read, or the page may not be written.
    """
    if page.exists() and not overwrite:
        sentence = f"{page} is already there. Choose another name, or give --overwrite to replace it."
        raise UnusableFile(Trouble.EXISTS, page, sentence)
    read = read_job(path)
    rows: list[LaterSale] = list(read.job.later_sales)
    found: list[Finding] = [one for one in read.findings if one.place.sheet == LATER_SALES.name]
    if csv_file is not None:
        more = read_csv(csv_file, LATER_SALES, locale=value_or(read.job.assignment.workbook_locale, ""))
        rows += [_moved_row(one) for one in more.records]
        found += [_moved_finding(one) for one in more.findings]
    groups, about = track_record(rows)
    judged = judge(dict.fromkeys([*found, *about]), read.job.answers)
    judged = [one for one in judged if one.finding.place.sheet == LATER_SALES.name]
    written = write_whole(page, partial(write_page, title="Track record", blocks=_blocks(groups, judged)))
    used = sum(one.statistics.sales for one in groups if one.family is None)
    name = "" if csv_file is None else csv_file.name
    return TrackRecord(written, tuple(groups), used, tuple(judged), read.layout, name)


def _moved_row(row: LaterSale) -> LaterSale:
    return replace(row, row=row.row + _CSV_ROWS)


def _moved_finding(one: Finding) -> Finding:
    return replace(one, place=replace(one.place, row=one.place.row + _CSV_ROWS))


def _blocks(groups: Sequence[Group], judged: Sequence[Judged]) -> list[PageBlock]:
    table = PageTable(_HEADS, tuple(_row(one) for one in groups))
    blocks = [
        PageBlock("How to read it", _MEANING),
        PageBlock("Values against later prices", tuple(_cautions(groups)), table if groups else None),
    ]
    said = tuple(dict.fromkeys(f"{message(one.finding)} {action(one.finding)}" for one in judged))
    if said:
        blocks.append(PageBlock("About single rows", said))
    return blocks


def _cautions(groups: Sequence[Group]) -> Iterator[str]:
    if not groups:
        yield "No later sale can be used yet: type them on Later sales, or name a CSV file."
        return
    small = [one for one in groups if one.statistics.sales < SMALL_SAMPLE]
    if small:
        yield (
            f"{len(small)} of {len(groups)} rows rest on fewer than {SMALL_SAMPLE} sales (our default, no source): "
            "they say little, whatever their figures."
        )
    if any(one.value_type in _RETAIL and one.price_kind in _AUCTION for one in groups):
        yield (
            "Replacement values stand above auction prices by the nature of the two markets. Their ratios to such "
            "prices measure that distance, not the appraiser."
        )
    yield (
        "What is sold is no fair sample of what is appraised, and the market moves between the value and the sale: "
        "compare values with sales soon after."
    )


def _row(group: Group) -> tuple[str | Decimal | int | None, ...]:
    one = group.statistics
    return (
        str(group.value_type),
        str(group.price_kind),
        "all families" if group.family is None else str(group.family),
        one.sales,
        _rounded(one.median),
        _rounded(one.median_low),
        _rounded(one.median_high),
        _rounded(one.mean),
        _rounded(one.weighted),
        _rounded(one.cod, 1),
        _rounded(one.prd),
        _rounded(one.prb),
    )


def _rounded(value: Decimal | None, places: int = 3) -> Decimal | None:
    return None if value is None else round_half_away(value, places)
