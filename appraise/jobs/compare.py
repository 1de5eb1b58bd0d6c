"""`appraise check NEW --against OLD`: what was typed differently, which figures moved, and which input moved them.

For the letter that goes with a corrected report: one line for each change, by id.
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from datetime import date
from pathlib import Path

from appraise.jobs.compute import named
from appraise.jobs.examine import Examined, examine
from appraise.jobs.proof import item_block, whole_block
from appraise.jobs.typed_changes import TypedChange, typed_changes
from appraise.model.figure import Figure
from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.valuing.codes import CODES
from appraise.valuing.explain import plain

#: So many inputs are named as the reason of one figure.
_MOST_CAUSES = 3
_LONGEST = 160

#: Ids of an opinion and of a total; the codes of value types in them, in words.
_OPINION = re.compile(r"(.+)\.([a-z]{3})\.(?:value_rounded|year\.new_rounded)")
_TOTAL = re.compile(r"schedule\.([^.]+)\.(?:total|new_total)")
_VALUE_TYPES = {code: str(value_type) for value_type, code in CODES.items()}

Figures = Mapping[str, Figure]


@frozen
class _Elsewhere:
    """What is known from outside a block: how places are printed, cells typed differently, figures of items."""

    examined: Examined
    typed: Mapping[Place, TypedChange]
    moved: Mapping[str, "Moved"]


@frozen
class Moved:
    """One figure that is not what it was.

    old, new  in plain digits with the currency; None where there is no such figure
    because   what moved it, the first inputs upstream that differ
    typed     it was typed or looked up itself
    """

    id: str
    old: str | None
    new: str | None
    because: tuple[str, ...]
    typed: bool

    @property
    def concluded(self) -> bool:
        """Whether it is an opinion or a total: what a letter tells first."""
        return bool(self.name)

    @property
    def name(self) -> str:
        """What an opinion or a total is called in words; "" for any other figure."""
        if total := _TOTAL.fullmatch(self.id):
            return f"Total, {_VALUE_TYPES.get(total[1], total[1].replace('_', ' '))}"
        opinion = _OPINION.fullmatch(self.id)
        return f"Item {opinion[1]}, {_VALUE_TYPES.get(opinion[2], opinion[2])}" if opinion else ""


@frozen
class Compared:
    """Two versions of a job."""

    old: Examined
    new: Examined
    typed: tuple[TypedChange, ...]
    moved: tuple[Moved, ...]

    @property
    def open_stops(self) -> int:
        """Number of open stops of the new version."""
        return self.new.open_stops

    def lines(self) -> Iterator[str]:
        """Yield what was typed differently, then the opinions and totals that moved, then every other figure."""
        if not self.typed and not self.moved:
            yield f"{self.new.path.name} and {self.old.path.name}: nothing was typed differently and no figure moved."
            return
        yield f"Typed differently in {self.new.path.name} than in {self.old.path.name}:"
        yield from (f"  {self._typed(one)}" for one in self.typed)
        computed = [one for one in self.moved if not one.typed]
        first = [one for one in computed if one.concluded]
        yield "Opinions and totals that moved:" if first else "No opinion and no total moved."
        yield from (f"  {one.name}: {_moved(one)}" for one in first)
        others = [one for one in computed if not one.concluded]
        yield "Other figures that moved:" if others else "No other figure moved."
        yield from (f"  {_moved(one)}" for one in others)

    def as_json(self) -> str:
        """Return the same as JSON, without the last line break."""
        typed = [
            {"sheet": one.sheet, "row": one.row, "column": one.heading, "old": one.old, "new": one.new}
            | {"cell": self._where(one)}
            for one in self.typed
        ]
        figures = [asdict(one) for one in self.moved if not one.typed]
        return json.dumps({"format": 1, "typed": typed, "figures": figures}, ensure_ascii=False, indent=1)

    def _where(self, one: TypedChange) -> str:
        return (self.old if one.new is None else self.new).where(one.place)

    def _typed(self, one: TypedChange) -> str:
        where = self._where(one)
        name = f"{one.sheet} {one.row}".strip()
        if one.old is None:
            return f"{name}: a row that is new ({where}): {_short(one.new or '')}"
        if one.new is None:
            return f"{name}: a row that is gone (it was {where}): {_short(one.old)}"
        return f"{name}, {one.heading}: was {_short(one.old)}, is {_short(one.new)} ({where})"


def compare_jobs(new: Path, old: Path, *, today: date) -> Compared:
    """Return what differs between two versions of a job. Raises UnusableFile where one cannot be read."""
    before, now = examine(old, today=today), examine(new, today=today)
    typed = tuple(typed_changes(before.job, now.job))
    at = {one.place: one for one in typed if one.old is not None and one.new is not None}
    moved: list[Moved] = []
    old_items = {named(item): item for item in before.job.items}
    new_items = {named(item): item for item in now.job.items}
    for name in dict.fromkeys((*new_items, *old_items)):
        was = item_block(before, old_items[name]).figures if name in old_items else {}
        are = item_block(now, new_items[name]).figures if name in new_items else {}
        moved += _differences(was, are, _Elsewhere(now, at, {}))
    of_items = _Elsewhere(now, at, {one.id: one for one in moved})
    moved += _differences(whole_block(before).figures, whole_block(now).figures, of_items)
    return Compared(before, now, typed, tuple(moved))


def _differences(old: Figures, new: Figures, elsewhere: _Elsewhere) -> Iterator[Moved]:
    """Yield the figures of a block that differ."""
    for id_ in dict.fromkeys((*new, *old)):
        was, now = _value(old.get(id_)), _value(new.get(id_))
        if was != now:
            typed = (new.get(id_) or old[id_]).operation in ("typed", "noted")
            yield Moved(id_, was, now, () if typed else _causes(id_, old, new, elsewhere), typed)


def _causes(id_: str, old: Figures, new: Figures, elsewhere: _Elsewhere) -> tuple[str, ...]:
    """Return the first inputs upstream of a figure that differ, in the order in which they enter it."""
    found: dict[str, None] = {}
    for one in dict.fromkeys((*_inputs(id_, new), *_inputs(id_, old))):
        moved = elsewhere.moved.get(one)
        was, now = (moved.old, moved.new) if moved else (_value(old.get(one)), _value(new.get(one)))
        if was != now:
            found[_cause(one, was, now, new.get(one), elsewhere)] = None
    if not found and id_ in old and id_ in new and old[id_].arguments != new[id_].arguments:
        made = "; before ".join(", ".join(one[id_].arguments) for one in (new, old))
        return (f"it is made from {made}",)
    return tuple(found)[:_MOST_CAUSES] or ("it is worked out in another way",)


def _cause(id_: str, was: str | None, now: str | None, figure: Figure | None, elsewhere: _Elsewhere) -> str:
    """Return an input that differs, by the cell that was typed differently where it is one."""
    places = () if figure is None else figure.places
    where = "; ".join(dict.fromkeys(map(elsewhere.examined.where, places)))
    change = next((elsewhere.typed[one] for one in places if one in elsewhere.typed), None)
    if change is not None:
        named = f"{change.sheet} {change.row}".strip()
        return f"{named}, {change.heading} ({where}) was {_short(change.old or '')}, is {_short(change.new or '')}"
    return f"{id_}{f' ({where})' if where else ''} {_was_is(was, now)}"


def _inputs(id_: str, figures: Figures) -> Iterator[str]:
    """Yield what a figure rests on in the end: typed and looked up figures, and those of other blocks."""
    waiting, seen = [id_], set()
    while waiting:
        one = waiting.pop()
        if one in seen:
            continue
        seen.add(one)
        figure = figures.get(one)
        if figure is None or figure.operation in ("typed", "noted"):
            yield one
        else:
            waiting += reversed(figure.arguments)


def _value(figure: Figure | None) -> str | None:
    if figure is None:
        return None
    return f"{plain(figure)} {figure.kind.currency}".rstrip()


def _was_is(was: str | None, now: str | None) -> str:
    if was is None:
        return f"is new: {now}"
    return f"was {was} and is gone" if now is None else f"was {was}, is {now}"


def _moved(one: Moved) -> str:
    return f"{one.id} {_was_is(one.old, one.new)}, because {'; '.join(one.because)}"


def _short(text: str) -> str:
    flat = " ".join(text.split())
    return flat if len(flat) <= _LONGEST else f"{flat[: _LONGEST - 1]}…"
