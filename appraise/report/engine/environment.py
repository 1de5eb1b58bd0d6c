"""The strict, closed jinja environment every template runs in.

The guard has already refused whatever a template may not say; this is the second wall, and it decides how values are
printed: escaped, line breaks and tabs as Word knows them, control characters gone, and nothing but text and whole
numbers.
"""

import dataclasses
import re
from functools import cache
from typing import Any

from jinja2 import StrictUndefined, Undefined
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context, LoopContext
from jinja2.sandbox import ImmutableSandboxedEnvironment
from jinja2.utils import pass_context
from markupsafe import Markup, escape

from appraise.report.engine.guard import FILTERS, LOOP_NAMES, TESTS
from appraise.report.engine.views import Rich

#: Characters XML 1.0 cannot carry, and the halves of characters that UTF-8 cannot.
_FORBIDDEN = re.compile("[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_TAG_OPENING = re.compile(r"\{(?=[{%#])")


class UnprintableError(Exception):
    """A template asked to print something that is neither text nor a whole number: our own mistake."""


def clean(text: str) -> str:
    """Return the text with `\\n` as its only line end and without characters a Word file cannot carry."""
    return _FORBIDDEN.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def marked_up(text: str) -> Markup:
    """Return the text as it stands inside `w:t`: escaped, line breaks and tabs as elements of the same run.

    Opening braces of anything that looks like a tag are set apart, so that a finished report never contains one,
    even if a user typed it.
    """
    if text.isprintable() and "{" not in text:
        return escape(text)
    shown = str(escape(clean(text)))
    shown = shown.replace("\n", '</w:t><w:br/><w:t xml:space="preserve">')
    shown = shown.replace("\t", '</w:t><w:tab/><w:t xml:space="preserve">')
    return Markup(_TAG_OPENING.sub('{</w:t><w:t xml:space="preserve">', shown))  # noqa: S704 - escaped above


def runs(rich: Rich) -> Markup:
    """Return text with emphasis as runs; it stands where a run stands, not inside one."""
    parts = []
    for span in rich.spans:
        weight = ("<w:b/>" if span.bold else "") + ("<w:i/>" if span.italic else "")
        look = f"<w:rPr>{weight}</w:rPr>" if weight else ""
        parts.append(f'<w:r>{look}<w:t xml:space="preserve">{marked_up(span.text)}</w:t></w:r>')
    return Markup("".join(parts))  # noqa: S704 - texts escaped by marked_up


def _finalize(value: Any) -> Any:
    """Return what is printed: escaped text, whole numbers, and what the engine's helpers have made."""
    kind = type(value)
    if kind is str:
        if value.isprintable() and not ("&" in value or "<" in value or ">" in value or "{" in value or '"' in value):
            return value
        return marked_up(value)
    if kind is Markup or kind is int:
        return value
    if kind is Rich:
        return runs(value)
    if isinstance(value, Undefined):
        return value
    raise UnprintableError(f"a template prints a {kind.__name__}; views hold finished texts")


@cache
def open_names(kind: Any) -> frozenset[str]:
    """Return the names a template may use on an object of this class: the fields of a dataclass, the loop's own."""
    if kind is LoopContext:
        return LOOP_NAMES
    if dataclasses.is_dataclass(kind):
        return frozenset(
            one.name
            for one in dataclasses.fields(kind)
            if not one.name.startswith("_") and one.metadata.get("template", True)
        )
    return frozenset()


class ReportEnvironment(ImmutableSandboxedEnvironment):
    """Opens only fields of frozen views, loops only over their tuples, calls only the engine's helpers."""

    intercepted_binops = frozenset({"**", "*", "+", "-", "/", "//", "%"})

    def getattr(self, obj: Any, attribute: str) -> Any:
        if attribute in open_names(type(obj)):  # type: ignore[arg-type]
            return getattr(obj, attribute)
        return self.undefined(obj=obj, name=attribute)

    def getitem(self, obj: Any, argument: Any) -> Any:
        if type(obj) is tuple and type(argument) is int and -len(obj) <= argument < len(obj):
            return obj[argument]
        return self.undefined(obj=obj, name=str(argument))

    def is_safe_callable(self, obj: Any) -> bool:
        return getattr(getattr(obj, "__func__", obj), "template_helper", False) is True

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        raise SecurityError(f"templates do not compute: {operator}")


@pass_context
def _steps(context: Context, sequence: Any) -> Any:
    if type(sequence) is not tuple:
        if isinstance(sequence, Undefined):
            return sequence
        raise SecurityError("templates loop only over the lists of a view")
    context["_spend"](len(sequence))
    return sequence


def _share(columns: Any, width: int) -> int:
    """Return the width of each of some columns that share a width."""
    return int(width // max(len(columns), 1))


@pass_context
def _heading(context: Context, content: str, level: int, numbered: int) -> Markup:
    marked: Markup = context["_mark_heading"](content, level, numbered)
    return marked


def environment() -> ReportEnvironment:
    """Return a new environment: strict names, escaped text, and only the filters and tests the guard knows."""
    # `finalize` escapes every text itself, at a third of what escaping after it would cost.
    made = ReportEnvironment(undefined=StrictUndefined, autoescape=False, finalize=_finalize, cache_size=0)
    made.globals.clear()
    made.filters = {name: made.filters[name] for name in sorted(FILTERS)}
    made.tests = {name: made.tests[name] for name in sorted(TESTS)}
    made.filters["_steps"] = _steps
    made.filters["_share"] = _share
    made.filters["_heading"] = _heading
    return made
