"""Turns a section template into the straight Python a person would write for it: constant text and escaped values.

No strict names, no closed environment, no counting of loops, no cleaning of texts: nothing but putting strings
together. Only what the shipped templates use is translated; anything else is an error.
"""

from collections.abc import Iterator

from jinja2 import nodes

from appraise.report.engine.environment import environment

_TESTS = {"eq": "==", "ne": "!=", "gt": ">", "gteq": ">=", "lt": "<", "lteq": "<="}
_HELPERS = ("picture", "chart", "footnote", "anchor", "link", "seq", "contents")


def translated(source: str, name: str) -> str:
    """Return the source of `def NAME(r, item, out, help, e)`, which appends pieces of text."""
    tree = environment().parse(source)
    return "\n".join([f"def {name}(r, item, out, help, e):", *_body(tree.body, 1)])


def _body(statements: list[nodes.Node], depth: int) -> Iterator[str]:
    indent = "    " * depth
    for one in statements:
        match one:
            case nodes.Output():
                yield f"{indent}out(f'''{''.join(map(_piece, one.nodes))}''')"
            case nodes.For():
                yield f"{indent}for loop_index, {_value(one.target)} in enumerate({_value(one.iter)}, 1):"
                yield from _body(one.body, depth + 1)
            case nodes.If():
                yield f"{indent}if {_value(one.test)}:"
                yield from _body(one.body, depth + 1)
                for other in one.elif_:
                    yield f"{indent}elif {_value(other.test)}:"
                    yield from _body(other.body, depth + 1)
                if one.else_:
                    yield f"{indent}else:"
                    yield from _body(one.else_, depth + 1)
            case nodes.With():
                for target, value in zip(one.targets, one.values, strict=True):
                    yield f"{indent}{_value(target)} = {_value(value)}"
                yield from _body(one.body, depth)
            case nodes.FilterBlock():
                level, numbered = (_value(each) for each in one.filter.args)
                yield f"{indent}heading = []; outer, out = out, heading.append"
                yield from _body(one.body, depth)
                yield f"{indent}out = outer; out(help.heading(''.join(heading), {level}, {numbered}))"
            case _:
                raise TypeError(f"not translated: {type(one).__name__}")


def _piece(node: nodes.Node) -> str:
    if isinstance(node, nodes.TemplateData):
        return node.data.replace("\\", "\\\\").replace("'", "\\'").replace("{", "{{").replace("}", "}}")
    value = _value(node)
    plain = isinstance(node, nodes.Call | nodes.Const) or value in ("_width", "loop_index")
    return f"{{{value if plain else f'e({value})'}}}"


def _value(node: nodes.Node) -> str:
    match node:
        case nodes.Name(name=name):
            return str(name)
        case nodes.Getattr(node=nodes.Name(name="loop"), attr="index"):
            return "loop_index"
        case nodes.Getattr(node=inner, attr=attr):
            return f"{_value(inner)}.{attr}"
        case nodes.Getitem(node=inner, arg=arg):
            return f"{_value(inner)}[{_value(arg)}]"
        case nodes.Const(value=value):
            return f"({value!r})".replace("'", '"')
        case nodes.Not(node=inner):
            return f"not {_value(inner)}"
        case nodes.And(left=left, right=right):
            return f"({_value(left)} and {_value(right)})"
        case nodes.Or(left=left, right=right):
            return f"({_value(left)} or {_value(right)})"
        case nodes.Compare(expr=left, ops=[operand]):
            return f"{_value(left)} {_TESTS[operand.op]} {_value(operand.expr)}"
        case nodes.Test(name="none", node=inner):
            return f"{_value(inner)} is None"
        case nodes.Filter(name="length", node=inner):
            return f"len({_value(inner)})"
        case nodes.Filter(name="_share", node=inner, args=[width]):
            return f"{_value(width)} // max(len({_value(inner)}), 1)"
        case nodes.Call(node=nodes.Name(name=name), args=args) if name in _HELPERS:
            return f"help.{name}({', '.join(map(_value, args))})"
        case nodes.Call(node=nodes.Name(name="_drawing_id")):
            return "help.drawing_id()"
        case _:
            raise TypeError(f"not translated: {type(node).__name__} {node}")
