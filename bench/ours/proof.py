"""Writes the proof workbook of a job; computing its figures before it does not count."""

import sys
import time
from datetime import date
from pathlib import Path

from appraise.jobs.examine import examine
from appraise.jobs.proof import item_blocks, whole_block
from appraise.proof.book import write_proof
from bench.say import mark_of, say
from bench.written import written


def main(workbook: str, target: str) -> None:
    """Say the number and the mark of the cells, and what writing them took."""
    examined = examine(Path(workbook), today=date(2025, 3, 1))
    items, whole = list(item_blocks(examined)), [whole_block(examined)]
    begun = time.process_time()
    with Path(target).open("w+b") as stream:
        write_proof(stream, "Proof", items, whole, examined.where)
    took = time.process_time() - begun
    cells = [str(one) for one in written(Path(target))]
    say([len(cells), mark_of(cells)], took)


if __name__ == "__main__":
    main(*sys.argv[1:])
