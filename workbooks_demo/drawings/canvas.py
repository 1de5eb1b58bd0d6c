"""A sheet to draw on: filled shapes with shading, lines, lettering, a scale and the tag that every photograph carries.

Coordinates are those of the finished picture, 900 wide and 1200 high; everything is drawn twice as large and
reduced at the end, which makes the lines smooth. The same calls give the same picture.
"""

import io
import math
import random
from collections.abc import Sequence
from typing import cast

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

Point = tuple[float, float]
Colour = tuple[int, int, int]

WIDTH, HEIGHT = 900, 1200
TWICE = 2
INK: Colour = (52, 44, 38)
#: Room round a shape for its soft shadow.
_SOFT = 40


def smooth(points: Sequence[Point], *, closed: bool = True, steps: int = 14) -> list[Point]:
    """Return a curve through `points` (Catmull-Rom), as a polygon."""
    count = len(points)
    curve: list[Point] = []
    for i in range(count if closed else count - 1):
        p0, p1, p2, p3 = (
            points[j % count] if closed else points[min(max(j, 0), count - 1)] for j in (i - 1, i, i + 1, i + 2)
        )
        for step in range(steps):
            t = step / steps
            curve.append(
                cast(
                    Point,
                    tuple(
                        0.5
                        * (
                            2 * b
                            + (c - a) * t
                            + (2 * a - 5 * b + 4 * c - d) * t * t
                            + (3 * b - a - 3 * c + d) * t * t * t
                        )
                        for a, b, c, d in zip(p0, p1, p2, p3, strict=True)
                    ),
                )
            )
    if not closed:
        curve.append(points[-1])
    return curve


def mirrored(half: Sequence[Point], centre: float) -> list[Point]:
    """Return the closed outline whose right half is given from top to bottom, as distances from the centre line."""
    right = [(centre + x, y) for x, y in half]
    left = [(centre - x, y) for x, y in reversed(half) if x > 0]
    return right + left


def circle(x: float, y: float, radius: float, squash: float = 1.0) -> list[Point]:
    """Return a circle (or an ellipse, `squash` times as high) as a polygon."""
    return [
        (x + radius * math.cos(a * math.tau / 90), y + squash * radius * math.sin(a * math.tau / 90)) for a in range(90)
    ]


def box(left: float, top: float, right: float, bottom: float) -> list[Point]:
    """Return a rectangle as a polygon."""
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def mixed(one: Colour, other: Colour, share: float) -> Colour:
    """Return the colour that lies `share` of the way from one to the other."""
    return cast(Colour, tuple(round(a + (b - a) * share) for a, b in zip(one, other, strict=True)))


def _bounds(shape: Sequence[Point]) -> tuple[int, int, int, int]:
    """Return the rectangle round a shape in drawn points, cut to a little more than the sheet."""
    across, down = [x * TWICE for x, _ in shape], [y * TWICE for _, y in shape]
    return (
        max(-40, math.floor(min(across))),
        max(-40, math.floor(min(down))),
        min(WIDTH * TWICE + 40, math.ceil(max(across)) + 1),
        min(HEIGHT * TWICE + 40, math.ceil(max(down)) + 1),
    )


class Canvas:
    """The sheet. Shapes later drawn lie over earlier ones."""

    def __init__(self, seed: int, ground: Colour = (196, 190, 180)) -> None:
        self.random = random.Random(seed)
        self.image = self._ground(ground)
        self.pen = ImageDraw.Draw(self.image)

    def _ground(self, colour: Colour) -> Image.Image:
        light, dark = mixed(colour, (255, 255, 255), 0.35), mixed(colour, (0, 0, 0), 0.12)
        shade = Image.radial_gradient("L").resize((WIDTH * TWICE, HEIGHT * TWICE))
        sheet = Image.composite(
            Image.new("RGB", shade.size, dark), Image.new("RGB", shade.size, light), shade.point(lambda v: v // 2)
        )
        grain = Image.new("L", (WIDTH // 2, HEIGHT // 2))
        grain.putdata([self.random.randint(119, 137) for _ in range(WIDTH * HEIGHT // 4)])
        cloth = grain.filter(ImageFilter.GaussianBlur(0.6)).resize(sheet.size)
        return ImageChops.overlay(sheet, Image.merge("RGB", (cloth,) * 3))

    def fill(
        self,
        shape: Sequence[Point],
        light: Colour,
        dark: Colour | None = None,
        *,
        burst: bool = False,
        grain: bool = False,
        shadow: bool = False,
        line: float = 2.0,
    ) -> None:
        """Fill a shape, shaded from `light` to `dark`: from left to right, or from the middle outwards (`burst`)."""
        left, top, right, bottom = _bounds(shape)
        if right <= left or bottom <= top:
            return
        size = (right - left, bottom - top)
        mask = Image.new("L", size)
        ImageDraw.Draw(mask).polygon([(x * TWICE - left, y * TWICE - top) for x, y in shape], fill=255)
        if shadow:
            self._shadow(mask, left, top)
        if burst:
            shade = Image.radial_gradient("L").resize(size).point(lambda v: min(255, max(0, (v - 60) * 2)))
        else:
            shade = Image.linear_gradient("L").rotate(90).resize(size)
        dark = dark or mixed(light, (0, 0, 0), 0.25)
        paint = Image.composite(Image.new("RGB", size, dark), Image.new("RGB", size, light), shade)
        if grain:
            self._wood(paint, mixed(light, dark, 0.6))
        self.image.paste(paint, (left, top), mask)
        if line:
            self.line([*shape, shape[0]], line)

    def _shadow(self, mask: Image.Image, left: int, top: int) -> None:
        soft = Image.new("L", (mask.width + 2 * _SOFT, mask.height + 2 * _SOFT))
        soft.paste(mask.point(lambda v: v * 2 // 5), (_SOFT, _SOFT))
        soft = soft.filter(ImageFilter.BoxBlur(10)).filter(ImageFilter.BoxBlur(10))
        self.image.paste((70, 62, 54), (left - _SOFT + 14, top - _SOFT + 18), soft)

    def _wood(self, paint: Image.Image, colour: Colour) -> None:
        pen = ImageDraw.Draw(paint)
        x = 0.0
        while x < paint.width:
            x += self.random.uniform(6, 15)
            lean = self.random.uniform(-4, 4)
            pen.line([(x, 0), (x + lean, paint.height)], fill=colour, width=self.random.choice((1, 1, 2)))

    def line(self, points: Sequence[Point], width: float = 2.0, colour: Colour = INK) -> None:
        """Draw a line through `points`."""
        self.pen.line(
            [(x * TWICE, y * TWICE) for x, y in points], fill=colour, width=round(width * TWICE), joint="curve"
        )

    def text(
        self, words: str, x: float, y: float, size: float = 26, colour: Colour = INK, *, anchor: str = "mm"
    ) -> None:
        """Write one line of words; `anchor` as Pillow has it, "mm" for the middle."""
        font = ImageFont.load_default(size * TWICE)
        self.pen.text((x * TWICE, y * TWICE), words, fill=colour, font=font, anchor=anchor)

    def fitted(self, words: str, x: float, y: float, room: float, size: float = 40, colour: Colour = INK) -> None:
        """Write one line no wider than `room`, smaller if it must be."""
        while size > 10 and ImageFont.load_default(size * TWICE).getlength(words) > room * TWICE:
            size -= 1
        self.text(words, x, y, size, colour)

    def scale(self, x: float, y: float, centimetres: int, each: float = 60) -> None:
        """Lay a scale in centimetres beside the thing."""
        self.fill(box(x - 8, y - 4, x + centimetres * each + 8, y + 44), (244, 240, 228), (232, 226, 210), shadow=True)
        for mark in range(centimetres * 2 + 1):
            self.line([(x + mark * each / 2, y), (x + mark * each / 2, y + (20 if mark % 2 == 0 else 11))], 1.5)
            if mark % 2 == 0:
                self.text(str(mark // 2), x + mark * each / 2, y + 31, 15)
        self.text("cm", x + (centimetres - 0.5) * each, y + 31, 15)

    def tag(self, item: str, day: str) -> None:
        """Lay the tag with the item's number and the day in the lower corner."""
        self.fill(box(642, 1118, 870, 1176), (250, 248, 240), (240, 236, 224), shadow=True, line=1.5)
        self.text(item, 700, 1147, 28)
        self.text(day, 796, 1147, 17)

    def jpeg(self) -> bytes:
        """Return the picture as JPEG."""
        small = self.image.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        out = io.BytesIO()
        small.save(out, "JPEG", quality=56, optimize=True)
        return out.getvalue()
