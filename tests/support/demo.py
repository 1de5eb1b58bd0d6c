"""The demonstration jobs for tests: where they are, what their sources say, how their pictures are drawn."""

import sys
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
if str(REPOSITORY) not in sys.path:
    sys.path.insert(0, str(REPOSITORY))

from workbooks_demo.drawings import draw_photo  # noqa: E402
from workbooks_demo.make import make_workbook, workbook_of  # noqa: E402
from workbooks_demo.sources import job_folders, read_job, read_rows  # noqa: E402

__all__ = ["REPOSITORY", "draw_photo", "job_folders", "make_workbook", "read_job", "read_rows", "workbook_of"]
