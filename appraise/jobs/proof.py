"""Every figure of a job for its proof: those of the items one item at a time, those of the job as a whole."""

from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from appraise.dating.figures import record_window
from appraise.dating.result import Verdict
from appraise.jobs.compute import named
from appraise.jobs.examine import Examined
from appraise.jobs.report_inputs import earlier_totals, job_totals, with_bridge
from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.model.missing import given, value_or
from appraise.proof.book import Block, write_proof
from appraise.records.items import Item


def proof_name(path: Path) -> str:
    """Return the name of the proof of the job at `path`."""
    return f"{path.stem}-proof.xlsx"


def write_job_proof(stream: BinaryIO, examined: Examined) -> None:
    """Write the proof workbook of a job."""
    title = f"Proof of {examined.path.stem}"
    write_proof(stream, title, item_blocks(examined), [whole_block(examined)], examined.where)


def item_blocks(examined: Examined) -> Iterator[Block]:
    """Yield the figures of each item, one item at a time."""
    return (item_block(examined, item) for item in examined.job.items)


def item_block(examined: Examined, item: Item) -> Block:
    """Return the figures of one item: window of manufacture, opinions, steps between them."""
    computed, ledger = examined.computation.recorded(item)
    with_bridge(computed, ledger, value_or(examined.job.assignment.currency, ""))
    record_window(ledger, computed.window)
    under = ledger.under("window")
    if computed.window.verdict is not Verdict.CONFLICT:
        under.note("months", computed.window.outer.edtf())
    under.note("verdict", computed.window.verdict.printed)
    return Block(named(item), _title(item), ledger.figures)


def whole_block(examined: Examined) -> Block:
    """Return the figures of the job as a whole: totals, and what is worked out for all items together."""
    ledger = RecordingLedger("schedule")
    job_totals(ledger, examined, examined.job)
    earlier_totals(ledger, examined)
    return Block("schedule", "the job as a whole", {**examined.figures, **ledger.figures})


def job_figures(examined: Examined) -> Iterator[Figure]:
    """Yield every figure of a job in the order of its items, then those of the job as a whole."""
    for block in item_blocks(examined):
        yield from block.figures.values()
    yield from whole_block(examined).figures.values()


def _title(item: Item) -> str:
    return " ".join(str(one) for one in (item.maker, item.model) if given(one)) or value_or(item.description, "")
