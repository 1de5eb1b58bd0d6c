"""The terms of docs/glossary.md in three languages, brought up to date from the texts.

After a change of the texts: `PYTHONPATH=tests python -m support.glossary`. Which terms stand there, and what each is,
is written by hand; the cells of the languages are those of the keys.
"""

from pathlib import Path

from support.translations import word_originals

from appraise.wording.texts import originals, translations

PAGE = Path(__file__).parents[2] / "docs" / "glossary.md"
LANGUAGES = ("en", "de", "fr")


def own_texts(code: str) -> dict[str, str]:
    """Return the texts of a language by key; the English words of closed lists stand in the records."""
    return {**word_originals(), **originals()} if code == "en" else dict(translations(code))


def cells_of(line: str) -> list[str]:
    """Return the cells of a row of a table."""
    return [cell.strip(" ") for cell in line.strip("|").split(" | ")]


def is_keyed(line: str) -> bool:
    """Say whether a line is a row that begins with the key of a text."""
    return line.startswith("| `")


def current(page: str) -> str:
    """Return the page with the cells of the three languages as the texts are now; an unknown key is a KeyError."""
    texts = [own_texts(code) for code in LANGUAGES]
    lines = []
    for line in page.splitlines():
        if is_keyed(line):
            key, *cells = cells_of(line)
            new = [own[key.strip("`")] for own in texts]
            line = "| " + " | ".join([key, *new, *cells[len(new) :]]) + " |"
        lines.append(line)
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    PAGE.write_text(current(PAGE.read_text("utf-8")), "utf-8")
