"""Writes all shipped templates, and the list of names for those who restyle: `python -m templates_source.build`."""

import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path

from templates_source import house, sections
from templates_source.name_list import name_list

TARGET = Path(__file__).parent.parent / "templates"
NAMES = TARGET.parent / "docs" / "template_names.md"


def built() -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of every template; a section module is found by itself."""
    look = house.build()
    yield "house.docx", look
    for module in pkgutil.iter_modules(sections.__path__):
        made = importlib.import_module(f"templates_source.sections.{module.name}")
        yield f"sections/{module.name}.docx", made.build(look)


def main() -> None:
    """Write the templates that have changed."""
    for name, content in built():
        file = TARGET / name
        file.parent.mkdir(parents=True, exist_ok=True)
        if not file.exists() or file.read_bytes() != content:
            file.write_bytes(content)
    NAMES.write_text(name_list(), "utf-8")


if __name__ == "__main__":
    main()
