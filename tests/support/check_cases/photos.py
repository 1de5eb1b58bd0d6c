"""Cases of the checks in `appraise/checks/photos.py`."""

from dataclasses import replace
from datetime import date

from support.checks import (
    Case,
    changed,
    without,
)

from appraise.checks.context import CheckContext, PhotoFact
from appraise.model.place import Place
from appraise.records.vocabulary import (
    PhotoKind,
)


def fact(context: CheckContext, file: str, what: PhotoFact) -> CheckContext:
    """The context with another fact about one file."""
    return replace(context, photos={**context.photos, file: what})


CASES = [
    Case(
        "PHO-01",
        lambda j: without(j, "photos", 5, 6),
        lambda j: without(j, "photos", 3),
        Place("Items", 3, "id"),
        "A01",
        ("A01",),
    ),
    Case(
        "PHO-02",
        lambda j: changed(j, "photos", 2, kind=PhotoKind.DETAIL),
        lambda j: changed(
            changed(j, "photos", 2, kind=PhotoKind.DETAIL), "items", 0, serial="none", markings="label, torn"
        ),
        Place("Items", 2, "serial"),
        "2217",
        ("G01",),
    ),
    Case(
        "PHO-03",
        lambda j: changed(j, "photos", 1, kind=PhotoKind.SIDE),
        lambda j: changed(j, "photos", 4, kind=PhotoKind.DEFECT),
        Place("Items", 2, "id"),
        "full back",
        ("G01",),
    ),
    Case(
        "PHO-04",
        lambda j: changed(j, "photos", 4, kind=PhotoKind.DETAIL),
        lambda j: changed(changed(j, "photos", 4, kind=PhotoKind.DETAIL), "items", 0, structure="no cracks seen"),
        Place("Items", 2, "structure"),
        "cleated",
        ("G01",),
    ),
    Case(
        "PHO-07",
        lambda j: changed(j, "photos", 0, taken=date(2025, 2, 11)),
        lambda j: changed(j, "photos", 0, taken=date(2025, 2, 10)),
        Place("Photos", 2, "taken"),
        "2025-02-11",
        ("G01",),
    ),
    Case(
        "PHO-08",
        lambda j: changed(j, "photos", 0, taken=date(2022, 1, 19)),
        lambda j: changed(j, "photos", 0, taken=date(2022, 1, 20)),
        Place("Photos", 2, "taken"),
        "2022-01-19",
        ("G01",),
    ),
    Case(
        "PHO-09",
        lambda j: changed(j, "evidence", 0, photo="photos/hole.jpg"),
        lambda j: changed(j, "evidence", 0, photo="photos/G01-2.jpg"),
        Place("Evidence", 2, "photo"),
        "photos/hole.jpg",
        ("G01-e1",),
    ),
    Case(
        "PHO-10",
        lambda j: without(changed(j, "items", 0, serial="none"), "photos", 2, 3),
        lambda j: without(changed(j, "items", 0, serial="none", markings="none"), "photos", 2, 3),
        Place("Items", 2, "markings"),
        "label",
        ("G01",),
    ),
    Case(
        "PHO-05",
        lambda j: j,
        lambda j: j,
        Place("Photos", 2, "file"),
        "photos/G01-2.jpg",
        ("G01",),
        context=lambda c: fact(c, "photos/G01-2.jpg", PhotoFact(exists=False)),
        near_context=lambda c: fact(c, "photos/not-on-the-sheet.jpg", PhotoFact(exists=False)),
    ),
    Case(
        "PHO-06",
        lambda j: j,
        lambda j: j,
        Place("Photos", 7, "file"),
        "photos/A01-7.jpg",
        ("G01", "A01"),
        context=lambda c: fact(c, "photos/A01-7.jpg", c.photos["photos/G01-2.jpg"]),
        near_context=lambda c: fact(c, "photos/A01-7.jpg", PhotoFact(exists=True, sha256="f" * 64, size=200_000)),
    ),
]
