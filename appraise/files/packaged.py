"""Files that come with the program: catalogues, rules, wording, templates.

The package is always installed as plain files (`kept_code.py` and LibreOffice need that too), so a path is enough;
`importlib.resources` takes a twentieth of the start of a command.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def packaged(*names: str) -> Path:
    """Return a file or folder of the package `appraise`, by its names from there on."""
    return _PACKAGE.joinpath(*names)
