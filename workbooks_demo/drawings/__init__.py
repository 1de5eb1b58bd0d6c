"""The photographs of the demonstration jobs: drawings, made from what the sources say of each item.

Line and shade only, enough to tell the items apart and to show label, number, defects and electrics. The same sources
give the same pictures.
"""

import re
import zlib
from dataclasses import replace

from appraise.model.missing import value_or
from appraise.records.items import Item, Photo
from appraise.records.vocabulary import Family, PhotoKind
from workbooks_demo.drawings import closeups, fretted, objects
from workbooks_demo.drawings.canvas import Canvas, Colour
from workbooks_demo.drawings.fretted import PEAR, WAISTED, Build

SPRUCE: Colour = (226, 180, 112)
MAPLE: Colour = (206, 150, 88)
ROSEWOOD: Colour = (112, 66, 46)
BROWN: Colour = (146, 92, 54)
BURST: Colour = (70, 34, 22)

_BUILDS: dict[Family, Build] = {
    Family.FLAT_TOP: Build(WAISTED, 560, 1080, 200, 220, 27, 6, SPRUCE, (196, 140, 76), ROSEWOOD, burst=False),
    Family.ARCHTOP: Build(WAISTED, 540, 1090, 222, 210, 27, 6, (222, 150, 66), BURST, MAPLE),
    Family.SOLID_ELECTRIC: Build(WAISTED, 640, 1080, 200, 210, 27, 6, (220, 140, 52), BURST, MAPLE),
    Family.ELECTRIC_BASS: Build(WAISTED, 690, 1090, 196, 190, 25, 4, (220, 140, 52), BURST, MAPLE),
    Family.MANDOLIN: Build(PEAR, 560, 1060, 200, 250, 26, 8, (190, 96, 44), (64, 26, 18), MAPLE),
    Family.BANJO: Build(WAISTED, 650, 1090, 218, 190, 25, 5, BROWN, BURST, BROWN),
    Family.RESONATOR: Build(WAISTED, 560, 1080, 200, 220, 28, 6, (220, 220, 216), (140, 140, 138), (206, 206, 202), burst=False),  # noqa: E501
    Family.UKULELE: Build(WAISTED, 640, 1040, 150, 340, 24, 4, (166, 104, 56), (120, 70, 36), BROWN, burst=False),
    Family.HARP_GUITAR: Build(WAISTED, 620, 1090, 190, 260, 27, 6, SPRUCE, (170, 116, 62), ROSEWOOD, burst=False),
}  # fmt: skip


def draw_photo(item: Item, photo: Photo) -> bytes:
    """Return the picture of one line of Photos, as JPEG."""
    sheet = Canvas(zlib.crc32(f"{item.id} {photo.file}".encode()), _ground(item))
    kind = photo.kind
    if kind in (PhotoKind.FRONT, PhotoKind.BACK):
        _whole(sheet, item, behind=kind is PhotoKind.BACK)
    else:
        _near(sheet, item, photo)
    taken = value_or(photo.taken, None)
    sheet.tag(str(item.id), taken.isoformat() if taken else "")
    return sheet.jpeg()


def _number(item: Item) -> int:
    return zlib.crc32(f"{item.maker} {item.model} {item.serial} {item.id}".encode())


def _ground(item: Item) -> Colour:
    grounds: tuple[Colour, ...] = ((196, 190, 180), (176, 184, 186), (202, 190, 168), (182, 186, 172), (190, 180, 184))
    return grounds[_number(item) % len(grounds)]


def _build(item: Item) -> Build:
    assert isinstance(item.family, Family)
    build = _BUILDS[item.family]
    said = str(item.description).casefold()
    slim = 1 - (_number(item) % 7) / 60
    build = replace(build, half=build.half * slim)
    if "natural finish" in said:
        build = replace(build, front=(232, 192, 122), edge=(206, 156, 86))
    elif "pale blue" in said:
        build = replace(build, front=(158, 200, 206), edge=(116, 164, 172), burst=False)
    elif "red sunburst" in said:
        build = replace(build, front=(188, 74, 44), edge=(80, 20, 18))
    elif "brown sunburst" in said:
        build = replace(build, front=(176, 110, 56), edge=(58, 36, 24))
    if "small flat-top" in said:
        build = replace(build, half=build.half * 0.84, top=600, bottom=1060)
    if "curly" in said:
        build = replace(build, front=(186, 120, 60))
    if "walnut" in said:
        build = replace(build, back=(104, 70, 46))
    return build


def _whole(sheet: Canvas, item: Item, *, behind: bool) -> None:
    said = str(item.description).casefold()
    family = item.family
    if family is Family.TUBE_AMPLIFIER:
        objects.amplifier(sheet, wide="two twelve" in said, behind=behind)
    elif family is Family.BOW:
        objects.bow(sheet, behind=behind, mount=(206, 172, 90) if "gold" in said else (216, 216, 212))
    elif family is Family.SILVER:
        objects.tea_service(sheet, behind=behind, box_there="fitted box" in said)
    elif family is Family.TIMEPIECE:
        words = closeups.words_of(str(item.markings))
        objects.chronometer(sheet, behind=behind, words=words[0] if words else "")
    elif family is Family.OTHER:
        objects.stand(sheet, behind=behind)
    else:
        _instrument(sheet, item, behind=behind)


def _instrument(sheet: Canvas, item: Item, *, behind: bool) -> None:
    build = _build(item)
    family = item.family
    if family is Family.BANJO:
        fretted.banjo(sheet, build, behind=behind)
    elif family is Family.HARP_GUITAR:
        fretted.harp_guitar(sheet, build, behind=behind)
    elif behind and family in (Family.SOLID_ELECTRIC, Family.ELECTRIC_BASS):
        fretted.solid_back(sheet, build)
    elif behind and family is Family.MANDOLIN:
        fretted.mandolin_back(sheet, build, scroll="scroll" in str(item.description))
    elif behind:
        fretted.back(sheet, build)
    elif family is Family.ARCHTOP:
        fretted.archtop(sheet, build)
    elif family is Family.MANDOLIN:
        fretted.mandolin(sheet, build, scroll="scroll" in str(item.description))
    elif family is Family.RESONATOR:
        fretted.resonator(sheet, build)
    elif family in (Family.SOLID_ELECTRIC, Family.ELECTRIC_BASS):
        fretted.solid(sheet, build, pickups=2 if "two pickups" in str(item.description) else 1)
    else:
        fretted.flat_top(sheet, build)


def _near(sheet: Canvas, item: Item, photo: Photo) -> None:
    colour = _colour(item)
    kind, part, caption = photo.kind, str(value_or(photo.part, "")), str(photo.caption)
    serial = "" if item.serial == "none" else str(value_or(item.serial, ""))
    markings = str(value_or(item.markings, ""))
    if kind in (PhotoKind.HEAD_FRONT, PhotoKind.HEAD_BACK):
        if item.family is Family.BOW:
            closeups.bow_head(
                sheet, chipped="chipped" in f"{item.structure} {item.cost_to_correct}" or item.cost_to_correct != 0
            )
        else:
            strings = _BUILDS[item.family].strings if isinstance(item.family, Family) else 6
            closeups.head(sheet, str(item.maker), colour, strings, behind=kind is PhotoKind.HEAD_BACK)
    elif kind is PhotoKind.LABEL:
        if item.family in (Family.SILVER, Family.TIMEPIECE):
            closeups.hallmarks(sheet, "".join(re.findall(r"of (\d{4})", markings)[:1]))
        elif "label" in markings:
            closeups.label(sheet, colour, closeups.words_of(markings, 34), serial)
        else:
            closeups.stamp(sheet, colour, closeups.words_of(markings, 20), metal=item.family is Family.OTHER)
    elif kind is PhotoKind.SERIAL:
        if "plate" in markings or item.family in (Family.TUBE_AMPLIFIER, Family.TIMEPIECE):
            closeups.plate(sheet, colour, serial, str(item.maker))
        else:
            closeups.stamp(sheet, colour, [serial], metal=item.family is Family.RESONATOR)
    elif kind is PhotoKind.INTERIOR:
        quoted = re.findall(r"'([^']*[A-Z][a-z]+ \d{4})'", markings)
        inside = closeups.rim if item.family is Family.BANJO else closeups.interior
        inside(sheet, colour, quoted[-1] if quoted else "")
    elif kind is PhotoKind.ELECTRONICS:
        closeups.electronics(sheet, re.findall(r"\d{3}-\d+|'[A-Z] [A-Z]'", markings))
    elif kind is PhotoKind.CASE:
        closeups.case(sheet, (110, 74, 50) if _number(item) % 2 else (74, 62, 60))
    elif kind is PhotoKind.DEFECT:
        closeups.defect(sheet, colour, part, caption)
    else:
        closeups.detail(sheet, colour, part or caption)


def _colour(item: Item) -> Colour:
    if item.family is Family.TUBE_AMPLIFIER:
        return (188, 158, 104) if "diagonal" in str(item.description) else (206, 196, 176)
    if item.family in (Family.SILVER, Family.TIMEPIECE, Family.RESONATOR):
        return (196, 196, 192)
    if item.family is Family.BOW:
        return (150, 84, 42)
    if item.family is Family.OTHER:
        return (70, 66, 64)
    return _build(item).back
