"""Names of files that stand in a workbook: they mean files of the workbook's own folder, and no others."""

from pathlib import Path, PureWindowsPath


def inside(folder: Path, name: str) -> Path | None:
    """Return the place a typed name means, None where it leads out of `folder`; both kinds of slash are understood.

    A workbook may come from elsewhere; it must not bring other files of this machine into a report. So a name that
    leads out by `..`, as an absolute path or through a link is refused. Whether anything is there is not asked.
    """
    typed = PureWindowsPath(name.strip())
    if typed.anchor or ".." in typed.parts or not typed.parts or "\x00" in name:
        return None
    home = folder.resolve()
    place = home.joinpath(*typed.parts)
    try:
        real = place.resolve()
    except (OSError, RuntimeError):
        # Too long a name, or links in a ring: nothing is there, and whoever opens it is told so.
        return place
    return real if real.is_relative_to(home) else None
