"""Checks an appraiser's own templates before anything is rendered: names, kinds, styles, with the nearest valid name.

What the views hold is read from their classes, so a template is checked against all it could ever be given.
"""

import dataclasses
import difflib
import types
import typing
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from jinja2 import nodes

from appraise.model.finding import Finding, finding
from appraise.model.place import Place
from appraise.report.engine.environment import open_names
from appraise.report.engine.find import TemplateFinder
from appraise.report.engine.guard import HELPERS, LOOP_NAMES
from appraise.report.engine.house import House, house
from appraise.report.engine.section import Section, TemplateRefusedError, compiled, tag_on_line
from appraise.report.engine.views import Edges, HistoryChart, Picture, PriceChart, Rich, TimeChart
from appraise.report.engine.word_file import NotAWordFileError, WordFile

_CHART = PriceChart | TimeChart | HistoryChart
#: What each helper is given; the first so many are required.
_ARGUMENTS: dict[str, tuple[int, tuple[Any, ...]]] = {
    "picture": (1, (Picture, int, int)),
    "chart": (1, (_CHART, int, int)),
    "footnote": (1, (str,)),
    "anchor": (1, (str,)),
    "link": (2, (str, str)),
    "page_of": (1, (str,)),
    "seq": (1, (str,)),
    "contents": (0, (int,)),
}
_UNKNOWN = object()
_LOOP = object()


def lint_template(content: bytes, name: str, schema: Mapping[str, type], look: House) -> list[Finding]:
    """Return what is wrong with a section template; empty if it can be used.

    name    as findings print it, for example `sections/cover.docx`
    schema  the views a template is given, by name: `{"r": ReportView, "item": ItemView}`
    look    the house document it will be printed with
    """
    found = _macros(content, name)
    try:
        section = compiled(content, name, look.headings)
    except TemplateRefusedError as refused:
        return [*found, *refused.findings]
    return [*found, *_names(section, schema), *_looks(section, look)]


def lint_house(content: bytes, schema: Mapping[str, type]) -> list[Finding]:
    """Return what is wrong with a house document; empty if it can be used."""
    found = _macros(content, "house.docx")
    try:
        look = house(content)
    except TemplateRefusedError as refused:
        return [*found, *refused.findings]
    for edge in look.edges:
        found += _names(edge.section, {**schema, "edges": Edges})
    return found


def lint_folder(templates: TemplateFinder, schema: Mapping[str, type], sections: Collection[str]) -> list[Finding]:
    """Return what is wrong with all templates of the appraiser's own folder, in the order of their names.

    sections  the names of all sections there are; a file of another name is noted
    """
    found: list[Finding] = []
    try:
        content = templates.house()
    except ValueError as fault:
        return [finding("TPL-01", Place("house.docx"), found="house.docx", file="house.docx", reason=str(fault))]
    own = templates.own_files()
    if any(file.name == "house.docx" for file in own):
        found += lint_house(content, schema)
    try:
        look = house(content)
    except TemplateRefusedError:
        return found
    for file in own:
        if file.parent.name != "sections":
            continue
        name = f"sections/{file.name}"
        if file.stem not in sections:
            nearest = _nearest(file.stem, sections)
            found.append(finding("TPL-15", Place(name), found=file.name, file=name, nearest=nearest))
            continue
        try:
            found += lint_template(templates.section(file.stem), name, schema, look)
        except ValueError as fault:
            found.append(finding("TPL-01", Place(name), found=name, file=name, reason=str(fault)))
    return found


def _macros(content: bytes, name: str) -> list[Finding]:
    try:
        parts = WordFile(content).names
    except NotAWordFileError:
        return []
    if "word/vbaProject.bin" in parts:
        return [finding("TPL-02", Place(name), found="vbaProject", file=name, paragraph=0)]
    return []


def _nearest(word: str, words: Collection[str]) -> str:
    close = difflib.get_close_matches(word, sorted(words), 1, 0.0)
    return close[0] if close else "none"


def _looks(section: Section, look: House) -> Iterator[Finding]:
    for style, paragraph in section.styles.items():
        if style not in look.style_ids:
            yield _about(section, "TPL-11", paragraph, style)
    for number, paragraph in section.numberings.items():
        if number not in look.numbering_ids | {"0"}:
            yield _about(section, "TPL-17", paragraph, number)


def _about(section: Section, code: str, paragraph: int, found: str, **details: object) -> Finding:
    return finding(code, Place(section.name, paragraph), found=found, file=section.name, paragraph=paragraph, **details)


def _names(section: Section, schema: Mapping[str, type]) -> list[Finding]:
    walk = _Walk(section)
    walk.body(section.tree.body, dict(schema), frozenset())
    return list(dict.fromkeys(walk.findings))


class _Walk:
    """Follows the tags with the kind of every value in mind."""

    def __init__(self, section: Section) -> None:
        self.section = section
        self.findings: list[Finding] = []

    def report(self, code: str, node: nodes.Node, **details: object) -> None:
        tag = tag_on_line(self.section.tags, node.lineno)
        paragraph, text = (tag.paragraph, tag.text) if tag else (0, "")
        self.findings.append(_about(self.section, code, paragraph, text, **details))

    def body(self, parts: list[Any], scope: dict[str, Any], sure: frozenset[str]) -> None:
        """Check what is printed; `sure` are the values a condition around it has asked about."""
        for node in parts:
            if isinstance(node, nodes.Output):
                for one in node.nodes:
                    if not isinstance(one, nodes.TemplateData):
                        self.printed(one, self.kind(one, scope), sure)
            elif isinstance(node, nodes.For):
                element = self.element(node, self.kind(node.iter, scope))
                assert isinstance(node.target, nodes.Name)
                if node.test is not None:
                    self.kind(node.test, {**scope, node.target.name: element})
                self.body(node.body, {**scope, node.target.name: element, "loop": _LOOP}, sure)
                self.body(node.else_, scope, sure)
            elif isinstance(node, nodes.If):
                self.kind(node.test, scope)
                asked = sure | set(_asked(node.test))
                self.body(node.body, scope, asked)
                for other in node.elif_:
                    self.body([other], scope, asked)
                self.body(node.else_, scope, asked)

    def element(self, loop: nodes.For, kind: Any) -> Any:
        """Return the kind of a list's entries."""
        if kind is _UNKNOWN:
            return _UNKNOWN
        inner = _entries(_without_none(kind))
        if inner is None:
            self.misused(loop, loop.iter, kind, "Only lists can be repeated; print this value with {{ }}.")
            return _UNKNOWN
        return inner

    def misused(self, node: nodes.Node, value: nodes.Node, kind: Any, advice: str) -> None:
        self.report("TPL-10", node, name=_spelt(value), kind=_described(kind), advice=advice)

    def printed(self, node: nodes.Node, kind: Any, sure: frozenset[str]) -> None:
        """Check that a value can be printed as its tag does."""
        if kind is _UNKNOWN or isinstance(node, nodes.Call):
            return
        tag = tag_on_line(self.section.tags, node.lineno)
        rich = tag is not None and tag.prefix == "r"
        plain = _without_none(kind)
        if plain is not kind and _spelt(node) not in sure:
            self.misused(node, node, kind, f"Put it inside {{% if {_spelt(node)} is not none %}} ... {{% endif %}}.")
        elif plain is Rich and not rich:
            self.misused(node, node, kind, "Print text with emphasis by {{r ... }}, the letter directly at the braces.")
        elif plain is not Rich and rich:
            self.misused(node, node, kind, "Print plain text by {{ ... }}, without the letter r.")
        elif plain not in (str, int, Rich):
            self.misused(node, node, kind, _advice(plain))

    def kind(self, node: nodes.Node, scope: dict[str, Any]) -> Any:
        """Return the kind of an expression, reporting names that are not there."""
        match node:
            case nodes.Name():
                return self.named(node, scope)
            case nodes.Getattr():
                return self.attribute(node, self.kind(node.node, scope))
            case nodes.Getitem():
                return self.entry(node, self.kind(node.node, scope))
            case nodes.Const():
                return type(node.value)
            case nodes.Filter():
                assert node.node is not None
                return self.filtered(node, self.kind(node.node, scope))
            case nodes.Call():
                return self.called(node, scope)
            case nodes.CondExpr():
                self.kind(node.test, scope)
                if node.expr2 is not None:
                    self.kind(node.expr2, scope)
                return self.kind(node.expr1, scope)
        for child in node.iter_child_nodes():
            self.kind(child, scope)
        return bool

    def named(self, node: nodes.Name, scope: dict[str, Any]) -> Any:
        if node.name in scope:
            return scope[node.name]
        self.report("TPL-09", node, name=node.name, nearest=_nearest(node.name, {*scope, *HELPERS} - {"loop"}))
        return _UNKNOWN

    def attribute(self, node: nodes.Getattr, kind: Any) -> Any:
        if kind is _UNKNOWN:
            return _UNKNOWN
        plain = _without_none(kind)
        names = LOOP_NAMES if plain is _LOOP else open_names(plain) if isinstance(plain, type) else frozenset()
        if node.attr in names:
            return int if plain is _LOOP else typing.get_type_hints(plain)[node.attr]
        if not names:
            self.misused(node, node.node, kind, "It has no parts that could be named after a dot.")
            return _UNKNOWN
        nearest = f"{_spelt(node.node)}.{_nearest(node.attr, names)}"
        self.report("TPL-09", node, name=_spelt(node), nearest=nearest)
        return _UNKNOWN

    def entry(self, node: nodes.Getitem, kind: Any) -> Any:
        if kind is _UNKNOWN:
            return _UNKNOWN
        inner = _entries(_without_none(kind))
        if inner is None:
            self.misused(node, node.node, kind, "Only lists have numbered entries.")
            return _UNKNOWN
        return inner

    def filtered(self, node: nodes.Filter, kind: Any) -> Any:
        inner = None if kind is _UNKNOWN else _entries(_without_none(kind))
        if node.name in ("length", "count"):
            return int
        if node.name in ("first", "last"):
            return _UNKNOWN if inner is None else inner
        return str

    def called(self, node: nodes.Call, scope: dict[str, Any]) -> Any:
        assert isinstance(node.node, nodes.Name)
        name = node.node.name
        required, kinds = _ARGUMENTS[name]
        given = [self.kind(one, scope) for one in node.args]
        given += [self.kind(one.value, scope) for one in node.kwargs]
        if not required <= len(given) <= len(kinds):
            self.report("TPL-13", node, reason=f"{name} takes {required} to {len(kinds)} values, here {len(given)}")
        for value, kind, wanted in zip(node.args, given, kinds, strict=False):
            if kind is not _UNKNOWN and not _fits(_without_none(kind), wanted):
                self.report("TPL-13", node, reason=f"'{_spelt(value)}' is {_described(kind)}, not {_described(wanted)}")
        return _UNKNOWN


def _asked(test: nodes.Node) -> Iterator[str]:
    """Yield the values a condition asks about, as they are spelt."""
    yield _spelt(test)
    for child in test.iter_child_nodes():
        yield from _asked(child)


def _spelt(node: nodes.Node) -> str:
    match node:
        case nodes.Name():
            return node.name
        case nodes.Getattr():
            return f"{_spelt(node.node)}.{node.attr}"
        case nodes.Getitem():
            return f"{_spelt(node.node)}[...]"
        case nodes.Const():
            return repr(node.value)
    return "..."


def _without_none(kind: Any) -> Any:
    """Return a kind without the possibility of nothing."""
    if isinstance(kind, types.UnionType) or typing.get_origin(kind) is typing.Union:
        left = [one for one in typing.get_args(kind) if one is not type(None)]
        if len(left) < len(typing.get_args(kind)):
            joined = left[0]
            for one in left[1:]:
                joined = joined | one
            return joined
    return kind


def _entries(kind: Any) -> Any:
    """Return the kind of a tuple's entries, or None if it is no tuple."""
    if typing.get_origin(kind) is not tuple:
        return None
    return typing.get_args(kind)[0]


def _fits(kind: Any, wanted: Any) -> bool:
    if isinstance(wanted, types.UnionType):
        return any(_fits(kind, one) for one in typing.get_args(wanted)) or kind == wanted
    if isinstance(kind, types.UnionType):
        return all(_fits(one, wanted) for one in typing.get_args(kind))
    return bool(kind == wanted)


def _described(kind: Any) -> str:
    plain = _without_none(kind)
    if plain is not kind:
        return f"{_described(plain)} or nothing"
    if _entries(kind) is not None:
        return "a list"
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return f"a {kind.__name__}"
    if isinstance(kind, types.UnionType):
        return " or ".join(_described(one) for one in typing.get_args(kind))
    return {str: "a text", int: "a whole number", bool: "yes or no"}.get(kind, "something else")


def _advice(kind: Any) -> str:
    if _entries(kind) is not None:
        return "A list is repeated: {%p for x in ... %}, or joined: {{ ... | join(', ') }}."
    if kind is Picture:
        return "Place a picture by {{ picture(...) }}."
    if kind in (PriceChart, TimeChart, HistoryChart):
        return "Place a chart by {{ chart(...) }}."
    if kind is bool:
        return "Yes or no is asked by {% if ... %}."
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        return f"Print one of its parts: {', '.join(sorted(open_names(kind)))}."
    return "It cannot be printed."
