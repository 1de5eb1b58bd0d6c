"""What a template may say, decided on its syntax tree before anything runs.

A template prints, repeats and leaves out. It does not compute, assign, import or call anything but the engine's own
helpers; so a template from a stranger can neither run code nor read files, and what it repeats is bounded by the view.
"""

from collections.abc import Iterator

from jinja2 import nodes

from appraise.model.frozen import frozen

#: The helpers a template may call, by name.
HELPERS = frozenset({"picture", "chart", "footnote", "anchor", "link", "page_of", "seq", "contents"})
FILTERS = frozenset({"length", "count", "first", "last", "join", "upper", "lower", "trim"})
TESTS = frozenset({"none", "odd", "even"})
#: What may be asked of `loop`.
LOOP_NAMES = frozenset({"index", "index0", "revindex", "revindex0", "first", "last", "length", "depth"})
#: Longest text a template may write inside a tag [characters].
LONGEST_LITERAL = 500

_ALLOWED = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.For,
    nodes.If,
    nodes.Name,
    nodes.Getattr,
    nodes.Getitem,
    nodes.Const,
    nodes.Filter,
    nodes.Test,
    nodes.Call,
    nodes.And,
    nodes.Or,
    nodes.Not,
    nodes.Compare,
    nodes.Operand,
    nodes.CondExpr,
    nodes.Keyword,
)
_WORDS = {
    nodes.Assign: "set",
    nodes.AssignBlock: "set",
    nodes.Import: "import",
    nodes.FromImport: "import",
    nodes.Include: "include",
    nodes.Extends: "extends",
    nodes.Macro: "macro",
    nodes.CallBlock: "call",
    nodes.Block: "block",
    nodes.FilterBlock: "filter",
    nodes.With: "with",
    nodes.Pow: "**",
    nodes.Mul: "*",
    nodes.Add: "+",
    nodes.Sub: "-",
    nodes.Div: "/",
    nodes.FloorDiv: "//",
    nodes.Mod: "%",
    nodes.Neg: "-",
    nodes.Concat: "~",
    nodes.Slice: "[:]",
    nodes.List: "[...]",
    nodes.Tuple: "(...)",
    nodes.Dict: "{...}",
}


@frozen
class Refusal:
    """Something a template says that is not allowed: line of its tag, and what."""

    line: int
    what: str


def refusals(tree: nodes.Template) -> Iterator[Refusal]:
    """Yield everything in the tree that a template may not say; nothing if all is well."""
    for node in _walk(tree):
        if not isinstance(node, _ALLOWED):
            yield Refusal(node.lineno, _WORDS.get(type(node), type(node).__name__.lower()))
            continue
        what = _fault(node)
        if what:
            yield Refusal(node.lineno, what)


def _walk(node: nodes.Node) -> Iterator[nodes.Node]:
    yield node
    for child in node.iter_child_nodes():
        yield from _walk(child)


def _fault(node: nodes.Node) -> str:
    match node:
        case nodes.For():
            if node.recursive or not isinstance(node.target, nodes.Name):
                return "a loop over pairs, or one that calls itself"
            if not isinstance(node.iter, nodes.Name | nodes.Getattr):
                return "a loop over something that is not a list of the view"
        case nodes.Getattr(attr=name) | nodes.Name(name=name):
            if name.startswith("_"):
                return name
        case nodes.Getitem():
            if not (isinstance(node.arg, nodes.Const) and type(node.arg.value) is int):
                return "[...]"
        case nodes.Const(value=value):
            if isinstance(value, str) and len(value) > LONGEST_LITERAL:
                return "a text of more than 500 characters inside a tag"
        case nodes.Filter(name=name):
            if name not in FILTERS:
                return f"|{name}"
        case nodes.Test(name=name):
            if name not in TESTS:
                return f"is {name}"
        case nodes.Call():
            called = node.node
            if not (isinstance(called, nodes.Name) and called.name in HELPERS):
                return f"{_spelt(called)}(...)"
            if node.dyn_args is not None or node.dyn_kwargs is not None:
                return "*arguments"
    return ""


def _spelt(node: nodes.Node) -> str:
    if isinstance(node, nodes.Name):
        return str(node.name)
    if isinstance(node, nodes.Getattr):
        return f"{_spelt(node.node)}.{node.attr}"
    return "..."
