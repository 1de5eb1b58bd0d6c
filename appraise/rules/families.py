"""What belongs to a family of objects: its parts, what is looked at, which photographs are wanted.

Data in the folder `families`, one file a family. All of it is common practice of the trade, without a source.
"""

import tomllib
from functools import cache

from appraise.files.packaged import packaged
from appraise.model.frozen import frozen
from appraise.records.vocabulary import Family, PhotoKind


@frozen
class WantedPhoto:
    """A photograph that every item of a family should have: its kind and what it shows."""

    kind: PhotoKind
    of: str


@frozen
class FamilyLists:
    """The lists of one family, in the order in which an object is gone over."""

    family: Family
    parts: tuple[str, ...]
    inspection: tuple[str, ...]
    photos: tuple[WantedPhoto, ...]

    @property
    def photo_kinds(self) -> frozenset[PhotoKind]:
        """The kinds of photograph wanted, each once."""
        return frozenset(photo.kind for photo in self.photos)


@cache
def families() -> dict[Family, FamilyLists]:
    """Return the lists of every family, in the order of the vocabulary. A family without a file is our own mistake."""
    found: dict[Family, FamilyLists] = {}
    for file in sorted(packaged("rules", "families").glob("*.toml")):
        data = tomllib.loads(file.read_text("utf-8"))
        photos = tuple(WantedPhoto(PhotoKind(one["kind"]), one["of"]) for one in data["photos"])
        family = Family(data["family"])
        found[family] = FamilyLists(family, tuple(data["parts"]), tuple(data["inspection"]), photos)
    return {family: found[family] for family in Family}


def family_lists(family: Family) -> FamilyLists:
    """Return the lists of one family."""
    return families()[family]
