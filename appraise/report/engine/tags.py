"""Finds the tags of a template in its paragraphs and says which stand where they cannot work.

Tags are those of docxtpl: `{{ value }}`, `{{r emphasised }}`, `{{p paragraphs }}`, `{% if %}` within a paragraph, and
`{%p %}`, `{%tr %}`, `{%tc %}` alone in their paragraph, row or cell. What is opened in a place is closed in the same
place, so the finished document is well-formed whatever the view holds.
"""

import re

from lxml import etree  # type: ignore[import-untyped]

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.place import Place
from appraise.report.engine.names import W

_TAG = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}")
_OPENING = re.compile(r"\{[{%#]")
_PREFIX = re.compile(r"\{[{%](tr|tc|p|r)\s")
_WORD = re.compile(r"\{%(?:tr|tc|p|r)?\s*(\w+)")
#: The words a statement may begin with.
WORDS = frozenset({"for", "endfor", "if", "elif", "else", "endif", "colspan", "cellbg"})
#: Beyond these a template is not made for reading: characters in a tag, tags in a template, tags inside one another.
LONGEST_TAG, MOST_TAGS, DEEPEST = 300, 3000, 12
_PLACES = {"p": "paragraph", "tr": "row", "tc": "cell"}


@frozen
class Tag:
    """One tag: its text, `p`, `tr`, `tc`, `r` or nothing, its first word if a statement, number of its paragraph."""

    text: str
    prefix: str
    word: str
    paragraph: int


def own_text(paragraph: etree._Element) -> str:
    """Return a paragraph's text, without that of text boxes inside it."""
    return "".join(
        one.text or "" for one in paragraph.iter(f"{W}t") if next(one.iterancestors(f"{W}p"), None) is paragraph
    )


class Scan:
    """The tags of a body in order, and the findings about where they stand."""

    def __init__(self, body: etree._Element, name: str) -> None:
        self.name = name
        self.tags: list[Tag] = []
        self.findings: list[Finding] = []
        self._open: list[tuple[str, str, etree._Element, int]] = []
        self._numbers = {paragraph: number for number, paragraph in enumerate(body.iter(f"{W}p"), 1)}
        for paragraph, number in self._numbers.items():
            self._paragraph(number, paragraph)
        for word, tag, _, number in self._open:
            self.report("TPL-06", number, tag, word=word)
        self._outside(body)

    def report(self, code: str, paragraph: int, found: str, **details: object) -> None:
        """Add a finding about a paragraph."""
        self.findings.append(
            finding(code, Place(self.name, paragraph), found=found, file=self.name, paragraph=paragraph, **details)
        )

    def number_of(self, element: etree._Element) -> int:
        """Return the number of the paragraph an element stands in; 0 outside any."""
        holder = element if element.tag == f"{W}p" else next(element.iterancestors(f"{W}p"), None)
        return self._numbers.get(holder, 0)

    def _paragraph(self, number: int, paragraph: etree._Element) -> None:
        text = own_text(paragraph)
        rest = _TAG.sub("", text)
        if _OPENING.search(rest):
            self.report("TPL-04", number, rest[max(rest.find("{"), 0) :][:60])
        elif rest.endswith("{") or rest.startswith("}"):
            self.report("TPL-04", number, rest[:60])
        for match in _TAG.finditer(text):
            tag = match.group()
            if tag.startswith("{#"):
                continue
            if _OPENING.search(tag[2:]) or tag[2] in "-+" or tag[-3] in "-+":
                self.report("TPL-04", number, tag)
                continue
            self._tag(number, paragraph, text, tag)

    def _tag(self, number: int, paragraph: etree._Element, text: str, tag: str) -> None:
        prefix_match = _PREFIX.match(tag)
        prefix = prefix_match.group(1) if prefix_match else ""
        word_match = _WORD.match(tag)
        word = word_match.group(1) if word_match else ""
        self.tags.append(Tag(tag, prefix, word, number))
        if tag.startswith("{%") and word not in WORDS:
            self.report("TPL-07", number, tag, what=word or tag)
            return
        if len(tag) > LONGEST_TAG or len(self.tags) > MOST_TAGS or len(self._open) > DEEPEST:
            self.report("TPL-07", number, tag[:60], what="so long a tag, so many, or so deep a nesting")
            return
        place = self._standing(number, paragraph, text, tag, prefix)
        if place is None:
            return
        if word in ("for", "if"):
            self._open.append((word, tag, place, number))
        elif word in ("endfor", "endif", "else", "elif"):
            self._close(number, tag, word, place)

    def _standing(
        self, number: int, paragraph: etree._Element, text: str, tag: str, prefix: str
    ) -> etree._Element | None:
        """Return the element in which the tag's partner must stand, or None after a finding."""
        if prefix in ("", "r"):
            return paragraph
        holder = paragraph if prefix == "p" else next(paragraph.iterancestors(f"{W}{prefix}"), None)
        if holder is None:
            self.report("TPL-05", number, tag, holder=_PLACES[prefix])
            return None
        whole = text if prefix == "p" else "".join(own_text(one) for one in holder.iter(f"{W}p"))
        if whole.strip() != tag or next(holder.iter(f"{W}drawing", f"{W}pict"), None) is not None:
            self.report("TPL-05", number, tag, holder=_PLACES[prefix])
            return None
        return holder.getparent()

    def _close(self, number: int, tag: str, word: str, place: etree._Element) -> None:
        opener = self._open[-1] if self._open else None
        wanted = {"endfor": ("for",), "endif": ("if",), "elif": ("if",), "else": ("if", "for")}[word]
        if opener is None or opener[0] not in wanted or opener[2] is not place:
            self.report("TPL-06", number, tag, word=word)
            return
        if word.startswith("end"):
            self._open.pop()

    def _outside(self, body: etree._Element) -> None:
        for element in body.iter():
            if not isinstance(element.tag, str):
                continue
            texts: list[str] = [str(value) for value in element.attrib.values()]
            if element.tag != f"{W}t":
                texts.append(element.text or "")
            texts.append(element.tail or "")
            if any(_OPENING.search(text) for text in texts):
                shown = next(text for text in texts if _OPENING.search(text))
                self.report("TPL-14", self.number_of(element), shown.strip()[:60])
