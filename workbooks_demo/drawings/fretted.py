"""Fretted instruments, whole, from the front and from the back."""

import math
from dataclasses import dataclass, replace

from workbooks_demo.drawings.canvas import Canvas, Colour, Point, box, circle, mirrored, mixed, smooth

MIDDLE = 450.0
EBONY: Colour = (48, 40, 38)
METAL: Colour = (206, 206, 204)
BRASS: Colour = (196, 164, 96)
CREAM: Colour = (238, 228, 198)

#: Right half of an outline: distance from the centre line as part of the half width, and height as part of the length.
WAISTED = (
    (0.0, 0.0), (0.34, 0.015), (0.62, 0.09), (0.71, 0.2), (0.66, 0.33), (0.59, 0.43), (0.65, 0.54), (0.85, 0.65),
    (1.0, 0.79), (0.93, 0.92), (0.55, 0.99), (0.0, 1.0),
)  # fmt: skip
PEAR = (
    (0.0, 0.0), (0.2, 0.03), (0.38, 0.14), (0.66, 0.32), (0.92, 0.52), (1.0, 0.7), (0.88, 0.88), (0.5, 0.98),
    (0.0, 1.0),
)  # fmt: skip


@dataclass(frozen=True)
class Build:
    """How an instrument is drawn: its body, the neck's length, the number of strings, the woods."""

    outline: tuple[tuple[float, float], ...]
    top: float
    bottom: float
    half: float
    nut: float
    neck: float
    strings: int
    front: Colour
    edge: Colour
    back: Colour
    burst: bool = True

    def body(self) -> list[Point]:
        """Return the outline of the body."""
        return smooth(
            mirrored([(x * self.half, self.top + y * (self.bottom - self.top)) for x, y in self.outline], MIDDLE)
        )


def neck(sheet: Canvas, build: Build, *, behind: bool, frets: int = 14, to: float | None = None) -> None:
    """Draw neck and head."""
    end = to if to is not None else build.top + (0.0 if behind else 60.0)
    wide = build.neck
    head = [(0.0, 60.0), (wide * 0.8, 62.0), (wide * 1.45, 92.0), (wide * 1.2, build.nut - 40), (wide * 0.8, build.nut)]
    wood = mixed(build.back, (255, 255, 255), 0.1)
    sheet.fill(
        [*[(MIDDLE + x, y) for x, y in head], *[(MIDDLE - x, y) for x, y in reversed(head)]],
        wood if behind else EBONY, shadow=True,
    )  # fmt: skip
    board = [
        (MIDDLE - wide * 0.8, build.nut),
        (MIDDLE + wide * 0.8, build.nut),
        (MIDDLE + wide, end),
        (MIDDLE - wide, end),
    ]
    sheet.fill(board, wood if behind else (78, 56, 44), (60, 42, 34) if not behind else None, shadow=True, grain=True)
    pegs = max(2, math.ceil(build.strings / 2))
    for peg in range(pegs):
        y = 92 + peg * (build.nut - 130) / max(1, pegs - 1)
        for side in (-1, 1):
            sheet.fill(circle(MIDDLE + side * wide * 1.75, y, 9), CREAM if behind else METAL, line=1.2)
    if behind:
        return
    for fret in range(1, frets):
        y = build.nut + (end - build.nut) * 1.18 * (1 - 2 ** (-fret / 12)) / (1 - 2 ** (-frets / 12)) / 1.18
        sheet.line([(MIDDLE - wide * 0.95, y), (MIDDLE + wide * 0.95, y)], 1.4, METAL)
        if fret in (3, 5, 7, 9):
            sheet.fill(circle(MIDDLE, y - 9, 4), CREAM, line=0)
    sheet.line([(MIDDLE - wide * 0.8, build.nut), (MIDDLE + wide * 0.8, build.nut)], 4, CREAM)


def strings(sheet: Canvas, build: Build, to: float) -> None:
    """Draw the strings from nut to bridge or tailpiece."""
    for string in range(build.strings):
        x = (string - (build.strings - 1) / 2) * build.neck * 1.4 / max(1, build.strings - 1)
        sheet.line([(MIDDLE + x * 0.85, build.nut), (MIDDLE + x * 1.25, to)], 0.8, (120, 112, 100))


def back(sheet: Canvas, build: Build, body: list[Point] | None = None) -> None:
    """Draw the instrument from behind; `body` where it has another outline than its build's."""
    neck(sheet, build, behind=True, to=build.top + 24)
    sheet.fill(
        body or build.body(),
        build.back,
        mixed(build.back, (0, 0, 0), 0.35),
        burst=build.burst,
        grain=True,
        shadow=True,
        line=3,
    )
    if body is None:
        sheet.line([(MIDDLE, build.top + 6), (MIDDLE, build.bottom - 4)], 2.5, CREAM)
    heel = [(0.0, build.top - 4), (20.0, build.top), (16.0, build.top + 34), (0.0, build.top + 44)]
    sheet.fill(smooth(mirrored(heel, MIDDLE)), build.back)


def flat_top(sheet: Canvas, build: Build) -> None:
    """Draw a flat-top guitar or a ukulele from the front."""
    body, tall = build.body(), build.bottom - build.top
    sheet.fill(body, build.front, build.edge, burst=build.burst, grain=True, shadow=True, line=4)
    hole = build.top + 0.36 * tall
    sheet.fill(circle(MIDDLE, hole, build.half * 0.31), CREAM, line=2)
    sheet.fill(circle(MIDDLE, hole, build.half * 0.27), (34, 28, 24), (20, 16, 14), burst=True)
    guard = [(30, hole + 22), (84, hole + 44), (112, hole + 104), (70, hole + 124), (36, hole + 84)]
    if build.half > 150:
        sheet.fill(smooth([(MIDDLE + x, y) for x, y in guard]), (96, 58, 40), line=1.5)
    neck(sheet, build, behind=False, to=hole - build.half * 0.27)
    bridge = build.top + 0.68 * tall
    sheet.fill(box(MIDDLE - build.half * 0.38, bridge, MIDDLE + build.half * 0.38, bridge + 26), EBONY)
    strings(sheet, build, bridge + 10)


def archtop(sheet: Canvas, build: Build) -> None:
    """Draw an archtop guitar from the front."""
    body, tall = build.body(), build.bottom - build.top
    sheet.fill(body, build.front, build.edge, burst=True, grain=True, shadow=True, line=5)
    for side in (-1, 1):
        y = build.top + 0.5 * tall
        curve = [
            (side * 96, y - 74),
            (side * 82, y - 40),
            (side * 100, y + 6),
            (side * 84, y + 56),
            (side * 104, y + 84),
        ]
        sheet.line(smooth([(MIDDLE + a, b) for a, b in curve], closed=False), 13, CREAM)
        sheet.line(smooth([(MIDDLE + a, b) for a, b in curve], closed=False), 9, (32, 26, 22))
    neck(sheet, build, behind=False, to=build.top + 0.2 * tall)
    guard = [
        (38, build.top + 0.24 * tall),
        (78, build.top + 0.3 * tall),
        (84, build.top + 0.5 * tall),
        (44, build.top + 0.52 * tall),
    ]
    sheet.fill([(MIDDLE + x, y) for x, y in guard], (110, 56, 30), line=1.5)
    bridge = build.top + 0.6 * tall
    sheet.fill(box(MIDDLE - 66, bridge, MIDDLE + 66, bridge + 16), EBONY)
    tailpiece = [(0.0, bridge + 86), (30.0, bridge + 90), (24.0, build.bottom - 10), (0.0, build.bottom - 4)]
    sheet.fill(smooth(mirrored(tailpiece, MIDDLE)), METAL)
    strings(sheet, build, bridge + 94)


#: Outline of the solid body from the treble side of the neck round to the bass side, as parts of half width and length.
SLAB = (
    (-0.22, 0.14), (-0.5, 0.02), (-0.74, -0.06), (-0.8, 0.08), (-0.7, 0.28), (-0.72, 0.44), (-0.96, 0.62),
    (-0.98, 0.82), (-0.6, 0.98), (0.0, 1.0), (0.62, 0.97), (1.0, 0.78), (0.94, 0.58), (0.7, 0.44), (0.72, 0.3),
    (0.7, 0.16), (0.5, 0.12), (0.24, 0.18),
)  # fmt: skip


def slab(build: Build, *, behind: bool) -> list[Point]:
    """Return the outline of a solid body with two unequal horns."""
    tall, side = build.bottom - build.top, -1 if behind else 1
    return smooth([(MIDDLE + side * x * build.half, build.top + y * tall) for x, y in SLAB])


def solid_back(sheet: Canvas, build: Build) -> None:
    """Draw a solid-body electric or a bass from behind, with the plate at the neck and a cavity cover."""
    painted = replace(build, back=mixed(build.front, build.edge, 0.35))
    back(sheet, painted, slab(build, behind=True))
    neck(sheet, build, behind=True, to=build.top + 70)
    tall = build.bottom - build.top
    sheet.fill(box(MIDDLE - 34, build.top + 40, MIDDLE + 34, build.top + 120), METAL)
    for x, y in ((-24, 50), (24, 50), (-24, 110), (24, 110)):
        sheet.fill(circle(MIDDLE + x, build.top + y, 5), (150, 150, 148), line=1)
    sheet.fill(circle(MIDDLE - build.half * 0.5, build.top + 0.68 * tall, 44, 0.8), (60, 56, 54))


def solid(sheet: Canvas, build: Build, *, pickups: int) -> None:
    """Draw a solid-body electric or a bass from the front."""
    top, tall = build.top, build.bottom - build.top
    sheet.fill(slab(build, behind=False), build.front, build.edge, burst=build.burst, shadow=True, line=4)
    guard = [(-0.3, 0.2), (0.3, 0.2), (0.62, 0.5), (0.6, 0.8), (0.28, 0.74), (-0.3, 0.62), (-0.44, 0.4)]
    sheet.fill(smooth([(MIDDLE + x * build.half, top + y * tall) for x, y in guard]), (232, 226, 206), line=1.5)
    neck(sheet, build, behind=False, frets=20, to=top + 0.24 * tall)
    for one in range(pickups):
        y = top + (0.34 + 0.2 * one) * tall
        sheet.fill(box(MIDDLE - 52, y, MIDDLE + 52, y + 28), (60, 58, 56), line=1.5)
        for pole in range(build.strings):
            sheet.fill(circle(MIDDLE - 38 + pole * 76 / (build.strings - 1), y + 14, 4), METAL, line=0)
    bridge = top + 0.72 * tall
    sheet.fill(box(MIDDLE - 50, bridge, MIDDLE + 50, bridge + 34), METAL)
    for knob in range(2):
        sheet.fill(circle(MIDDLE + build.half * (0.46 + 0.12 * knob), top + (0.62 + 0.1 * knob) * tall, 15), CREAM)
    strings(sheet, build, bridge + 18)


def mandolin_back(sheet: Canvas, build: Build, *, scroll: bool) -> None:
    """Draw a mandolin from behind."""
    if scroll:
        tall = build.bottom - build.top
        for x, y in ((0.98, 0.4), (0.86, 0.86)):
            tip = (MIDDLE - build.half * (x + 0.22), build.top + y * tall)
            base = MIDDLE - build.half * 0.6
            sheet.fill([(base, tip[1] - 30), tip, (base, tip[1] + 30)], build.back, shadow=True)
        sheet.fill(circle(MIDDLE + build.half * 0.66, build.top + 0.12 * tall, 58), build.back, shadow=True, line=4)
    back(sheet, build)


def mandolin(sheet: Canvas, build: Build, *, scroll: bool) -> None:
    """Draw a mandolin from the front, with scroll and points or of plain pear shape."""
    tall = build.bottom - build.top
    if scroll:
        for x, y in ((0.98, 0.4), (0.86, 0.86)):
            tip = (MIDDLE + build.half * (x + 0.22), build.top + y * tall)
            base = MIDDLE + build.half * 0.6
            sheet.fill([(base, tip[1] - 30), tip, (base, tip[1] + 30)], build.edge, shadow=True)
    sheet.fill(build.body(), build.front, build.edge, burst=True, grain=True, shadow=True, line=5)
    if scroll:
        centre = (MIDDLE - build.half * 0.66, build.top + 0.12 * tall)
        sheet.fill(circle(*centre, 58), build.front, build.edge, burst=True, shadow=True, line=4)
        spiral = [
            (centre[0] + (50 - 6.2 * i / 4) * math.cos(i / 4), centre[1] + (50 - 6.2 * i / 4) * math.sin(i / 4))
            for i in range(30)
        ]
        sheet.line(spiral, 3, CREAM)
        for side in (-1, 1):
            y = build.top + 0.6 * tall
            curve = [(side * 84, y - 50), (side * 72, y - 20), (side * 86, y + 24), (side * 74, y + 56)]
            sheet.line(smooth([(MIDDLE + a, b) for a, b in curve], closed=False), 8, (32, 26, 22))
    else:
        sheet.fill(circle(MIDDLE, build.top + 0.44 * tall, 50, 0.72), CREAM)
        sheet.fill(circle(MIDDLE, build.top + 0.44 * tall, 42, 0.72), (32, 26, 22))
    neck(sheet, build, behind=False, frets=16, to=build.top + 0.26 * tall)
    bridge = build.top + 0.68 * tall
    sheet.fill(box(MIDDLE - 58, bridge, MIDDLE + 58, bridge + 12), EBONY)
    sheet.fill(box(MIDDLE - 34, bridge + 76, MIDDLE + 34, build.bottom - 4), METAL)
    strings(sheet, build, bridge + 80)


def banjo(sheet: Canvas, build: Build, *, behind: bool) -> None:
    """Draw a banjo: head with its hooks, or the resonator from behind."""
    radius, y = build.half, (build.top + build.bottom) / 2
    neck(sheet, build, behind=behind, frets=20, to=y - radius + (8 if behind else 36))
    sheet.fill(circle(MIDDLE, y, radius), build.back, build.edge, burst=True, grain=True, shadow=True, line=4)
    if behind:
        sheet.line(circle(MIDDLE, y, radius * 0.9), 5, CREAM)
        sheet.line([*circle(MIDDLE, y, radius * 0.3)], 3, build.edge)
        return
    sheet.fill(circle(MIDDLE, y, radius * 0.86), METAL, (150, 150, 150))
    sheet.fill(circle(MIDDLE, y, radius * 0.8), (244, 240, 230), (216, 210, 196), burst=True)
    for hook in range(24):
        a = hook * math.tau / 24
        sheet.fill(circle(MIDDLE + radius * 0.86 * math.cos(a), y + radius * 0.86 * math.sin(a), 7), METAL, line=1)
    sheet.fill(circle(MIDDLE - build.neck * 1.2, build.nut + 210, 8), METAL)
    sheet.fill(box(MIDDLE - 34, y + radius * 0.34, MIDDLE + 34, y + radius * 0.34 + 12), (150, 104, 62))
    sheet.fill(box(MIDDLE - 20, y + radius * 0.66, MIDDLE + 20, y + radius * 0.88), METAL)
    strings(sheet, build, y + radius * 0.68)


def resonator(sheet: Canvas, build: Build) -> None:
    """Draw a metal-bodied resonator guitar from the front."""
    tall = build.bottom - build.top
    sheet.fill(build.body(), (228, 228, 224), (138, 138, 136), shadow=True, line=4)
    y = build.top + 0.66 * tall
    sheet.fill(circle(MIDDLE, y, build.half * 0.74), (214, 214, 210), (160, 160, 158), burst=True, line=3)
    for one in range(9):
        a = one * math.tau / 9
        x0, y0 = MIDDLE + build.half * 0.5 * math.cos(a), y + build.half * 0.5 * math.sin(a)
        sheet.fill([(x0, y0 - 20), (x0 + 13, y0), (x0, y0 + 20), (x0 - 13, y0)], (60, 58, 56), line=1)
    for side in (-1, 1):
        sheet.fill(circle(MIDDLE + side * build.half * 0.42, build.top + 0.26 * tall, 26), (52, 50, 48))
    neck(sheet, build, behind=False, to=build.top + 0.28 * tall)
    sheet.fill(box(MIDDLE - 40, y - 8, MIDDLE + 40, y + 8), (180, 140, 90))
    strings(sheet, build, y)


def harp_guitar(sheet: Canvas, build: Build, *, behind: bool) -> None:
    """Draw a harp guitar: a guitar with a hollow arm and sub-basses."""
    tall = build.bottom - build.top
    arm = [
        (-0.5, 0.3),
        (-1.02, -0.06),
        (-1.12, -0.6),
        (-0.82, -1.02),
        (-0.5, -1.08),
        (-0.7, -0.72),
        (-0.72, -0.3),
        (-0.36, 0.06),
    ]
    shape = smooth([(MIDDLE + x * build.half, build.top + y * tall) for x, y in arm])
    sheet.fill(shape, build.back if behind else build.front, build.edge, grain=True, shadow=True, line=4)
    if behind:
        back(sheet, build)
        return
    flat_top(sheet, build)
    for sub in range(10):
        x = MIDDLE - build.half * (0.56 + 0.02 * sub)
        sheet.line(
            [(x + 60, build.top + 0.7 * tall), (x - 18 - sub * 3, build.top - 0.92 * tall + sub * 26)],
            0.9,
            (120, 96, 60),
        )
        sheet.fill(circle(x - 18 - sub * 3, build.top - 0.92 * tall + sub * 26, 5), METAL, line=1)
