"""What a check found: a code, a place, and the words that fill the catalogue's sentence for that code."""

from dataclasses import dataclass, field

from appraise.model.place import Place


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One finding.

    code      permanent code of the catalogue, for example `CMP-07`; the severity and the wording stand there
    place     the cell (or row, or sheet) it is about
    subjects  ids of the items, sales or statements concerned, in order; an answer is keyed by them
    found     the value found, as typed or printed ("" where nothing was there)
    details   name and text pairs that fill the catalogue's sentence
    """

    place: Place
    code: str
    subjects: tuple[str, ...] = ()
    found: str = ""
    details: tuple[tuple[str, str], ...] = field(default=())


def finding(code: str, place: Place, *subjects: str, found: str = "", **details: object) -> Finding:
    """Return a finding; keyword arguments become its details, in the order given."""
    return Finding(place, code, subjects, found, tuple((name, str(text)) for name, text in details.items()))
