"""Writes the proof workbook, block by block, so that only one block is in memory at a time.

Figures may name figures of an earlier block as arguments (a total names the opinions of the items) if they are
announced: of all others only the block being written is known. Formulas come from the ledger's operations alone.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime
from tempfile import TemporaryDirectory
from typing import Any, BinaryIO

import xlsxwriter

from appraise.model.figure import Figure
from appraise.model.frozen import frozen
from appraise.model.operations import OPERATIONS
from appraise.model.place import Place
from appraise.proof.line import OVER_RANGES, constant, ranges, what
from appraise.proof.page import LIVE, Looks, Page
from appraise.proof.stages import STAGES, Stage, stage_of
from appraise.proof.summary import NAME, write_summary

_FIXED_TIME = datetime(2000, 1, 1)  # noqa: DTZ001 - stands in the file's properties; a clock would change the bytes
#: A sheet has 1,048,576 rows; a stage that needs more goes on on a further sheet.
MOST_ROWS = 1_000_000
#: A formula has 8,192 signs at most.
_LONGEST_FORMULA = 8_000


@frozen
class Block:
    """The figures of one item, or of the job as a whole, by id in the order made."""

    name: str
    title: str
    figures: Mapping[str, Figure]


@frozen
class Spot:
    """Where a figure stands, and what its cell holds."""

    sheet: str
    row: int
    value: float | str


def write_proof(
    stream: BinaryIO,
    title: str,
    items: Iterable[Block],
    whole: Sequence[Block],
    where: Callable[[Place], str],
    *,
    most_rows: int = MOST_ROWS,
) -> None:
    """Write the proof. The same blocks give the same bytes.

    items  one at a time; each names only its own figures
    whole  of the job as a whole, written last; they may name figures of any item and of one another
    where  how a place is printed (`Sales!F12`)
    """
    announced = frozenset(one for block in whole for figure in block.figures.values() for one in figure.arguments)
    with _new_book(stream) as book:
        proof = _Proof(book, title, where, announced, most_rows)
        for block in items:
            proof.write(block)
        for block in whole:
            proof.write(block)
        proof.close()


@contextmanager
def _new_book(stream: BinaryIO) -> Iterator[Any]:
    """Yield a new workbook. Its rows wait in files of their own: whatever happens, these are closed and deleted."""
    with TemporaryDirectory(prefix="appraise-") as folder:
        book = xlsxwriter.Workbook(
            stream,
            {
                "constant_memory": True,
                "tmpdir": folder,
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
            },
        )
        try:
            yield book
        finally:
            for page in book.worksheets():
                if page.row_data_fh is not None:
                    page.row_data_fh.close()


class _Proof:
    def __init__(
        self,
        book: Any,
        title: str,
        where: Callable[[Place], str],
        announced: frozenset[str],
        most_rows: int,
    ) -> None:
        self._book = book
        self._book.set_properties({"title": title[:255], "created": _FIXED_TIME})
        self._title, self._where, self._most_rows = title, where, most_rows
        self._looks = Looks(self._book)
        self._summary = self._book.add_worksheet(NAME)
        self._pages = {stage: [Page(self._book, stage.sheet, stage.title, self._looks)] for stage in STAGES}
        self._announced = announced
        self._kept: dict[str, Spot] = {}
        self._spots: dict[str, Spot] = {}

    def write(self, block: Block) -> None:
        """Write the lines of one block on their sheets, in the order in which the figures were made."""
        self._spots = {}
        for figure in block.figures.values():
            page = self._page(stage_of(figure))
            page.head(block, block.name, block.title)
            self._line(page, figure, block.name)
            spot = Spot(page.name, page.row, constant(figure))
            self._spots[figure.id] = spot
            if figure.id in self._announced:
                self._kept[figure.id] = spot

    def _line(self, page: Page, figure: Figure, scope: str) -> None:
        months = "window" in figure.id.split(".")
        sentence = what(figure, scope)
        if figure.operation in ("typed", "noted"):
            page.constant(figure, sentence, "; ".join(map(self._where, figure.places)), months=months)
            return
        spots = [self._spots.get(one) or self._kept[one] for one in figure.arguments]
        formula = _formula(figure, spots, page)
        if len(formula) > _LONGEST_FORMULA:
            formula = _formula(figure, self._brought_near(figure, spots, page), page)
        if len(formula) > _LONGEST_FORMULA:
            page.constant(figure, f"{sentence} (longer than a formula may be)", "", months=months)
        else:
            page.live(figure, sentence, formula, months=months)

    def _brought_near(self, figure: Figure, spots: Sequence[Spot], page: Page) -> list[Spot]:
        """Write the arguments of a figure one below the other on its own sheet and return where they stand there.

        A sum over thousands of items would be longer than a formula may be; over a range of cells it is short.
        """
        near: dict[str, Spot] = {}
        for one, spot in zip(figure.arguments, spots, strict=True):
            if one not in near or figure.operation in OVER_RANGES:
                page.carried(one, f"{spot.sheet}!{LIVE}{spot.row}", spot.value)
                near[one] = Spot(page.name, page.row, spot.value)
        return [near[one] for one in figure.arguments]

    def _page(self, stage: Stage) -> Page:
        pages = self._pages[stage]
        if pages[-1].row >= self._most_rows:
            pages.append(Page(self._book, f"{stage.sheet}_{len(pages) + 1}", stage.title, self._looks))
        return pages[-1]

    def close(self) -> None:
        """Write the summary and finish the file."""
        pages = [page for stage in STAGES for page in self._pages[stage]]
        for page in pages:
            page.close()
        write_summary(self._summary, self._looks, self._title, pages)
        self._book.close()


def _formula(figure: Figure, spots: Sequence[Spot], page: Page) -> str:
    cells = [(one.sheet, one.row) for one in spots]
    if figure.operation in OVER_RANGES:
        references = ranges(cells, LIVE, page.name)
    else:
        references = [one for cell in cells for one in ranges([cell], LIVE, page.name)]
    return OPERATIONS[figure.operation].rounded_formula(references, figure.kind.places)
