"""A serial number: its years typed, or looked up in the appraiser's Serial ranges."""

from appraise.dating.dated import Dated, of_readings, read_stated
from appraise.dating.line import Found, Line, read_typed, refused, text_of
from appraise.dating.lookup import read_by_id_or_typed
from appraise.dating.result import Reading
from appraise.dating.serials import Serial, holds, neighbours, of_model, range_ends, read_serial
from appraise.model.finding import Finding
from appraise.model.missing import value_or
from appraise.records.dating import SerialRange
from appraise.records.vocabulary import EvidenceKind, EvidenceRole
from appraise.rules.published import facts

KIND = EvidenceKind.SERIAL
DEFAULT_ROLE = EvidenceRole.WHOLE


def read(line: Line) -> Found:
    """Return the years of the number: as typed, else of the ranges named or found by the number.

    The number is what stands under 'By id', else the item's serial. A number in several ranges has several readings.
    """
    name = line.reference
    if line.typed:
        return read_typed(line)
    if name in facts() or name in line.tables.feature_periods:
        return read_by_id_or_typed(line)
    named = [one for one in line.tables.ranges() if text_of(one.id) == name] if name else []
    if named:
        return _of_ranges(line, named[:1])
    item = line.tables.items.get(text_of(line.evidence.item))
    number = name or (text_of(item.serial) if item else "")
    serial = read_serial(number)
    if serial is None:
        return Found(None, (line.finding("DAT-19", "reference", number),))
    maker, model = (text_of(item.maker), text_of(item.model)) if item else ("", "")
    ranges = of_model(line.tables.ranges(maker), model)
    holding = [one for one in ranges if holds(one, serial)]
    return _of_ranges(line, holding) if holding else Found(None, (_outside(line, number, ranges, serial, maker),))


def _of_ranges(line: Line, ranges: list[SerialRange]) -> Found:
    """Return the union of the years of the ranges, each a reading if there are several."""
    readings: list[Reading] = []
    findings: list[Finding] = []
    uses: frozenset[str] = frozenset()
    for one in ranges:
        read = read_stated(text_of(one.date), line.settings)
        if not isinstance(read, Dated):
            findings += [refused(line, wording) for wording in read]
            continue
        name = text_of(one.date)
        if any(name == other.name for other in readings):
            name = f"{name} ({text_of(one.id)})"
        readings.append(Reading(name, read.outer, read.inner))
        uses |= read.uses
        findings += [
            line.finding(
                asked.code, "reference", asked.text, options="; ".join(asked.options), months=read.outer.edtf()
            )
            for asked in read.questions
        ]
    if not readings:
        return Found(None, tuple(findings))
    strengths = [int(strength) for one in ranges if (strength := value_or(one.strength, None)) is not None]
    return Found(
        of_readings(tuple(readings), " or ".join(one.name for one in readings), uses),
        tuple(findings),
        strength=min(strengths, default=None),
        source="; ".join(dict.fromkeys(filter(None, (text_of(one.source) for one in ranges)))),
        fact="; ".join(filter(None, (text_of(one.id) for one in ranges))),
    )


def _outside(line: Line, number: str, ranges: list[SerialRange], serial: Serial, maker: str) -> Finding:
    """Return the finding that explains why no range holds the number."""
    if not ranges:
        why = f"there is no serial range of {maker}" if maker else "there are no serial ranges"
    else:
        below, above = neighbours(ranges, serial)
        sides = [
            f"{side} is {text_of(one.id)} ({text_of(one.prefix)}{'-'.join(range_ends(one) or ())}"
            f"{text_of(one.suffix)}, {text_of(one.date)})"
            for side, one in (("the nearest below", below), ("the nearest above", above))
            if one is not None
        ]
        shape = "no range has its prefix and suffix"
        why = "; ".join(sides) or shape
    return line.finding("DAT-18", "reference", number, why=why)
