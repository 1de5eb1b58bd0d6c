"""Evidence by id: a period from the appraiser's Feature periods, or a published fact."""

import re
from dataclasses import replace
from difflib import get_close_matches

from appraise.dating.dated import Dated, of_readings, read_stated, read_use
from appraise.dating.line import Found, Line, asked, read_typed, refused, text_of
from appraise.dating.result import Reading
from appraise.dating.settings import Settings
from appraise.dating.wordings import Bound, Refusal, read_end, read_start, use_months
from appraise.model.finding import Finding
from appraise.model.missing import value_or
from appraise.model.months import ALL_MONTHS
from appraise.records.dating import FeaturePeriod
from appraise.rules.published import FROM_OBJECT, Fact, facts, variants_of

#: "c." in a published bound is five years either way, whatever the appraiser's own setting (as the lists say).
_PUBLISHED_CIRCA = 5


def read_by_id_or_typed(line: Line) -> Found:
    """Return what the id under 'By id' stands for, else what is typed in From, To or Date."""
    name = line.reference
    if not name:
        return read_typed(line)
    period = line.tables.feature_periods.get(name)
    fact = facts().get(name)
    if period is None and fact is None:
        return unknown_id(line, (*line.tables.feature_periods, *facts()))
    if line.typed and not (period is None and fact is not None and fact.asks):
        typed = read_typed(line)
        noted = line.finding("DAT-26", "reference", name)
        return replace(typed, findings=(*typed.findings, noted), fact=name)
    return read_period_row(line, period) if period is not None else read_fact(line, facts()[name])


def unknown_id(line: Line, known: tuple[str, ...]) -> Found:
    """Return the finding for an id that is not known, with the nearest ones, or the parts of a row with several."""
    name = line.reference
    parts = variants_of(name)
    if parts:
        choices = "; ".join(f"{fact.id} {fact.mark}" for fact in parts)
        return Found(None, (line.finding("DAT-14", "reference", name, choices=choices),))
    if line.typed:
        return read_typed(line)
    padded = re.sub(r"^([A-Za-z])(\d)(?!\d)", r"\g<1>0\2", name).upper()  # `C2` is `C02`
    alike = [padded] if padded in known else get_close_matches(name, known, n=3, cutoff=0.5)
    near = "; ".join(alike) or "none alike"
    return Found(None, (line.finding("DAT-13", "reference", name, near=near),))


def read_period_row(line: Line, period: FeaturePeriod) -> Found:
    """Return what a row of Feature periods says; findings point to the evidence and name the row's words."""
    start, end = text_of(period.from_), text_of(period.to)
    name = text_of(period.id)
    if not start and not end:
        return Found(None, (line.finding("DAT-27", "reference", name),))
    read = read_use(start, end, line.settings)
    if not isinstance(read, Dated):
        return Found(None, tuple(replace(refused(line, one), place=line.place("reference")) for one in read), fact=name)
    strength = value_or(period.strength, None)
    notes = asked(line, read)
    if not read.outer:
        notes.append(line.finding("DAT-11", "reference", end, start=start))
    return Found(
        read,
        tuple(notes),
        strength=None if strength is None else int(strength),
        source=text_of(period.source),
        fact=name,
    )


def read_fact(line: Line, fact: Fact) -> Found:
    """Return what a published fact says about the object, with its cautions; some bound nothing and say so."""
    cautions = tuple(filter(None, (fact.rule, fact.caution, *_softness(fact))))
    made = Found(None, (), fact.seen.strength, f"{fact.source} ({fact.seen.value})", fact.id, cautions)
    if not fact.bounds:
        note = line.finding("DAT-17", "reference", fact.id, mark=fact.mark, caution=fact.caution or fact.rule)
        return replace(made, dated=Dated(ALL_MONTHS, ALL_MONTHS, "no bound"), findings=(note,))
    typed = text_of(line.evidence.date) or text_of(line.evidence.from_)
    if fact.asks and not typed:
        return replace(made, findings=(line.finding("DAT-28", "date", "", fact=fact.id, mark=fact.mark),))
    read = months_of_fact(fact, line.settings, typed)
    if isinstance(read, Refusal):
        near = "; ".join(read.near)
        return replace(made, findings=(line.finding("DAT-01", "date", read.text, reason=read.reason, near=near),))
    return replace(made, dated=read, findings=tuple(asked(line, read)))


def _softness(fact: Fact) -> list[str]:
    found = []
    if fact.lower_soft and fact.bounds:
        found.append("The lower bound is soft: earlier is possible, though unusual.")
    if fact.upper_soft and fact.lingers:
        found.append(f"The upper bound is soft: {fact.lingers} months are allowed for old stock, dies and habit.")
    return found


def months_of_fact(fact: Fact, settings: Settings, typed: str = "") -> Dated | Refusal:
    """Return the months a published fact allows; `typed` stands in for a bound that comes from the object.

    A lower bound takes, at its widest, the first month of what is written, an upper bound the last, and a soft
    upper bound so many months more; the narrow set uses the bare dates. A fact that bounds nothing allows all.
    """
    if not fact.bounds:
        return Dated(ALL_MONTHS, ALL_MONTHS, "no bound")
    readings = []
    for lower, upper in fact.spans:
        if lower == upper == FROM_OBJECT:
            stated = read_stated(typed, settings)
            return stated if isinstance(stated, Dated) else stated[0].refusal
        start = read_start(typed, settings) if lower == FROM_OBJECT else _published(lower, settings, starts=True)
        end = _published(upper, settings, starts=False)
        for bound in (start, end):
            if isinstance(bound, Refusal):
                return bound
        assert not isinstance(start, Refusal) and not isinstance(end, Refusal)
        if end is not None and end.last is not None and fact.upper_soft:
            end = Bound(end.first, end.last + fact.lingers)
        words = f"{typed if lower == FROM_OBJECT else lower or '..'}/{upper or '..'}"
        readings.append(Reading(words, *use_months(start, end)))
    return of_readings(tuple(readings), " or ".join(one.name for one in readings))


def _published(words: str, settings: Settings, *, starts: bool) -> Bound | Refusal | None:
    """Return a bound as a source writes it: year, year and month, day, `c. 1920`, or a range of years."""
    if not words:
        return None
    # `1905-06` is a month here and nothing else: a day makes it one.
    dated = f"{words}-01" if len(words) == 7 and words[4] == "-" else words
    read = read_start if starts else read_end
    return read(dated, replace(settings, circa_years=_PUBLISHED_CIRCA))


def lowered(line: Line, typed: int, allowed: int, name: str) -> Finding:
    """Return the note that a statement counts as weaker than typed."""
    return line.finding("DAT-16", "strength", str(typed), allowed=allowed, fact=name)
