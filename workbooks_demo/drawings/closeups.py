"""Close views: head, label, number, inside, electrics, defects, details, cases."""

import math
import re
import textwrap

from workbooks_demo.drawings.canvas import INK, Canvas, Colour, Point, box, circle, mirrored, mixed, smooth

PAPER: Colour = (240, 228, 196)
METAL: Colour = (206, 206, 204)


def wood(sheet: Canvas, colour: Colour) -> None:
    """Cover the sheet with wood, as of a body seen from near."""
    sheet.fill(box(-10, -10, 910, 1210), colour, mixed(colour, (0, 0, 0), 0.3), grain=True, line=0)


#: Middle and shoulder of the upper edge of a head; each maker has one of them.
_CROWNS = ((150, 130), (104, 150), (128, 128))


def head(sheet: Canvas, name: str, colour: Colour, strings: int, *, behind: bool) -> None:
    """Draw the head of an instrument with the maker's name; crown and inlay differ from maker to maker."""
    kind = len(name) % len(_CROWNS)
    middle, shoulder = _CROWNS[kind]
    shape = [(0, middle), (120, shoulder), (190, 210), (150, 620), (120, 860), (96, 960)]
    outline = [*[(450 + x, y) for x, y in shape], *[(450 - x, y) for x, y in reversed(shape)]]
    sheet.fill(box(354, 950, 546, 1210), mixed(colour, (0, 0, 0), 0.25), grain=True)
    sheet.fill(
        outline, colour if behind else (52, 42, 38), mixed(colour, (0, 0, 0), 0.4), grain=behind, shadow=True, line=5
    )
    per_side = max(2, math.ceil(strings / 2))
    for peg in range(per_side):
        y = 280 + peg * 470 / max(1, per_side - 1)
        for side in (-1, 1):
            sheet.fill(circle(450 + side * 104, y, 22), METAL, (140, 140, 138))
            sheet.fill(circle(450 + side * 232, y, 30, 0.75), (238, 228, 198), (206, 190, 150), shadow=True)
            sheet.line([(450 + side * 150, y), (450 + side * 204, y)], 9, (150, 150, 148))
            if not behind:
                sheet.line([(450 + side * 104, y), (450 + side * 40, 950)], 1.2, (160, 150, 136))
    if behind:
        for side in (-1, 1):
            sheet.fill(box(450 + side * 104 - 30, 240, 450 + side * 104 + 30, 800), METAL, (150, 150, 148))
        return
    sheet.line([(354, 954), (546, 954)], 14, (238, 228, 198))
    sheet.fitted(name, 450, 214, 250, 40, (226, 206, 150))
    for x, y, size in ((450.0, 480.0, 44), (450.0, 600.0, 30), (450.0, 700.0, 20)):
        inlay: list[Point]
        if kind == 0:
            inlay = [(x, y - size), (x + size * 0.7, y), (x, y + size), (x - size * 0.7, y)]
        elif kind == 1:
            inlay = circle(x, y, size * 0.6)
        else:
            inlay = box(x - size * 0.8, y - size * 0.4, x + size * 0.8, y + size * 0.4)
        sheet.fill(inlay, (224, 226, 220), (180, 190, 186), line=1)


def bow_head(sheet: Canvas, *, chipped: bool) -> None:
    """Draw the head of a bow with its plate."""
    shape = [
        (250, 1200),
        (300, 760),
        (330, 420),
        (380, 250),
        (560, 300),
        (640, 420),
        (560, 520),
        (470, 620),
        (420, 820),
        (390, 1200),
    ]
    sheet.fill(smooth(shape), (150, 82, 40), (104, 52, 24), grain=True, shadow=True, line=4)
    plate = [(380, 250), (560, 300), (640, 420), (664, 404), (580, 270), (392, 226)]
    sheet.fill(plate, (246, 240, 224), (226, 216, 190), line=2)
    if chipped:
        sheet.fill([(392, 226), (420, 236), (402, 252), (386, 246)], (196, 190, 180), line=1)
    for hair in range(9):
        sheet.line([(600 - hair * 8, 480 - hair * 4), (640 - hair * 12, 1200)], 1, (232, 226, 208))


def label(sheet: Canvas, colour: Colour, lines: list[str], number: str) -> None:
    """Draw a paper label seen inside, with its words."""
    wood(sheet, mixed(colour, (0, 0, 0), 0.25))
    sheet.fill(
        smooth(circle(450, 560, 420, 1.15)), mixed(colour, (255, 255, 255), 0.2), colour, burst=True, grain=True, line=0
    )
    sheet.fill(box(180, 400, 720, 740), PAPER, mixed(PAPER, (120, 90, 40), 0.3), shadow=True, line=2)
    sheet.line([(196, 416), (704, 416), (704, 724), (196, 724), (196, 416)], 1.5, (128, 96, 60))
    for row, words in enumerate(lines[:4]):
        sheet.fitted(words, 450, 468 + row * 58, 480, 46 if row == 0 else 28)
    if number:
        sheet.fitted(f"No. {number}", 450, 690, 300, 36, (92, 40, 40))
    for stain in range(7):
        x, y = sheet.random.uniform(190, 700), sheet.random.uniform(410, 730)
        sheet.fill(circle(x, y, sheet.random.uniform(4, 12)), mixed(PAPER, (120, 90, 40), 0.35 + stain * 0.02), line=0)


def stamp(sheet: Canvas, colour: Colour, words: list[str], *, metal: bool) -> None:
    """Draw words stamped or branded into wood or metal, with a scale."""
    ground = METAL if metal else colour
    sheet.fill(box(-10, -10, 910, 1210), ground, mixed(ground, (0, 0, 0), 0.3), grain=not metal, line=0)
    for row, one in enumerate(words[:5]):
        y = 420 + row * 110
        sheet.fitted(one, 452, y + 3, 700, 66, mixed(ground, (255, 255, 255), 0.5))
        sheet.fitted(one, 450, y, 700, 66, mixed(ground, (0, 0, 0), 0.65))
    sheet.scale(120, 1000, 7)


def hallmarks(sheet: Canvas, year: str) -> None:
    """Draw four marks punched into silver, with a scale."""
    sheet.fill(box(-10, -10, 910, 1210), METAL, (140, 140, 138), line=0)
    sheet.line(circle(450, 640, 520, 0.9), 5, (150, 150, 148))
    fields = (
        smooth([(130, 480), (270, 480), (280, 570), (200, 620), (120, 570)]),
        circle(385, 545, 72),
        box(490, 484, 600, 606),
        smooth([(650, 484), (780, 484), (770, 590), (715, 616), (660, 590)]),
    )
    letter = chr(ord("a") + int(year) % 20) if year else "m"
    for field, words, x in zip(fields, ("B&D", "*", "925", letter), (200, 385, 545, 715), strict=True):
        sheet.fill(field, (150, 150, 148), (196, 196, 192), line=3)
        sheet.text(words, x, 545, 46 if len(words) > 2 else 64, (84, 82, 80))
    sheet.scale(180, 960, 6)


def rim(sheet: Canvas, colour: Colour, words: str) -> None:
    """Draw the inside of a banjo's rim with its rod and an inscription."""
    sheet.fill(box(-10, -10, 910, 1210), (40, 34, 30), (22, 18, 16), line=0)
    sheet.fill(circle(450, 560, 410), colour, mixed(colour, (0, 0, 0), 0.4), burst=True, grain=True, line=4)
    sheet.fill(circle(450, 560, 340), (236, 230, 216), (206, 198, 180), burst=True, line=3)
    sheet.fill(box(410, 150, 490, 970), mixed(colour, (255, 255, 255), 0.15), grain=True, shadow=True, line=3)
    sheet.line([(450, 170), (450, 960)], 8, METAL)
    if words:
        sheet.fill(box(250, 520, 650, 600), mixed(colour, (255, 255, 255), 0.25), grain=True, line=2)
        sheet.fitted(words, 450, 560, 370, 34)


def plate(sheet: Canvas, colour: Colour, number: str, maker: str) -> None:
    """Draw the place of the serial number: a metal plate on the object, with a scale."""
    wood(sheet, colour)
    sheet.fill(box(190, 380, 710, 680), METAL, (150, 150, 148), shadow=True, line=3)
    for x, y in ((222, 412), (678, 412), (222, 648), (678, 648)):
        sheet.fill(circle(x, y, 15), (170, 170, 168), line=2)
        sheet.line([(x - 9, y - 5), (x + 9, y + 5)], 2.5)
    sheet.fitted(maker, 450, 450, 400, 34, (90, 88, 86))
    sheet.fitted(number, 450, 560, 440, 84, (40, 38, 38))
    sheet.scale(180, 940, 6)


def interior(sheet: Canvas, colour: Colour, words: str) -> None:
    """Draw the inside seen through the hole by mirror: braces crossing, cleats, a pencilled note."""
    sheet.fill(box(-10, -10, 910, 1210), (30, 26, 24), (16, 14, 12), line=0)
    sheet.fill(
        circle(450, 580, 400),
        mixed(colour, (255, 240, 200), 0.4),
        mixed(colour, (0, 0, 0), 0.45),
        burst=True,
        grain=True,
    )
    for ends in (((160, 320), (700, 880)), ((740, 300), (200, 860)), ((120, 640), (420, 930))):
        sheet.line(ends, 30, mixed(colour, (255, 236, 190), 0.55))
        sheet.line(ends, 3, mixed(colour, (0, 0, 0), 0.5))
    for cleat in range(4):
        x, y = 300 + cleat * 74, 470 - cleat * 26
        sheet.fill([(x - 16, y), (x, y - 16), (x + 16, y), (x, y + 16)], (216, 186, 132))
    if words:
        sheet.fitted(words, 450, 700, 300, 36, (90, 84, 80))


def electronics(sheet: Canvas, codes: list[str]) -> None:
    """Draw a cavity or a chassis from inside: controls with their codes, a capacitor, wires."""
    sheet.fill(box(-10, -10, 910, 1210), (120, 104, 84), (84, 70, 56), grain=True, line=0)
    sheet.fill(smooth([(110, 220), (790, 190), (810, 900), (470, 980), (100, 900)]), (66, 58, 50), (44, 38, 34), line=4)
    for one, (x, y) in enumerate(((280, 400), (610, 420), (300, 720))):
        sheet.fill(circle(x, y, 112), METAL, (140, 140, 138), burst=True, shadow=True, line=3)
        sheet.fill(box(x - 60, y + 96, x + 60, y + 130), (150, 110, 60))
        sheet.fitted(codes[one] if one < len(codes) else "", x, y - 20, 190, 34, (50, 48, 46))
        sheet.fill(circle(x - 40, y + 40, 22, 0.7), (190, 190, 188))
    sheet.fill(box(520, 640, 720, 720), (196, 150, 70), (150, 104, 40), shadow=True)
    wires = (
        ((300, 520), (420, 600), (540, 660)),
        ((610, 540), (640, 600), (690, 650)),
        ((300, 840), (520, 900), (740, 860)),
    )
    for points, colour in zip(wires, ((200, 186, 150), (60, 60, 60), (180, 70, 50)), strict=True):
        sheet.line(smooth(points, closed=False), 6, colour)


def defect(sheet: Canvas, colour: Colour, part: str, caption: str) -> None:
    """Draw a defect from near, with a scale: a crack, a dent, marks, holes or a shadow, as the caption says."""
    wood(sheet, colour)
    words = caption.casefold()
    if "crack" in words:
        line: list[Point] = []
        x = 420.0
        for down in range(180, 860, 34):
            x += sheet.random.uniform(-12, 12)
            line.append((x, float(down)))
        sheet.line(line, 4, mixed(colour, (0, 0, 0), 0.75))
    elif "dent" in words:
        sheet.fill(
            circle(450, 520, 110, 0.6),
            mixed(colour, (0, 0, 0), 0.3),
            mixed(colour, (255, 255, 255), 0.3),
            burst=True,
            line=1,
        )
    elif "hole" in words or "hinge" in words or "tuner" in words:
        sheet.fill(
            smooth([(320, 320), (580, 300), (600, 700), (330, 720)]), mixed(colour, (255, 255, 255), 0.16), line=1
        )
        for x, y in ((350.0, 420.0), (560.0, 440.0), (452.0, 640.0)):
            sheet.fill(circle(x, y, 13), (32, 26, 24))
    elif "torn" in words or "corner" in words:
        sheet.fill(
            smooth([(260, 260), (560, 330), (520, 520), (640, 690), (330, 620)]),
            (206, 178, 128),
            (160, 126, 80),
            grain=True,
        )
    elif "action" in words:
        sheet.fill(box(100, 620, 800, 760), (70, 52, 42), grain=True)
        for string in range(3):
            sheet.line([(100, 600 - string * 3), (800, 520 - string * 3)], 2.5, METAL)
    elif "speaker" in words:
        sheet.fill(circle(450, 560, 300), (70, 66, 62), (36, 34, 32), burst=True)
        sheet.fill(circle(450, 560, 96), (110, 104, 98), (60, 56, 52), burst=True)
    else:
        for _ in range(34):
            x, y = sheet.random.uniform(220, 680), sheet.random.uniform(260, 800)
            sheet.line(
                [(x, y), (x + sheet.random.uniform(-44, 44), y + sheet.random.uniform(-14, 14))],
                1.6,
                mixed(colour, (255, 255, 255), 0.5),
            )
    sheet.scale(180, 960, 6)
    if part:
        sheet.fitted(part, 450, 110, 700, 34, mixed(colour, (255, 255, 255), 0.75))


def detail(sheet: Canvas, colour: Colour, part: str) -> None:
    """Draw a part from near, on its ground, with a scale and the part's name."""
    wood(sheet, colour)
    words = part.casefold()
    if "tray" in words:
        sheet.fill(circle(450, 560, 400, 0.7), (226, 226, 222), (150, 148, 144), burst=True, shadow=True, line=4)
        sheet.line(circle(450, 560, 340, 0.66), 2, (150, 148, 144))
    elif "frog" in words:
        sheet.fill(
            smooth([(220, 420), (690, 400), (700, 700), (230, 690)]), (40, 34, 32), (22, 18, 18), shadow=True, line=4
        )
        sheet.fill(circle(450, 550, 66), (226, 228, 236), (160, 176, 196), burst=True)
        sheet.fill(box(640, 396, 712, 706), (206, 172, 90), (150, 118, 50))
    elif "cone" in words:
        for ring in range(12):
            sheet.fill(circle(450, 560, 340 - ring * 27), mixed((216, 216, 212), (150, 150, 148), ring % 2), line=1.5)
    elif "nut" in words:
        sheet.fill(box(190, 470, 710, 570), (244, 236, 212), (222, 206, 166), shadow=True, line=3)
        for slot in range(6):
            sheet.line([(240 + slot * 84, 466), (240 + slot * 84, 500)], 5)
    elif "cord" in words:
        sheet.line(smooth([(120, 300), (420, 380), (360, 640), (640, 720), (760, 880)], closed=False), 26, (36, 34, 34))
        sheet.fill(box(96, 250, 190, 350), (52, 50, 50), shadow=True)
    elif "neck" in words:
        sheet.fill(
            [(330, 120), (570, 120), (620, 860), (280, 860)],
            mixed(colour, (255, 255, 255), 0.2),
            grain=True,
            shadow=True,
            line=3,
        )
        sheet.line([(280, 620), (620, 600)], 3)
    else:
        sheet.fill(
            smooth([(260, 360), (640, 340), (670, 720), (450, 790), (240, 730)]),
            METAL,
            (142, 142, 140),
            shadow=True,
            line=3,
        )
        for line in range(7):
            sheet.line(
                smooth([(290, 420 + line * 44), (450, 396 + line * 44), (630, 430 + line * 44)], closed=False),
                1.4,
                (120, 120, 118),
            )
    sheet.scale(180, 980, 6)
    sheet.fitted(part, 450, 110, 700, 34, mixed(colour, (255, 255, 255), 0.75))


def case(sheet: Canvas, colour: Colour) -> None:
    """Draw a closed case."""
    lid = [(0, 120), (110, 130), (150, 300), (140, 520), (230, 640), (290, 830), (240, 1030), (0, 1070)]
    sheet.fill(smooth(mirrored(lid, 450)), colour, mixed(colour, (0, 0, 0), 0.4), burst=True, shadow=True, line=5)
    sheet.line(
        smooth(mirrored([(max(0, x - 26), 600 + (y - 600) * 0.94) for x, y in lid], 450)), 1.6, mixed(colour, INK, 0.6)
    )
    for y in (420, 700, 960):
        sheet.fill(
            box(640 if y > 600 else 566, y - 22, 690 if y > 600 else 616, y + 22), (196, 164, 96), (140, 110, 56)
        )
    sheet.fill(smooth([(700, 600), (770, 610), (770, 730), (710, 740)]), (70, 50, 40))


def words_of(markings: str, width: int = 30) -> list[str]:
    """Return the words between quotation marks, else the markings themselves, broken into lines.

    Of several places of marking, those on a label come alone.
    """
    places = markings.split(";")
    markings = ";".join([one for one in places if "label" in one] or places)
    quoted = re.findall(r"(?<!\w)'(.+?)'(?!\w)", markings)
    return [line for one in (quoted or [markings]) for line in textwrap.wrap(one, width)]
