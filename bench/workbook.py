"""Writes one workbook to measure on, in a process of its own, so that the process that measures stays small."""

import argparse
from pathlib import Path

from bench.generate import write_workbook


def main() -> None:
    """Write the workbook."""
    parser = argparse.ArgumentParser(prog="python -m bench.workbook", description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("items", type=int)
    parser.add_argument("--photos", type=int, default=0)
    parser.add_argument("--camera", action="store_true", help="photographs as large as a camera makes them")
    asked = parser.parse_args()
    write_workbook(asked.file, asked.items, photos=asked.photos, camera=asked.camera)


if __name__ == "__main__":
    main()
