"""Renders a kept report, from the ready view to the closed file."""

import sys
import time
from pathlib import Path

from appraise.report.engine import section
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.inspect import require_sound
from appraise.report.engine.render import render
from bench.say import say
from bench.texts import texts_of
from bench.views import read_view


def main(view: str, target: str, how: str = "at once") -> None:
    """Say the mark of the text and what it took.

    how  "at once": the view is loaded first; "streamed": item by item, for the memory; "checked": the structural
         check of the finished file counts too; "check": it alone; "anew": nothing kept of the templates is used
    """
    if how == "anew":
        section.kept_code = lambda *_: None  # type: ignore[assignment]
    composed = read_view(Path(view), at_once=how != "streamed")
    templates = TemplateFinder.with_own()
    begun = time.process_time()
    with Path(target).open("w+b") as stream:
        render(
            stream, composed.sections, composed.report, composed.items, templates=templates,
            properties=composed.properties, edges=composed.edges, draft=True,
        )  # fmt: skip
        begun = time.process_time() if how == "check" else begun
        if how in ("checked", "check"):
            require_sound(stream)
    took = time.process_time() - begun
    say(None if how == "streamed" else texts_of(Path(target)), took)


if __name__ == "__main__":
    main(*sys.argv[1:])
