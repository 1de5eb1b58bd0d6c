"""Texts by permanent key, from `wording/<language>/*.toml`.

One format for labels and clauses alike. A clause is a paragraph that a lawyer reads: it wants a name that never
changes, room for several lines and named fields, and no source text that doubles as its key; labels gain nothing
from a second format beside it, and TOML refuses a key that stands twice. A key is the path of tables to the text
(`certification.facts`), whatever file it stands in. A text missing in a language falls back to English and is
listed by `missing`; one that no longer has an English original is listed by `stale`.
"""

import re
import string
import tomllib
from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import cache
from typing import Any

from appraise.files.packaged import packaged
from appraise.model.frozen import frozen

ENGLISH = "en"


@frozen
class Texts:
    """The texts of one language.

    own       texts by key in this language
    replaced  texts by key that the appraiser typed instead of ours (sheet Clauses)
    """

    code: str
    own: Mapping[str, str]
    replaced: Mapping[str, str]

    @property
    def translated(self) -> bool:
        """Whether these are texts of a language other than English."""
        return self.code != ENGLISH and bool(self.own)

    def text(self, key: str, /, **fields: str) -> str:
        """Return the text of `key` with its named fields filled. An unknown key or a missing field is our mistake.

        A text of the appraiser's is taken word for word: braces in it are braces.
        """
        if key in self.replaced:
            return self.replaced[key]
        found = self.own.get(key)
        if found is None:
            found = _read(ENGLISH)[key]
        return found.format_map(fields)

    def has(self, key: str) -> bool:
        """Say whether there is such a text."""
        return key in self.replaced or key in self.own or key in _read(ENGLISH)

    def word(self, choice: StrEnum) -> str:
        """Return the word of a closed list; in English it is the word of the workbook unless a text says otherwise."""
        key = word_key(choice)
        return self.own.get(key) or _read(ENGLISH).get(key) or str(choice)

    def rule(self, key: str, original: str) -> str:
        """Return the text of a rule of law or standard (`element.death-date`) as this language has it.

        The original is the English text of `appraise.rules`, which stays the reference.
        """
        return self.own.get(f"rule.{key}", original)

    def number(self, key: str, count: int, /, **fields: str) -> str:
        """Return `key.one` for one thing and `key.other` for any other number, with the field `count` filled."""
        return self.text(f"{key}.{'one' if count == 1 else 'other'}", count=str(count), **fields)


def texts(code: str, replaced: Mapping[str, str] | None = None) -> Texts:
    """Return the texts of a language; an unknown one has none of its own and so speaks English throughout."""
    return Texts(code, _read(code), dict(replaced or {}))


def word_key(choice: StrEnum) -> str:
    """Return the key of a word of a closed list: `word.PartState.later replacement`."""
    return f"word.{type(choice).__name__}.{choice}"


def languages() -> tuple[str, ...]:
    """Return the codes of the languages that have texts, sorted."""
    folders = (one for one in packaged("wording").iterdir() if one.is_dir())
    return tuple(sorted(one.name for one in folders if re.fullmatch("[a-z]{2,3}", one.name)))


def missing(code: str) -> tuple[str, ...]:
    """Return the keys that have no text in this language and are printed in English."""
    return tuple(sorted(_read(ENGLISH).keys() - _read(code).keys()))


def stale(code: str) -> tuple[str, ...]:
    """Return the keys of this language that have no English original in `wording`.

    The originals of words of closed lists stand in `records`, those of rules in `rules`.
    """
    left = _read(code).keys() - _read(ENGLISH).keys()
    return tuple(sorted(key for key in left if not key.startswith(("word.", "rule."))))


def fields_of(text: str) -> frozenset[str]:
    """Return the names of the fields in a text."""
    return frozenset(name for _, name, _, _ in string.Formatter().parse(text) if name)


def originals() -> Mapping[str, str]:
    """Return the English text by key."""
    return _read(ENGLISH)


def translations(code: str) -> Mapping[str, str]:
    """Return the texts that stand in the files of a language, without any fallback."""
    return _read(code)


@cache
def _read(code: str) -> dict[str, str]:
    found: dict[str, str] = {}
    folder = packaged("wording", code)
    if not re.fullmatch("[a-z]{2,3}", code) or not folder.is_dir():
        return found
    for file in sorted(folder.glob("*.toml")):
        for key, text in _leaves(tomllib.loads(file.read_text("utf-8")), ""):
            if key in found:
                raise ValueError(f"text {key} stands twice in {code}")
            found[key] = text
    return found


def _leaves(table: Mapping[str, Any], before: str) -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        path = f"{before}{key}"
        if isinstance(value, dict):
            yield from _leaves(value, f"{path}.")
        elif isinstance(value, str):
            # A paragraph is broken over several lines in the file only to be readable there.
            yield path, re.sub(r"[ \t]*\n[ \t]*", " ", value).strip()
        else:
            raise TypeError(f"text {path} is not a text")
