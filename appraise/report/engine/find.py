"""Where templates come from: the appraiser's own folder first, then the ones that are shipped."""

import re
from collections.abc import Sequence
from pathlib import Path

from appraise.files.packaged import packaged
from appraise.model.frozen import frozen

#: A template larger than this is refused unread [bytes].
LARGEST = 8_000_000
_NAME = re.compile(r"[a-z0-9_]+")


def shipped() -> Path:
    """Return the folder of the shipped templates: inside the package, or beside it in a working copy."""
    inside = packaged("templates")
    return inside if inside.is_dir() else packaged().parent / "templates"


@frozen
class TemplateFinder:
    """Looks for `house.docx` and `sections/NAME.docx`, folder by folder; the first one found is taken."""

    folders: tuple[Path, ...]

    @classmethod
    def with_own(cls, own: Path | None = None) -> "TemplateFinder":
        """Return a finder that looks in the appraiser's folder, if there is one, and then in the shipped one."""
        return cls((own, shipped()) if own is not None else (shipped(),))

    def house(self) -> bytes:
        """Return the house document; FileNotFoundError if there is none."""
        return self._read("house.docx")

    def section(self, name: str) -> bytes:
        """Return the template of a section; FileNotFoundError if there is none."""
        if not _NAME.fullmatch(name):
            raise FileNotFoundError(f"{name!r} cannot be the name of a section")
        return self._read("sections", f"{name}.docx")

    def own_files(self) -> Sequence[Path]:
        """Return the appraiser's own templates, which are checked before anything is rendered."""
        found: list[Path] = []
        for folder in self.folders[:-1]:
            found += sorted(folder.glob("house.docx")) + sorted((folder / "sections").glob("*.docx"))
        return found

    def _read(self, *parts: str) -> bytes:
        for folder in self.folders:
            file = folder.joinpath(*parts)
            if file.is_file():
                with file.open("rb") as stream:
                    content = stream.read(LARGEST + 1)
                if len(content) > LARGEST:
                    raise ValueError(f"{'/'.join(parts)} is larger than {LARGEST // 1_000_000} MB")
                return content
        raise FileNotFoundError(f"no template {'/'.join(parts)}")
