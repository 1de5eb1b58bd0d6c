"""The accepted wordings nearest to one that was refused. They are proposed, never used."""

import re
from collections.abc import Callable
from difflib import SequenceMatcher

from appraise.dating.settings import Settings

_PROPOSED = 3

#: Words people use for the accepted ones; replaced to find a proposal.
_SAYINGS = (
    (r"\b(around|roughly|approximately|approx\.?|ca?\.? about|probably|maybe|possibly)\b", "about"),
    (r"\b(beginning|start)( of)?( the)?\b", "early"),
    (r"\bend( of)?( the)?\b", "late"),
    (r"\b(middle)( of)?( the)?\b", "mid"),
    (r"\b(later than)\b", "after"),
    (r"\b(earlier than)\b", "before"),
    (r"\b(\d{4})\s*(\?|~|%)$", r"about \1"),
    (r"^(\d{3})x$", r"\g<1>0s"),
    (r"^(\d{2})xx$", r"\g<1>00-\g<1>99"),
    (r"^(\d{4})-(\d\d)~$", r"\1-\2"),
    (r"^(\d\d)$", r"'\1"),
    (r"^(\d{2}(\d)\d) ?- ?(\d)$", r"\1-\2\3"),
    (r"^(\d{2})(\d\d) ?- ?(\d\d)$", r"\1\2-\1\3"),
)
_ONE_YEAR = (
    "{y}",
    "about {y}",
    "early {y}",
    "mid {y}",
    "late {y}",
    "before {y}",
    "after {y}",
    "until {y}",
    "through {y}",
    "from {y}",
    "{y} or later",
    "not before {y}",
    "not later than {y}",
    "spring {y}",
    "first half of {y}",
)
_ONE_DECADE = (
    "{d}0s",
    "early {d}0s",
    "mid {d}0s",
    "late {d}0s",
    "first half of the {d}0s",
    "{d}0-{d}4",
    "{d}5-{d}9",
    "before {d}0",
)
_TWO_YEARS = ("{a}-{b}", "between {a} and {b}", "from {a} to {b}", "{a} or {b}")
_PLAIN = ("1959", "early 1959", "about 1960", "1957-1959", "1950s", "before 1965", "after 1957")


def nearest_wordings(words: str, settings: Settings, accepted: Callable[[str], bool]) -> tuple[str, ...]:
    """Return up to three accepted wordings, nearest first; general examples where nothing in `words` helps."""
    first = []
    for pattern, proposal in _SAYINGS:
        said = re.sub(pattern, proposal, words)
        if said != words and accepted(said):
            first.append(said)
    years = re.findall(r"(?<!\d)[12]\d{3}(?!\d)", words)
    decades = re.findall(r"(?<!\d)([12]\d{2})0'?s", words)
    proposals: list[str] = []
    if len(years) > 1:
        low, high = min(years), max(years)
        proposals += [one.format(a=low, b=high) for one in _TWO_YEARS]
    proposals += [one.format(d=decade) for decade in decades[:1] for one in _ONE_DECADE]
    proposals += [one.format(y=year) for year in years[:1] if not decades for one in _ONE_YEAR]
    proposals = [one for one in proposals if accepted(one)]
    ranked = sorted(proposals, key=lambda one: -SequenceMatcher(None, words, one).ratio())
    return tuple(dict.fromkeys([*first, *ranked, *(() if proposals or first else _PLAIN)]))[:_PROPOSED]
