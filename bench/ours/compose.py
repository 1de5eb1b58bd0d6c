"""Composes the report of a workbook and keeps it, with its printable photographs, for the measured renderings."""

import sys
import time
from datetime import date
from pathlib import Path

from appraise.jobs.examine import examine
from appraise.jobs.report_inputs import prepared_photos, report_inputs
from appraise.report.compose.report import compose
from bench.say import say
from bench.views import write_view


def main(workbook: str, view: str) -> None:
    """Say the number of items and what composing took."""
    examined = examine(Path(workbook), today=date(2025, 3, 1))
    photos, _ = prepared_photos(examined, Path(workbook).parent / "prepared")
    begun = time.process_time()
    count = write_view(Path(view), compose(report_inputs(examined, photos, draft=True)))
    say(count, time.process_time() - begun)


if __name__ == "__main__":
    main(*sys.argv[1:])
