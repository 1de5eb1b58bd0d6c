"""How checks read what a person wrote: words, lists of ids, names that may be spelled a little differently."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache

from appraise.model.missing import Missing, given

_EVERYTHING = "all"
_NOTHING = frozenset({"", "-", "none", "no", "n/a", "na", "not applicable", "nothing", "nil", "--", "."})


def says_nothing(text: str | Missing) -> bool:
    """Say whether a text is there but tells nothing: `none`, `n/a`, `-`."""
    return given(text) and text.strip().strip(".").lower() in _NOTHING


def word_count(text: str) -> int:
    """Return the number of words (letters or digits) in a text."""
    return len(re.findall(r"\w+", text))


# The same texts are asked about again and again: reasons, names of makers and houses.
@lru_cache(1 << 16)
def mentions(text: str | Missing, *stems: str) -> str:
    """Return the first word of `text` that begins with one of the stems, "" if none does. Case does not matter."""
    if not given(text):
        return ""
    found = _beginning_with(stems).search(text)
    return found.group(0) if found else ""


@cache
def _beginning_with(stems: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(r"\b(?:" + "|".join(re.escape(stem) for stem in stems) + r")\w*", re.IGNORECASE)


def affirms(text: str | Missing, *stems: str) -> str:
    """Return the first word that begins with one of the stems and is not denied just before (no, not, without).

    >>> affirms("no cracks, one loose brace", "crack", "loose")
    'loose'
    """
    if not given(text):
        return ""
    stem = "|".join(re.escape(one) for one in stems)
    for found in re.finditer(
        rf"(?:\b(no|not|without|never|nor|or)\s+(?:\w+\s+)?)?\b((?:{stem})\w*)", text, re.IGNORECASE
    ):
        if not found.group(1):
            return found.group(2)
    return ""


def listed(text: str | Missing) -> tuple[str, ...]:
    """Return the entries of a list separated by semicolons or commas, outer spaces off; `none` is an empty list."""
    if not given(text) or says_nothing(text):
        return ()
    return tuple(entry.strip() for entry in re.split(r"[;,\n]", text) if entry.strip())


def everything(text: str | Missing) -> bool:
    """Say whether a list of ids is the word `all`."""
    return given(text) and text.strip().lower() == _EVERYTHING


def covers(text: str | Missing, item: str) -> bool:
    """Say whether a list of ids (or `all`) holds the item."""
    return everything(text) or item in listed(text)


def unknown_ids(text: str | Missing, known: Iterable[str]) -> Iterator[str]:
    """Yield the ids of a list that are not known; `all` is known."""
    if not everything(text):
        ids = frozenset(known)
        yield from (entry for entry in listed(text) if entry not in ids and not everything(entry))


@lru_cache(1 << 16)
def plain(name: str | Missing) -> str:
    """Return a name without case, spaces, accents and punctuation, for comparing; "" where there is none.

    >>> plain("No. 0 221-7"), plain("nº0221 7")
    ('no02217', 'no02217')
    """
    if not given(name):
        return ""
    if name.isascii():
        folded = name.lower()
        return folded if folded.isalnum() else "".join(filter(str.isalnum, folded))
    letters = unicodedata.normalize("NFKD", name)
    return "".join(letter for letter in letters.casefold() if letter.isalnum())


_SERIAL_WORDS = re.compile(
    r"\s*(?:(?:serial|ser)\b[\s.:]*)?(?:(?:number|numero|num|nr|no)(?=[\s.:])|#|№|n[°º])?[\s.:]*", re.IGNORECASE
)


def plain_serial(serial: str | Missing) -> str:
    """Return a serial for comparing: as `plain`, without words before it that only say it is a number.

    >>> plain_serial("Serial No. 22-17"), plain_serial("#2217"), plain_serial("NO2217")
    ('2217', '2217', 'no2217')
    """
    return plain(_SERIAL_WORDS.sub("", serial, count=1)) if given(serial) else ""


def same_name(one: str | Missing, other: str | Missing) -> bool:
    """Say whether two names are given and equal but for case, spaces, accents and punctuation."""
    return plain(one) != "" and plain(one) == plain(other)
