"""A copy of a report that says nothing of whose the things are, where they are kept and how they are numbered.

Two steps. The records are emptied where the workbook has a column for what must not be said: owner, client, address,
location, serial, people, provenance. Then every text of the finished views is searched for what was typed in those
columns, since descriptions and captions repeat it; names are searched word by word. What is a word of this program's
own texts (`House`, `Estate`) is not searched by itself, or no sentence would stay whole.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cached_property
from typing import Any

from appraise.model.missing import given
from appraise.records.job import Job
from appraise.records.vocabulary import PhotoKind
from appraise.report.engine.views import HIDDEN
from appraise.report.view import Composed
from appraise.wording.texts import Texts, originals, translations

#: Kinds of photographs that show a number, a name or a paper.
SHOWING = (PhotoKind.SERIAL, PhotoKind.LABEL, PhotoKind.DOCUMENT)
#: Columns that are replaced whole, by field of the job: they say who, where or which number in words of their own.
_REPLACED: Mapping[str, tuple[str, ...]] = {
    "assignment": ("client", "client_address", "owner", "intended_users"),
    "people": ("address", "credentials", "tax_number"),
    "items": ("serial", "room", "provenance", "title_evidence", "owner_statement"),
    "history": ("how", "remark"),
    "policy": ("insurer", "number"),
    "transfer": ("donor", "donee", "donee_address", "relation", "terms", "trust"),
    "court_case": ("court", "case", "engaged_for", "facts_supplied", "assumptions_supplied"),
    "expert_record": ("what",),
}
#: Columns that hold names: what stands there is searched in every text, word by word.
_NAMES: Mapping[str, tuple[str, ...]] = {
    "assignment": ("client", "owner"),
    "people": ("name",),
    "policy": ("insurer",),
    "transfer": ("donor", "donee"),
    "shares": ("recipient",),
}
#: Columns that hold places: what stands between two commas is searched.
_PLACES: Mapping[str, tuple[str, ...]] = {
    "assignment": ("client_address",),
    "items": ("location",),
    "policy": ("main_location",),
    "transfer": ("donee_address",),
}
#: Columns whose people and places are counted, so that one can still be told from another.
_COUNTED: Mapping[tuple[str, str], str] = {
    ("people", "name"): "redacted.person",
    ("items", "location"): "redacted.location",
    ("shares", "recipient"): "redacted.recipient",
}
#: A shorter serial is only sought behind a word that makes it one: by itself it would be any small number.
_SHORTEST_NUMBER = 4
_BEHIND = "(?:(?<=[Nn]o\\. )|(?<=[Nn]o )|(?<=[Nn]r\\. )|(?<=umber )|(?<=erial )|(?<=#))"
_SHORTEST_NAME = 3


@dataclass(frozen=True)
class Redaction:
    """A job without what must not be said, and the texts that are taken out of everything else.

    instead  what is printed for each text taken out, longest first; a single word is only found as it is typed, or
             in capitals: `Falls` of an address is not the verb
    """

    job: Job
    word: str
    instead: Mapping[str, str]

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        # A number inside a longer one (1,936.00) is another number; a name inside a longer word another word.
        found = "|".join(_sought(one) for one in self.instead)
        return re.compile(rf"(?<![\w])(?<!\d[.,])(?:{found})(?![\w])(?![.,]\d)")

    def text(self, text: str) -> str:
        """Return a text without what must not be said."""
        if not self.instead or not self._pattern.search(text):
            return text
        word = re.escape(self.word)
        return re.sub(rf"{word}(?:[ -]+{word})+", self.word, self._pattern.sub(self._other, text))

    def _other(self, match: re.Match[str]) -> str:
        return self._by_word.get(" ".join(match[0].casefold().split()), self.word)

    @cached_property
    def _by_word(self) -> dict[str, str]:
        return {" ".join(one.casefold().split()): other for one, other in self.instead.items()}

    def view(self, view: Any) -> Any:
        """Return a view with every text in it searched; what no template can print stays as it is."""
        if isinstance(view, str):
            return self.text(view)
        if isinstance(view, tuple):
            return tuple(self.view(one) for one in view)
        if is_dataclass(view) and not isinstance(view, type):
            shown = [one for one in fields(view) if one.metadata.get("template", True) is not HIDDEN["template"]]
            changed = {one.name: new for one in shown if (new := self.view(old := getattr(view, one.name))) is not old}
            return replace(view, **changed) if changed else view
        return view

    def composed(self, composed: Composed) -> Composed:
        """Return a composition with every text in it searched; items are searched as they are made."""
        return replace(
            composed,
            properties=self.view(composed.properties),
            edges=self.view(composed.edges),
            report=self.view(composed.report),
            items=(self.view(one) for one in composed.items),
        )

    def left(self, printed: str) -> list[str]:
        """Return the texts that should have been taken out and still stand in `printed`."""
        return sorted({match[0] for match in self._pattern.finditer(printed)}) if self.instead else []


def redaction(job: Job, words: Texts) -> Redaction:
    """Return the job without owner, client, addresses, locations, serials and names; the figures are not touched."""
    word = words.text("redacted.word")
    counted: dict[str, str] = {}
    for (field, key), text in _COUNTED.items():
        typed = dict.fromkeys(str(one) for record in _records(job, field) if given(one := getattr(record, key)))
        counted |= {name: words.text(text, number=str(number)) for number, name in enumerate(typed, 1)}
    names, places = _typed(job, _NAMES), _typed(job, _PLACES)
    # The town where the appraiser works is often that of the makers: of those addresses only the whole is sought.
    whole = [*_numbers(job), *names, *places, *_typed(job, {"people": ("address",)})]
    own = _own_words(words)
    parts = [
        *(one for text in names for one in _words_of(text, own)),
        *(one for text in places for one in _parts(text)),
    ]
    instead = counted | {one: word for one in (*whole, *parts) if one not in counted}
    ordered = dict(sorted(instead.items(), key=lambda pair: (-len(pair[0]), pair[0])))
    return Redaction(_emptied(job, word, counted), word, ordered)


def _records(job: Job, field: str) -> tuple[Any, ...]:
    """Return the records of a sheet, those of a form too."""
    found = getattr(job, field)
    return found if isinstance(found, tuple) else (found,)


def _numbers(job: Job) -> list[str]:
    """Return serials, tax numbers and the number of the policy: they are searched as they are."""
    found = [str(one.serial) for one in job.items if given(one.serial) and any(map(str.isdigit, str(one.serial)))]
    found += [str(one.tax_number) for one in job.people if given(one.tax_number)]
    return [*found, *([str(job.policy.number)] if given(job.policy.number) else [])]


def _typed(job: Job, columns: Mapping[str, tuple[str, ...]]) -> list[str]:
    return [
        str(typed)
        for field, keys in columns.items()
        for record in _records(job, field)
        for key in keys
        if given(typed := getattr(record, key))
    ]


def _words_of(name: str, own: frozenset[str]) -> Iterator[str]:
    """Yield the parts of a name between commas, and its words that say who by themselves."""
    yield from _parts(name)
    for one in re.findall(r"[^\W_]+(?:[-'][^\W_]+)*", name):
        if one[0].isupper() and len(one) >= _SHORTEST_NAME and one.casefold() not in own:
            yield one


def _parts(text: str) -> Iterator[str]:
    """Yield what stands between commas, if it is more than one word."""
    for part in re.split(r"[,;\n]", text):
        if len(part.split()) > 1:
            yield part.strip()


def _sought(text: str) -> str:
    """Return the pattern of one text: several words in any case and spacing, one word as typed or in capitals."""
    escaped = r"\s+".join(re.escape(one) for one in text.split())
    if text.isdigit() and len(text) < _SHORTEST_NUMBER:
        return _BEHIND + escaped
    if len(text.split()) > 1 or any(sign.isdigit() for sign in text):
        return f"(?i:{escaped})"
    return f"{escaped}|{re.escape(text.upper())}"


def _own_words(words: Texts) -> frozenset[str]:
    """Return the words this program's texts use, in English (the workbook's language) and in the report's."""
    found: set[str] = set()
    for text in (*originals().values(), *translations(words.code).values()):
        found.update(one.casefold() for one in re.findall(r"[^\W\d_]+", text))
    return frozenset(found)


def _emptied(job: Job, word: str, counted: Mapping[str, str]) -> Job:
    """Return the job with what is replaced whole replaced, and without the photographs that show it."""
    changed: dict[str, Any] = {}
    for field in {*_REPLACED, *(field for field, _key in _COUNTED), "policy"}:
        known = tuple(key for of, key in _COUNTED if of == field)
        new = [_without(one, _REPLACED.get(field, ()), word, known, counted) for one in _records(job, field)]
        changed[field] = tuple(new) if isinstance(getattr(job, field), tuple) else new[0]
    main = job.policy.main_location
    changed["policy"] = replace(changed["policy"], main_location=counted.get(main, word) if given(main) else main)
    changed["photos"] = tuple(one for one in job.photos if one.kind not in SHOWING)
    return replace(job, **changed)


def _without(record: Any, replaced: Iterable[str], word: str, known: Iterable[str], counted: Mapping[str, str]) -> Any:
    """Return a record with these fields replaced where something was typed; what was blank stays blank."""
    new = {key: word for key in replaced if given(getattr(record, key))}
    new |= {key: counted[getattr(record, key)] for key in known if given(getattr(record, key))}
    return replace(record, **new)
