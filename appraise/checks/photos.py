"""Checks of the photographs: what is shown, against what is said. Facts about the files come in with the context."""

from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.text import affirms, mentions, plain, says_nothing
from appraise.model.figure import Figure
from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.records.dating import EVIDENCE
from appraise.records.declare import place_of
from appraise.records.items import ITEMS, PHOTOS, Photo
from appraise.records.vocabulary import PhotoKind
from appraise.valuing.days import add_months

DEFECTS = ("crack", "split", "broken", "break", "loose", "warp", "hole", "dent", "chip", "cleat", "repaired")


@check("PHO-01")
def item_not_shown(context: CheckContext) -> Iterator[Finding]:
    """Each item is shown by at least one photograph."""
    for key, item in context.items.items():
        if not context.shown_of.get(key):
            yield finding("PHO-01", place_of(ITEMS, item, "id"), key, found=key)


@check("PHO-02")
def serial_not_shown(context: CheckContext) -> Iterator[Finding]:
    """A serial that is stated is shown."""
    for key, item in context.items.items():
        shown = context.shown_of.get(key, frozenset())
        if given(item.serial) and not says_nothing(item.serial) and shown and PhotoKind.SERIAL not in shown:
            yield finding("PHO-02", place_of(ITEMS, item, "serial"), key, found=item.serial)


@check("PHO-03")
def views_missing(context: CheckContext) -> Iterator[Finding]:
    """An item of some value is shown from the front and from the back."""
    for key, result in context.results.items():
        rounded = [one.rounded.number for one in result.valuations if isinstance(one.rounded, Figure)]
        item = context.items.get(key)
        if item is not None and rounded and max(rounded) >= context.settings.detail_value:
            shown = context.shown_of.get(key, frozenset())
            lacking = [kind.value for kind in (PhotoKind.FRONT, PhotoKind.BACK) if kind not in shown]
            if shown and lacking:
                place = place_of(ITEMS, item, "id")
                yield finding("PHO-03", place, key, found="; ".join(lacking), value=max(rounded))


@check("PHO-04")
def defect_not_shown(context: CheckContext) -> Iterator[Finding]:
    """A defect named in the text is shown."""
    for key, item in context.items.items():
        word = affirms(item.structure, *DEFECTS)
        shown = context.shown_of.get(key, frozenset())
        if word and shown and PhotoKind.DEFECT not in shown:
            yield finding("PHO-04", place_of(ITEMS, item, "structure"), key, found=word)


@check("PHO-05")
def file_missing(context: CheckContext) -> Iterator[Finding]:
    """Each file named on Photos is there."""
    for photo in context.job.photos:
        if given(photo.file) and photo.file in context.photos and not context.photos[photo.file].exists:
            place = place_of(PHOTOS, photo, "file")
            if place not in context.places_raised:
                yield finding("PHO-05", place, *_item(photo), found=photo.file)


@check("PHO-06")
def picture_twice(context: CheckContext) -> Iterator[Finding]:
    """No picture stands under two captions, least of all for two items."""
    first: dict[str, Photo] = {}
    for photo in context.job.photos:
        if given(photo.file):
            fact = context.photos.get(photo.file)
            mark = fact.sha256 if fact is not None and fact.sha256 else plain(photo.file)
            other = first.setdefault(mark, photo)
            if other is not photo:
                place = place_of(PHOTOS, photo, "file")
                about = dict.fromkeys((*_item(other), *_item(photo)))
                yield finding("PHO-06", place, *about, found=photo.file, other=str(other.file))


@check("PHO-07")
def taken_after_report(context: CheckContext) -> Iterator[Finding]:
    """No photograph is dated after the report."""
    report = context.job.assignment.report_date
    for photo in context.job.photos:
        if given(report) and given(photo.taken) and photo.taken > report:
            place = place_of(PHOTOS, photo, "taken")
            yield finding("PHO-07", place, *_item(photo), found=photo.taken.isoformat(), report=report)


@check("PHO-08")
def old_photo(context: CheckContext) -> Iterator[Finding]:
    """A photograph shows the item about as it was inspected."""
    for photo in context.job.photos:
        item = context.items.get(photo.item) if given(photo.item) else None
        if item is None or not given(item.inspected_on) or not given(photo.taken):
            continue
        if photo.taken < add_months(item.inspected_on, -context.settings.photo_months):
            place = place_of(PHOTOS, photo, "taken")
            yield finding("PHO-08", place, *_item(photo), found=photo.taken.isoformat(), inspected=item.inspected_on)


@check("PHO-09")
def evidence_photo_not_listed(context: CheckContext) -> Iterator[Finding]:
    """A photograph that evidence points to is on Photos."""
    listed = {photo.file for photo in context.job.photos}
    for line in context.job.evidence:
        if given(line.photo) and line.photo not in listed and given(line.id):
            yield finding("PHO-09", place_of(EVIDENCE, line, "photo"), line.id, found=line.photo)


@check("PHO-10")
def label_not_shown(context: CheckContext) -> Iterator[Finding]:
    """A label or stamp whose words are quoted is shown."""
    for key, item in context.items.items():
        quoted = mentions(item.markings, "label", "stamp", "hallmark", "inscri", "signature", "signed", "brand")
        shown = context.shown_of.get(key, frozenset())
        if quoted and shown and not shown & {PhotoKind.LABEL, PhotoKind.SERIAL, PhotoKind.DETAIL}:
            yield finding("PHO-10", place_of(ITEMS, item, "markings"), key, found=quoted)


def _item(photo: Photo) -> tuple[str, ...]:
    return (photo.item,) if given(photo.item) else ()
