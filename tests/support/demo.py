"""The demonstration jobs for tests: where they are and what their sources say."""

import sys
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
if str(REPOSITORY) not in sys.path:
    sys.path.insert(0, str(REPOSITORY))

from workbooks_demo.sources import job_folders, read_job, read_rows  # noqa: E402

__all__ = ["REPOSITORY", "job_folders", "read_job", "read_rows"]
