"""Dates every item of a workbook; the reading before it does not count."""

import sys
import time
from datetime import date
from pathlib import Path

from appraise.jobs.compute import Computation
from appraise.workbook.reading.read import read_job
from bench.say import mark_of, say


def main(file: str) -> None:
    """Say the mark of all windows and what dating took."""
    computation = Computation(read_job(Path(file)).job, today=date(2025, 3, 1))
    begun = time.process_time()
    windows = [computation.date(item).outer for item in computation.job.items]
    took = time.process_time() - begun
    say([len(windows), sum(map(bool, windows)), mark_of(one.edtf() for one in windows)], took)


if __name__ == "__main__":
    main(*sys.argv[1:])
