"""A word of a command that is not on its list, and the nearest ones that are."""

from collections.abc import Collection
from difflib import get_close_matches


class UnknownWordError(ValueError):
    """A word typed on the command line that is not on its list; the message is ready to print."""


def unknown(kind: str, word: str, known: Collection[str], *, cutoff: float = 0.4) -> UnknownWordError:
    """Return the error for an unknown word, with the nearest words that are known, or the first ten."""
    near = get_close_matches(word, known, n=3, cutoff=cutoff) or list(known)[:10]
    return UnknownWordError(f"There is no {kind} '{word}'. Did you mean: {', '.join(near)}?")
