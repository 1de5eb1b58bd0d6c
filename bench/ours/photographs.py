"""Makes the printable copies of all photographs of a workbook, or finds them kept from the run before."""

import sys
import time
from datetime import date
from pathlib import Path

from appraise.jobs.examine import examine
from appraise.jobs.report_inputs import prepared_photos
from bench.say import mark_of, say


def main(workbook: str, keep_in: str) -> None:
    """Say the mark of the copies and what making or finding them took."""
    examined = examine(Path(workbook), today=date(2025, 3, 1))
    begun = time.process_time()
    photos, faults = prepared_photos(examined, Path(keep_in))
    took = time.process_time() - begun
    say([len(faults), mark_of(one.sha256 for item in photos.values() for one in item)], took)


if __name__ == "__main__":
    main(*sys.argv[1:])
