"""How long work shows on a terminal how far it is: a bar, or plain lines; nothing where the output is piped.

The bar leaves nothing behind. It is drawn anew only where it moves by a twentieth, and where the terminal calls itself
dumb (TERM=dumb) four plain lines are written instead, for those who have the screen read to them. Colours follow
NO_COLOR.
"""

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from rich.progress import Progress

#: What is being done, how much of it is done, of how much.
Show = Callable[[str, int, int], None]

_STEPS_OF_BAR, _LINES = 20, 4


def shown_progress() -> Show | None:
    """Return what shows progress on this terminal until the command ends, None where the output is piped."""
    if not sys.stderr.isatty():
        return None
    if os.environ.get("TERM", "").lower() in ("dumb", "unknown"):
        return _show_lines
    bar = _Bar()
    click.get_current_context().call_on_close(bar.close)
    return bar.show


def moved(done: int, total: int, steps: int) -> bool:
    """Return whether with the last piece done the work came by one of so many steps further."""
    return done * steps // total > (done - 1) * steps // total


def _show_lines(what: str, done: int, total: int) -> None:
    if total > 1 and moved(done, total, _LINES):
        click.echo(f"{what} {done} of {total}", err=True)


class _Bar:
    """One bar for each kind of work, begun with its first piece and wiped out with its last."""

    def __init__(self) -> None:
        self._progress: Progress | None = None

    def show(self, what: str, done: int, total: int) -> None:
        if total < 2:
            return
        if self._progress is None:
            self._progress = _begun(what, total)
        if moved(done, total, _STEPS_OF_BAR):
            self._progress.update(self._progress.task_ids[0], completed=done, refresh=True)
        if done == total:
            self.close()

    def close(self) -> None:
        """Wipe the bar out, also after a fault."""
        if self._progress is not None:
            self._progress.stop()
            self._progress = None


def _begun(what: str, total: int) -> "Progress":
    # Slow to load, and needed on terminals only.
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    begun = Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        TextColumn("{task.completed:.0f} of {task.total:.0f}"),
        console=Console(stderr=True),
        auto_refresh=False,
        transient=True,
        redirect_stdout=False,
        redirect_stderr=False,
    )
    begun.add_task(what, total=total)
    begun.start()
    return begun
