"""A report is written as it goes: what it needs of memory is bounded, and most of it does not grow with the items."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from appraise.jobs import compute
from bench.generate import write_workbook

#: Peak memory of a report of 300 items with its proof [MB], and what an item more adds to it. Measured on Linux x86_64
#: with Python 3.11: 83.4 to 83.6 at 300 items, 67.1 at 30, so 0.060 to 0.061 an item, the job as read; with all views
#: kept it was 0.082 to 0.083.
MOST, MOST_FOR_AN_ITEM = 105, 0.07
#: The C library moves these bounds as it goes, and then the peak moves by 4 MB from run to run [bytes].
_STEADY = {"MALLOC_MMAP_THRESHOLD_": "65536", "MALLOC_TRIM_THRESHOLD_": "65536"}
_REPORT = """
import sys
from datetime import date
from functools import partial
from pathlib import Path
from appraise.jobs import compute
from appraise.jobs.report import write_report
from appraise.report.engine import kept_code, section

sys.dont_write_bytecode = False
section.kept_code = partial(kept_code.kept_code, folder=Path(sys.argv[4]))
section.keep_code = partial(kept_code.keep_code, folder=Path(sys.argv[4]))
compute.MOST_KEPT = int(sys.argv[3])
done = write_report(Path(sys.argv[1]), Path(sys.argv[2]), draft=True, overwrite=True, today=date(2025, 3, 1))
assert done.written
print(next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM")))
"""


def peak_of_report(folder: Path, items: int, most_kept: int) -> float:
    """Return the largest resident size of a process that writes a report of so many items [MB].

    most_kept  the figures of jobs of at most so many items are kept once made

    Read by the process itself: what the kernel tells its parent begins with the parent's own size. Compiled templates
    are kept in `folder`, so that only the first report there needs the memory for compiling them.
    """
    book = write_workbook(folder / f"{items}.xlsx", items)
    command = [sys.executable, "-c", _REPORT, book, folder / f"out{items}", str(most_kept), folder / "kept"]
    steady = {**os.environ, **_STEADY}
    said = subprocess.run(command, check=True, capture_output=True, text=True, timeout=600, env=steady).stdout
    return int(said.split()[-1]) / 1000


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the peak is read as Linux tells it")
def test_the_memory_of_a_report_is_bounded(tmp_path: Path) -> None:
    _first, small, large = (peak_of_report(tmp_path, items, 0) for items in (1, 30, 300))
    assert large < MOST
    assert (large - small) / 270 < MOST_FOR_AN_ITEM


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the peak is read as Linux tells it")
def test_the_largest_report_whose_figures_are_kept_stays_below_the_same_bound(tmp_path: Path) -> None:
    _first, large = (peak_of_report(tmp_path, items, compute.MOST_KEPT) for items in (1, compute.MOST_KEPT))
    assert large < MOST
