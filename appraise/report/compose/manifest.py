"""Which sections a report has, in order."""

from appraise.records.vocabulary import Use
from appraise.report.engine.views import SectionUse
from appraise.rules.uses import use_rules

#: Sections that are only there when they have something to say.
_OPEN_POINTS = "open_points"
ANSWERED = "answered"
#: The findings answered in writing stand before anything is certified.
_BEFORE_CERTIFYING = "certification"


def sections(use: Use, draft: bool, silent: frozenset[str]) -> tuple[SectionUse, ...]:
    """Return the section templates of a report in order.

    draft   the open points stand at the front of a draft, and nowhere in a final report
    silent  names of sections that have nothing to say
    """
    names = [name for name in use_rules(use).sections if draft or name != _OPEN_POINTS]
    if ANSWERED not in names:
        names.insert(names.index(_BEFORE_CERTIFYING), ANSWERED)
    names = [name for name in names if name not in silent]
    return tuple(SectionUse(name, per_item=name == "item") for name in names)
