"""docxtpl's own render and save of the same templates and the same view.

The section templates are joined into one beforehand, the item's section inside a loop. Pictures are docxtpl's own
`InlineImage`; charts, bookmarks and the contents list, which docxtpl has none of, are left out in its favour.
"""

import io
import sys
import time
from pathlib import Path
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile

from docx.shared import Mm
from docxtpl import DocxTemplate, InlineImage
from jinja2 import Environment
from markupsafe import Markup

from appraise.report.engine.find import TemplateFinder
from bench.say import say
from bench.texts import texts_of
from bench.views import read_view

_TAG = "<w:p><w:r><w:t>{{%p {} %}}</w:t></w:r></w:p>"


def joined(templates: TemplateFinder, composed: Any) -> bytes:
    """Return one template with the bodies of all sections."""
    pieces = []
    base = b""
    for use in composed.sections:
        base = templates.section(use.name)
        with ZipFile(io.BytesIO(base)) as package:
            content = package.read("word/document.xml").decode()
        body = content[content.index("<w:body>") + 8 : content.rindex("<w:sectPr")]
        pieces.append(_TAG.format("for item in items") + body + _TAG.format("endfor") if use.per_item else body)
    target = io.BytesIO()
    with ZipFile(io.BytesIO(base)) as old, ZipFile(target, "w", ZIP_DEFLATED) as new:
        for entry in old.infolist():
            data = old.read(entry)
            if entry.filename == "word/document.xml":
                text = data.decode()
                head, tail = text.index("<w:body>") + 8, text.rindex("<w:sectPr")
                data = f"{text[:head]}{''.join(pieces)}{text[tail:]}".encode()
            new.writestr(entry.filename, data)
    return target.getvalue()


def main(view: str, target: str) -> None:
    """Say the mark of the text and what reading the template, rendering and saving took."""
    composed = read_view(Path(view))
    content = joined(TemplateFinder.with_own(), composed)
    counts: dict[str, int] = {}
    begun = time.process_time()
    made = DocxTemplate(io.BytesIO(content))

    def seq(kind: str) -> str:
        counts[kind] = counts.get(kind, 0) + 1
        return str(counts[kind])

    def picture(one: Any, width: int = 75, height: int = 100) -> Any:
        if one is None:
            return ""
        wide = one.width * height >= one.height * width
        return InlineImage(made, str(one.source), **({"width": Mm(width)} if wide else {"height": Mm(height)}))

    context = {
        "r": composed.report, "items": composed.items, "picture": picture, "chart": lambda *_: "",
        "footnote": lambda _: "", "anchor": lambda _: "", "link": lambda _, text: text, "page_of": lambda _: "",
        "seq": seq, "contents": lambda *_: Markup("<w:p/>"),
    }  # fmt: skip
    made.render(context, jinja_env=Environment(autoescape=True))
    made.save(target)
    took = time.process_time() - begun
    say(texts_of(Path(target)), took)


if __name__ == "__main__":
    main(*sys.argv[1:])
