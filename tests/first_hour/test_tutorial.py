"""docs/tutorial.md, gone through as it says: every command run, every output as it is shown."""

import re
import shlex
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from support.typed_pages import fill, type_over

ROOT = Path(__file__).parents[2]
TUTORIAL = (ROOT / "docs" / "tutorial.md").read_text("utf-8")
ENTRIES = ROOT / "tests" / "first_hour" / "flat_top.toml"


def blocks() -> Iterator[tuple[str, str]]:
    """Yield the language and the text of each block in order, indented ones (excerpts of an output) as ""."""
    for found in re.finditer(r"^```(\w+)\n(.*?)^```$|((?:^ {4}[^\n]*\n)+)", TUTORIAL, re.MULTILINE | re.DOTALL):
        yield (found[1], found[2]) if found[1] else ("", found[3])


def typed_with_a_slip(book: Path) -> None:
    fill(book, ENTRIES, but="Answers")
    type_over(book, "Sales", "S3", "Date", "2025-02-30")


def put_right(book: Path) -> None:
    type_over(book, "Sales", "S3", "Date", date(2025, 2, 20))
    fill(book, ENTRIES, only="Answers")


def test_each_command_prints_what_is_shown(tmp_path: Path) -> None:
    # What the reader does by hand before the command of that number.
    by_hand: dict[int, Callable[[Path], None]] = {1: typed_with_a_slip, 2: put_right}
    commands = 0
    printed = ""
    for language, text in blocks():
        if language == "sh":
            if commands in by_hand:
                by_hand[commands](tmp_path / "farrant.xlsx")
            program, *arguments = shlex.split(text)
            assert program == "appraise"
            ran = subprocess.run(
                [sys.executable, "-m", "appraise", *arguments],
                capture_output=True,
                text=True,
                cwd=tmp_path,
                check=False,
            )
            assert ran.stderr == ""
            printed = ran.stdout
            commands += 1
        elif language == "text":
            assert printed == text
        else:
            excerpt = [line.strip() for line in text.splitlines()]
            assert excerpt and [line for line in excerpt if line not in printed.splitlines()] == []
    assert commands == 5
    assert (tmp_path / "farrant" / "farrant-report.docx").is_file()
    assert "2025-02-30" in TUTORIAL and "2025-02-20" in TUTORIAL and "28,200 dollars" in TUTORIAL
