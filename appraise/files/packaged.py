"""Files that come with the program: catalogues, rules, wording, templates.

The package is always installed as plain files, so a path is enough; importing `importlib.resources` takes a twentieth
of the time in which a small job is checked.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def packaged(*names: str) -> Path:
    """Return a file or folder of the package `appraise`, by its names from there on."""
    return _PACKAGE.joinpath(*names)
