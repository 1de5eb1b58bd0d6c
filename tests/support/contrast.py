"""Contrast of two colours, by the formula of a published standard.

WCAG 2.2 (W3C Recommendation), "relative luminance" and "contrast ratio"; success criterion 1.4.3 asks 4.5 to 1 of text.
"""

#: Success criterion 1.4.3, text of common size.
LEAST = 4.5


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour given as RRGGBB: 0 for black, 1 for white."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, from 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def laid_over(top: str, ground: str, share: float) -> str:
    """Return what is seen of a colour that covers another by `share`, from 0 to 1."""
    mixed = (int(top[n : n + 2], 16) * share + int(ground[n : n + 2], 16) * (1 - share) for n in (0, 2, 4))
    return "".join(f"{round(part):02X}" for part in mixed)
