"""Long work shows how far it is on a terminal, and only there."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from appraise.progress import moved

DEMO = Path(__file__).parent.parent / "workbooks_demo" / "donation" / "donation.xlsx"


def on_a_terminal(out: Path, **settings: str) -> tuple[str, str]:
    """Run a report with its messages on a terminal; return the terminal's text and the standard output."""
    pty = pytest.importorskip("pty")  # there is none on Windows
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "appraise", "report", str(DEMO), "--out", str(out)]
    environment = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "TERM")}
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=theirs, env={**environment, **settings}, text=True
    ) as ran:
        os.close(theirs)
        assert ran.stdout is not None
        said = ran.stdout.read()
    assert ran.returncode == 0
    seen = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:
            break  # the other end is closed
        if not piece:
            break
        seen += piece
    os.close(ours)
    return seen.decode("utf-8"), said


@pytest.mark.parametrize(("settings", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False)])
def test_a_bar_is_drawn_and_wiped_out_again(tmp_path: Path, settings: dict[str, str], coloured: bool) -> None:
    seen, said = on_a_terminal(tmp_path, TERM="xterm", **settings)
    assert "Valuing item" in seen and "Writing item" in seen and "2 of 2" in seen
    assert ("\x1b[0m" in seen) is coloured
    assert seen.count("\x1b[?25l") == seen.count("\x1b[?25h") > 0  # the cursor is always given back
    assert seen.endswith("\x1b[2K")
    assert "\x1b" not in said and "of 2" not in said


def test_a_dumb_terminal_gets_plain_lines(tmp_path: Path) -> None:
    seen, _ = on_a_terminal(tmp_path, TERM="dumb")
    assert "\x1b" not in seen
    assert "Valuing item 1 of 2" in seen.split("\r\n")


@pytest.mark.parametrize(("total", "steps", "shown"), [(2, 4, 2), (4, 4, 4), (1000, 4, 4), (1000, 20, 20), (7, 20, 7)])
def test_it_is_shown_at_most_so_many_times_and_at_the_end(total: int, steps: int, shown: int) -> None:
    when = [done for done in range(1, total + 1) if moved(done, total, steps)]
    assert len(when) == shown
    assert when[-1] == total
