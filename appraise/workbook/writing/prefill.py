"""Rows that a family of objects brings with it: parts, inspection lines, photographs wanted."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from appraise.records.vocabulary import Family
from appraise.rules.families import family_lists


def family_items(families: Iterable[Family]) -> list[dict[str, Any]]:
    """Return one begun item for each family: id, number and family, the rest to be filled in."""
    return [
        {"id": f"N{number:02d}", "number": str(number), "family": family} for number, family in enumerate(families, 1)
    ]


def with_family_rows(rows: Mapping[str, Any]) -> dict[str, Any]:
    """Return `rows` with the lines of each item's family added on Parts, Inspection and Photos.

    What an item has there already is left alone: a line is added only if the item has none of that name (a photograph:
    none of that kind and caption). Items without a family get nothing.
    """
    items: Sequence[Mapping[str, Any]] = rows.get("items", ())
    parts = list(rows.get("parts", ()))
    inspection = list(rows.get("inspection", ()))
    photos = list(rows.get("photos", ()))
    has_part = {(row.get("item"), str(row.get("part", "")).casefold()) for row in parts}
    has_line = {(row.get("item"), str(row.get("line", "")).casefold()) for row in inspection}
    has_photo = {(row.get("item"), row.get("kind"), str(row.get("caption", "")).casefold()) for row in photos}
    for item in items:
        family, name = item.get("family"), item.get("id")
        if not isinstance(family, Family) or not isinstance(name, str):
            continue
        lists = family_lists(family)
        parts += [{"item": name, "part": one} for one in lists.parts if (name, one.casefold()) not in has_part]
        inspection += [
            {"item": name, "line": one} for one in lists.inspection if (name, one.casefold()) not in has_line
        ]
        photos += [
            {"item": name, "kind": one.kind, "caption": one.of}
            for one in lists.photos
            if (name, one.kind, one.of.casefold()) not in has_photo
        ]
    return {**rows, "parts": parts, "inspection": inspection, "photos": photos}
