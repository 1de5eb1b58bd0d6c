"""The sheet of published dating facts in a blank workbook: to read, to filter, and to pick an id from on Evidence."""

from collections.abc import Callable, Mapping
from typing import Any

from appraise.rules.published import FROM_OBJECT, Fact, facts
from appraise.workbook.writing import looks

_COLUMNS = (("Id", 14), ("Seen on the object", 52), ("Kind", 22), ("Possible", 30), ("Source", 52), ("Caution", 52))


def write_facts(page: Any, look: Callable[..., Any]) -> int:
    """Write every published fact, one line each; return the number of facts."""
    title = (
        "Published dating facts: pick the id on Evidence, column 'By id'. A fact bounds only the part that carries it."
    )
    page.write_string(0, 0, title, look(looks.TITLE))
    rows = [_row(fact) for fact in facts().values()]
    heading = look(looks.OPTIONAL)
    columns = [{"header": text, "header_format": heading} for text, _width in _COLUMNS]
    frame: Mapping[str, Any] = {
        "name": "published_facts",
        "style": "Table Style Light 1",
        "banded_rows": False,
        "columns": columns,
    }
    page.add_table(1, 0, 1 + len(rows), len(_COLUMNS) - 1, frame)
    wrapped = look({**looks.PLAIN, "text_wrap": True, "valign": "top"})
    for number, row in enumerate(rows, 2):
        for column, text in enumerate(row):
            page.write_string(number, column, text, wrapped)
    for column, (_text, width) in enumerate(_COLUMNS):
        page.set_column(column, column, width)
    page.freeze_panes(2, 1)
    page.set_landscape()
    page.set_paper(9)
    page.fit_to_pages(1, 0)
    page.repeat_rows(1)
    page.set_footer("&LPublished facts&RPage &P of &N")
    return len(rows)


def _row(fact: Fact) -> tuple[str, ...]:
    spans = [_span(lower, upper) for lower, upper in fact.spans] or ["bounds nothing"]
    source = f"{fact.source} ({fact.seen.value}; strength at most {fact.seen.strength})"
    return fact.id, fact.mark, fact.kind, " or ".join(spans), source, fact.caution


def _span(lower: str, upper: str) -> str:
    words = [
        f"{word} {'a date on the object' if bound == FROM_OBJECT else bound}"
        for word, bound in (("from", lower), ("to", upper))
        if bound
    ]
    return " ".join(words) or "any time"
