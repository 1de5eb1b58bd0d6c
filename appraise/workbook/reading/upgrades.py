"""Older formats of the workbook: what was called otherwise then. One step for each format that was left."""

from collections.abc import Mapping
from dataclasses import field

from appraise.model.frozen import frozen


@frozen
class Step:
    """From one format to the next.

    tabs      today's sheet by the name it had then
    headings  by sheet (today's name): key of the column by the heading it had then, where the column itself does
              not declare it as a former heading
    """

    tabs: Mapping[str, str] = field(default_factory=dict)
    headings: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


#: The step that leads away from each older format. Format 1 is the first.
STEPS: Mapping[int, Step] = {}


def upgrade(found: int, to: int, steps: Mapping[int, Step] = STEPS) -> Step:
    """Return all steps from format `found` to format `to` as one; a format without a step is our own mistake."""
    tabs: dict[str, str] = {}
    headings: dict[str, dict[str, str]] = {}
    for number in range(found, to):
        step = steps[number]
        tabs.update(step.tabs)
        for sheet, names in step.headings.items():
            headings.setdefault(sheet, {}).update(names)
    return Step(tabs, headings)
