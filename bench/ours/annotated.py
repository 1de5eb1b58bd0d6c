"""Writes the annotated copy of a workbook with so many findings; reading and checking before it do not count."""

import sys
import time
from datetime import date
from itertools import islice
from pathlib import Path

from appraise.jobs.examine import examine
from appraise.workbook.marking.annotate import annotate
from bench.say import say


def main(workbook: str, target: str, findings: str) -> None:
    """Say how many findings the copy tells, and what writing it took."""
    examined = examine(Path(workbook), today=date(2025, 3, 1))
    chosen = list(islice((one for one in examined.judged if one.open), int(findings)))
    begun = time.process_time()
    with Path(target).open("w+b") as stream:
        done = annotate(Path(workbook), stream, chosen, examined.layout)
    say(done.findings, time.process_time() - begun)


if __name__ == "__main__":
    main(*sys.argv[1:])
