"""Other objects, whole: amplifiers, bows, silver, timepieces, a music stand."""

import math

from workbooks_demo.drawings.canvas import Canvas, Colour, Point, box, circle, mirrored, mixed, smooth

SILVER: Colour = (226, 226, 222)
TARNISH: Colour = (146, 144, 140)
CLOTH: Colour = (188, 158, 104)
PALE: Colour = (214, 206, 188)
DARK: Colour = (56, 50, 48)


def amplifier(sheet: Canvas, *, wide: bool, behind: bool) -> None:
    """Draw an amplifier from the front or from behind."""
    left, right = (110, 790) if wide else (170, 730)
    cover = PALE if wide else CLOTH
    sheet.fill(box(left, 300, right, 940), cover, mixed(cover, (0, 0, 0), 0.25), shadow=True, line=4)
    for lean in range(int(left) - 640, int(right), 18):
        sheet.line(
            [(max(left, lean), 300 + max(0, left - lean)), (min(right, lean + 640), 300 + min(640, right - lean))],
            0.8,
            mixed(cover, DARK, 0.3),
        )
    sheet.fill(smooth([(390, 296), (420, 262), (480, 262), (510, 296)]), (92, 58, 40))
    if behind:
        sheet.fill(box(left + 40, 470, right - 40, 900), (70, 60, 52), (48, 42, 38))
        sheet.fill(box(left + 40, 340, right - 40, 450), (168, 168, 166), (120, 120, 118))
        for tube in range(5):
            sheet.fill(
                smooth(
                    [
                        (left + 100 + tube * 90, 450),
                        (left + 90 + tube * 90, 520),
                        (left + 112 + tube * 90, 540),
                        (left + 134 + tube * 90, 520),
                        (left + 124 + tube * 90, 450),
                    ]
                ),
                (222, 226, 226),
                (160, 168, 170),
            )
        sheet.fill(circle(450, 720, 130), (90, 86, 80), (40, 36, 34), burst=True)
        sheet.line(
            smooth([(right - 60, 440), (right + 20, 560), (right - 10, 800), (right + 40, 1000)], closed=False),
            7,
            (36, 34, 34),
        )
        return
    sheet.fill(box(left + 40, 440, right - 40, 900), mixed(cover, (90, 70, 40), 0.45), line=3)
    for row in range(452, 896, 9):
        sheet.line([(left + 44, row), (right - 44, row)], 0.8, mixed(cover, DARK, 0.45))
    for speaker in (300, 600) if wide else (450,):
        sheet.line(circle(speaker, 670, 150), 1.5, mixed(cover, DARK, 0.5))
    sheet.fill(box(left + 40, 340, right - 40, 420), (198, 196, 190), (164, 162, 156))
    for knob in range(6 if wide else 4):
        x = left + 110 + knob * 92
        sheet.fill(circle(x, 380, 22), DARK)
        sheet.line([(x, 380), (x + 12, 366)], 2.5, (240, 236, 224))


def bow(sheet: Canvas, *, behind: bool, mount: Colour) -> None:
    """Draw a bow, whole length, standing."""
    bend = -1 if behind else 1
    stick = smooth([(450, 1040), (450 - 10 * bend, 760), (450 - 26 * bend, 460), (450 - 4 * bend, 150)], closed=False)
    hair = 450 + 44 * bend
    for strand in range(-6, 7, 2):
        sheet.line([(hair + strand, 1000), (hair + strand * 0.6 - 4 * bend, 170)], 0.9, (236, 230, 214))
    sheet.line([(x + 9, y + 9) for x, y in stick], 11, (164, 156, 146))
    sheet.line(stick, 11, (136, 72, 34))
    sheet.line([(x - 2, y) for x, y in stick], 3, (184, 112, 60))
    head = [(450 - 8 * bend, 150), (450 + 2 * bend, 118), (hair + 4 * bend, 138), (hair, 176), (450 + 4 * bend, 190)]
    sheet.fill(head, (136, 72, 34), shadow=True)
    sheet.line([(450 + 2 * bend, 118), (hair + 4 * bend, 138)], 4, (244, 238, 222))
    frog = [(450 + 6 * bend, 960), (hair + 12 * bend, 966), (hair + 14 * bend, 1040), (450 + 6 * bend, 1044)]
    sheet.fill(frog, (40, 34, 32), shadow=True)
    sheet.fill(circle(450 + 30 * bend, 1004, 13), (226, 226, 232), (170, 180, 196))
    sheet.fill(box(min(hair, hair + 14 * bend), 956, max(hair, hair + 14 * bend), 972), mount)
    sheet.fill(box(440, 1044, 460, 1086), mount, mixed(mount, DARK, 0.4))
    for ring in range(16):
        sheet.line([(442 - 4 * bend, 850 + ring * 6), (458 - 4 * bend, 848 + ring * 6)], 2, (222, 222, 218))


def vessel(sheet: Canvas, x: float, base: float, tall: float, half: float, *, spout: bool, behind: bool) -> None:
    """Draw one piece of hollow silver."""
    side = -1 if behind else 1
    if spout:
        tube = [
            (x + side * half * 0.7, base - tall * 0.3),
            (x + side * half * 1.5, base - tall * 0.55),
            (x + side * half * 1.9, base - tall * 0.86),
            (x + side * half * 1.65, base - tall * 0.86),
            (x + side * half * 1.2, base - tall * 0.6),
        ]
        sheet.fill(smooth(tube), SILVER, TARNISH)
    handle = [
        (x - side * half * 0.8, base - tall * 0.72),
        (x - side * half * 1.6, base - tall * 0.7),
        (x - side * half * 1.5, base - tall * 0.3),
        (x - side * half * 0.8, base - tall * 0.26),
    ]
    sheet.line(smooth(handle, closed=False), 9, TARNISH)
    form: list[Point] = [
        (0, base - tall),
        (half * 0.5, base - tall * 0.96),
        (half * 0.62, base - tall * 0.8),
        (half * 0.98, base - tall * 0.45),
        (half * 0.8, base - tall * 0.12),
        (half * 0.5, base - tall * 0.05),
        (half * 0.62, base),
        (0, base),
    ]
    sheet.fill(smooth(mirrored(form, x)), SILVER, TARNISH, shadow=True, line=2.5)
    for reed in (0.8, 0.2):
        sheet.line([(x - half * 0.7, base - tall * reed), (x + half * 0.7, base - tall * reed)], 1.6, TARNISH)
    sheet.fill(circle(x, base - tall - 10, 11), DARK)


def tea_service(sheet: Canvas, *, behind: bool, box_there: bool) -> None:
    """Draw a tea service of five pieces."""
    if box_there:
        sheet.fill(box(80, 220, 820, 420), (86, 42, 40), (54, 26, 26), shadow=True)
    sheet.fill(circle(450, 890, 390, 0.32), SILVER, TARNISH, burst=True, shadow=True, line=4)
    sheet.line(circle(450, 890, 350, 0.3), 2, TARNISH)
    order = (
        (250, 820, 300, 72, True),
        (560, 850, 240, 92, True),
        (330, 960, 130, 58, False),
        (690, 940, 140, 48, False),
    )
    for x, base, tall, half, spout in order:
        place = 900 - x if behind else x
        vessel(sheet, place, base, tall, half, spout=spout, behind=behind)


def chronometer(sheet: Canvas, *, behind: bool, words: str) -> None:
    """Draw a pocket chronometer: the dial, or the back of its case with engraving."""
    sheet.line(circle(450, 268, 52), 16, TARNISH)
    sheet.fill(box(428, 296, 472, 350), SILVER, TARNISH)
    sheet.fill(circle(450, 640, 300), SILVER, TARNISH, burst=True, shadow=True, line=4)
    if behind:
        sheet.line(circle(450, 640, 266), 2, TARNISH)
        for ray in range(60):
            a = ray * math.tau / 60
            sheet.line(
                [
                    (450 + 270 * math.cos(a), 640 + 270 * math.sin(a)),
                    (450 + 284 * math.cos(a), 640 + 284 * math.sin(a)),
                ],
                1.2,
                TARNISH,
            )
        sheet.fitted(words, 450, 640, 380, 48, (110, 108, 104))
        return
    sheet.fill(circle(450, 640, 258), (248, 246, 238), (228, 224, 212), burst=True, line=2)
    for hour in range(1, 13):
        a = hour * math.tau / 12 - math.tau / 4
        sheet.text(str(hour), 450 + 214 * math.cos(a), 640 + 214 * math.sin(a), 40)
    for minute in range(60):
        a = minute * math.tau / 60
        sheet.line(
            [(450 + 244 * math.cos(a), 640 + 244 * math.sin(a)), (450 + 252 * math.cos(a), 640 + 252 * math.sin(a))],
            1.5,
        )
    sheet.fill(circle(450, 760, 62), (240, 238, 228), line=1.5)
    sheet.text("60", 450, 712, 16)
    sheet.fill(circle(450, 500, 44), (240, 238, 228), line=1.5)
    sheet.text("56 h", 450, 500, 14)
    for angle, length, wide in ((-2.2, 130, 7.0), (-0.6, 200, 5.0)):
        sheet.line([(450, 640), (450 + length * math.cos(angle), 640 + length * math.sin(angle))], wide, (44, 60, 120))
    sheet.line([(450, 760), (450 + 36, 730)], 2, (44, 60, 120))
    sheet.fill(circle(450, 640, 9), (44, 60, 120))
    for line in ([(620, 800), (650, 826), (668, 862)], [(250, 470), (228, 440)]):
        sheet.line(line, 1, (150, 146, 138))


def stand(sheet: Canvas, *, behind: bool) -> None:
    """Draw a folding music stand."""
    for foot in (-190, 0, 190):
        sheet.line([(450, 860), (450 + foot, 1080)], 9, DARK)
    sheet.line([(450, 440), (450, 880)], 12, DARK)
    sheet.fill([(240, 250), (660, 250), (630, 480), (270, 480)], (66, 62, 60), (40, 38, 36), shadow=True)
    for bar in range(5):
        sheet.line([(262 + bar * 94, 262), (282 + bar * 84, 470)], 5, (104, 100, 96))
    if not behind:
        sheet.line([(262, 488), (638, 488)], 12, DARK)
